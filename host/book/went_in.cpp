#include "host/book/went_in.hpp"

#include <algorithm>
#include <limits>
#include <set>

namespace vatwright::book {
namespace {

class WentIn {
 public:
  explicit WentIn(const Book& book)
      : book_(book),
        // Of work that is on no lot, such as a gas over tanks, each lot that it has to do with.
        added_(book.data().prepare(
            "SELECT w.substance FROM touched t JOIN weighed w ON w.entry = t.entry "
            "WHERE t.lot = ? AND w.lot IN (t.lot, '') AND w.amount > 0 AND (t.moment, t.entry) <= (?, ?) "
            "AND (t.moment, t.entry) >= (SELECT moment, entry FROM happened WHERE entry = ?) "
            "ORDER BY t.moment, t.entry, w.line")) {}

  // Up to that hour, and of that hour up to that entry.
  void take(const LotState& lot, std::int64_t until, std::int64_t entry) {
    if (lot.made.is_object()) take_ancestors(lot);
    added_.with(lot.name, until, entry, lot.born);
    while (added_.step())
      if (std::string name = added_.text(0); std::find(all_.begin(), all_.end(), name) == all_.end())
        all_.push_back(name);
  }

  std::vector<std::string> all() && { return std::move(all_); }

 private:
  // A lot that went into another twice, or into two of its parts, is looked at once for each of the joins.
  void take_ancestors(const LotState& lot) {
    const auto join = lot.made.at("entry").get<std::int64_t>();
    const auto made = seconds_of(lot.made.at("at").get<std::string>());
    for (const auto& [name, share] : lot.made.at("of").items()) {
      if (!seen_.emplace(name, join).second) continue;
      // As it was when it was drawn from: its name may be another wine's by now.
      const auto before = book_.lot(name, made);
      if (before && before->born < join) take(*before, made, join);
    }
  }

  const Book& book_;
  sql::Statement added_;
  std::set<std::pair<std::string, std::int64_t>> seen_;
  std::vector<std::string> all_;
};

}  // namespace

std::vector<std::string> went_in(const Book& book, const LotState& lot, std::int64_t until) {
  WentIn found(book);
  found.take(lot, until, std::numeric_limits<std::int64_t>::max());
  return std::move(found).all();
}

}  // namespace vatwright::book
