#include "host/bench/waiting.hpp"

#include <algorithm>

namespace vatwright {

bool rests_on(const StepSheet& step, std::size_t earlier) {
  const auto is_its = [&](const UsedInput& used) {
    return used.read && used.from.is_forecast() && used.from.step == earlier;
  };
  return std::any_of(step.inputs.begin(), step.inputs.end(), is_its) ||
         std::any_of(step.asked_by_rules.begin(), step.asked_by_rules.end(), is_its);
}

}  // namespace vatwright
