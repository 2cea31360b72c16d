// What work that was done means for its lots: volumes, the law's accounts through joins, parts and what was poured in,
// and forecasts of what was done.
#pragma once

#include "host/book/lot_state.hpp"

#include <map>
#include <set>
#include <vector>

namespace vatwright::book {

// An entry 'done'. Its payload:
//   "calculation", "lot": what was done, on which lot ("": on none)
//   "volumes": {lot: litres}     by how much volumes grew or, drawn from, fell; nothing that was poured in
//   "poured": litres             into the lot, of what holds none of what the lot does
//   "enters": {account: fact}    into the lot's accounts, per volume of "for" litres
//   "makes": [lot]               of what was drawn, or of the lot
//   "leaves": {lot: {fact: ...}} forecasts and what is known of the work; null: not known any more
class Done {
 public:
  Done(const Entry& entry, const Json& payload) : entry_(entry), payload_(payload) {}

  // All that it has to do with.
  std::set<std::string> lots() const;
  // As they are after it; `before` has those that the book knows.
  std::vector<LotState> follow(const std::map<std::string, LotState>& before) const;

 private:
  Json about(std::string_view from) const;
  void leave(const Json& leaves, LotState& lot) const;
  void pour_in(double before, double after, LotState& lot) const;
  void enter(std::optional<double> before, LotState& lot) const;
  void join(const std::map<std::string, LotState>& before, LotState& made) const;
  std::map<std::string, double> drawn() const;

  const Entry& entry_;
  const Json& payload_;
};

}  // namespace vatwright::book
