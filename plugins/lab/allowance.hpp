// What a rule still allows: most limits count all treatments of one lot together.
#pragma once

#include "host/plugin/inputs.hpp"
#include "host/plugin/lot.hpp"
#include "host/plugin/outcome.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>
#include <string_view>
#include <utility>

namespace vatwright::lab {

// What was added of a substance so far; none where the lot does not say.
inline MassConcentration added_before(const Readings& lot, std::string_view substance) {
  return lot.amount(lot::treated_with, substance);
}

// Throws InputError when that and `more` are more than any wine is given: a slip of the pen.
void check_total(const Readings& lot, std::string_view substance, MassConcentration more);

// Says so of a lot that does not state what was added before.
void note_none_added_before(const Readings& lot, Outcome& out);

template <class Quantity>
struct Allowance {
  const Limit<Quantity>* limit = nullptr;
  std::optional<Bound<Quantity>> bound{};  // nothing: no rule says
  Quantity before{};                       // of what the rule counts, there before
  double share = 1;                        // what the rule counts in one mass of the substance

  Quantity counted(Quantity more) const { return before + more * share; }
  bool passed_by(Quantity more) const { return bound && !bound->met_by(counted(more)); }
  // Never to be given, however little.
  bool forbids() const { return bound && !(bound->value > Quantity{}); }
  // The most of the substance that may still be given; infinite where no rule says.
  Quantity room() const {
    if (!bound) return Quantity::from_value(HUGE_VAL);
    return std::max<Quantity>(bound->value - before, Quantity{}) / share;
  }
  void hold(Quantity more, int decimals, std::string remedy, Outcome& out) const {
    if (bound) out.hold(*limit, *bound, counted(more), decimals, std::move(remedy));
  }
};

}  // namespace vatwright::lab
