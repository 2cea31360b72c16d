#include "host/bench/waiting.hpp"

#include <algorithm>

namespace vatwright {

bool rests_on(const StepSheet& step, std::size_t earlier) {
  return std::any_of(step.inputs.begin(), step.inputs.end(), [&](const UsedInput& used) {
    return used.read && used.from.is_forecast() && used.from.step == earlier;
  });
}

}  // namespace vatwright
