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

}  // namespace vatwright::sugar
