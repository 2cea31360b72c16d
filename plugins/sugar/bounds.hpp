// Limits that one amount is held against, each with the figure that follows from it.
#pragma once

#include "host/plugin/plugin.hpp"

#include <algorithm>
#include <functional>
#include <string>
#include <vector>

namespace vatwright::sugar {

// `State` is what the lot becomes by the amount.
template <class State>
class Bounds {
 public:
  // Does nothing where no rule set has a figure.
  template <class Quantity, class Figure>
  void add(const Limit<Quantity>& limit, std::optional<Bound<Quantity>> bound, Figure figure_of) {
    if (!bound) return;
    clauses_.push_back({[row = *bound, figure_of](const State& then) { return row.met_by(figure_of(then)); },
                        [&limit, row = *bound, figure_of](const State& then, const std::string& remedy, Outcome& out) {
                          out.hold(limit, row, figure_of(then), 2, remedy);
                        }});
  }

  bool empty() const { return clauses_.empty(); }
  bool forbid(const State& then) const {
    return std::any_of(clauses_.begin(), clauses_.end(), [&](const Clause& c) { return !c.met(then); });
  }
  void hold(const State& then, const std::string& remedy, Outcome& out) const {
    for (const auto& clause : clauses_) clause.hold(then, remedy, out);
  }

 private:
  struct Clause {
    std::function<bool(const State&)> met;
    std::function<void(const State&, const std::string&, Outcome&)> hold;
  };
  std::vector<Clause> clauses_;
};

}  // namespace vatwright::sugar
