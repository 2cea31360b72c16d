#include "plugins/sugar/closing.hpp"

#include <cmath>

namespace vatwright::sugar {

Check closing_check(const Key<Strength>& target, Strength wanted, Strength got, std::string model) {
  constexpr double coarse = 0.05;  // % vol: rounding that moves the target by more is too coarse
  const bool holds = std::abs((got - wanted) / percent_vol) <= coarse;
  return {.name = "closing check: " + std::string(target.name),
          .holds = holds,
          .value = figure(got, "% vol", 2),
          .limit = figure(wanted, "% vol", 2),
          .relation = "equals",
          .source = std::move(model),
          .remedy = holds ? "" : "the amount is too small to be weighed or measured out well"};
}

Check enough_check(const Key<Strength>& target, Strength wanted, Strength there) {
  constexpr double slack = 1e-9;  // the arithmetic is not exact
  return {.name = std::string(target.name),
          .holds = there >= wanted * (1 - slack),
          .value = figure(there, "% vol", 2),
          .limit = figure(wanted, "% vol", 2),
          .relation = "at least",
          .source = std::string(as_asked_for),
          .remedy = {}};
}

}  // namespace vatwright::sugar
