// What to measure before a dose: it does not rest on a forecast, whichever calculation made that.
#pragma once

#include "host/bench/worksheet.hpp"

#include <optional>
#include <vector>

namespace vatwright {

// The forecasts of steps before it that `step` takes; none for a step that adds nothing.
std::optional<MeasureFirst> measure_first(const StepSheet& step, const std::vector<StepSheet>& before);

}  // namespace vatwright
