// What a rule still allows: most limits count all treatments of one lot together.
#pragma once

#include "units/dimensions.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>
#include <string_view>
#include <utility>

namespace vatwright::chemistry {

// Throws InputError when `total` of a substance, all treatments together, is more than `most`: a slip of
// the pen, and not what any wine was given.
void check_total(std::string_view substance, MassConcentration total, MassConcentration most);

// `Limit` and `Bound` are a rule set's topic and its figure, as a calculation is given them.
template <class Limit, class Bound>
struct Allowance {
  using Quantity = decltype(Bound::value);

  const Limit* limit = nullptr;
  std::optional<Bound> bound{};  // nothing: no rule says
  Quantity before{};             // of what the rule counts, there before
  double share = 1;              // what the rule counts in one mass of the substance

  Quantity counted(Quantity more) const { return before + more * share; }
  bool passed_by(Quantity more) const { return bound && !bound->met_by(counted(more)); }
  // Never to be given, however little.
  bool forbids() const { return bound && !(bound->value > Quantity{}); }
  // The most of the substance that may still be given; infinite where no rule says.
  Quantity room() const {
    if (!bound) return Quantity::from_value(HUGE_VAL);
    return std::max<Quantity>(bound->value - before, Quantity{}) / share;
  }
  template <class Outcome>
  void hold(Quantity more, int decimals, std::string remedy, Outcome& out) const {
    if (bound) out.hold(*limit, *bound, counted(more), decimals, std::move(remedy));
  }
};

}  // namespace vatwright::chemistry
