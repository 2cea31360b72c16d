// Two doses in one lot: what to measure between them.
#pragma once

#include "host/bench/worksheet.hpp"

#include <optional>
#include <vector>

namespace vatwright {

// The readings that `step` takes from the forecast of a step before it, where something was added to
// its lot before; none for a step that adds nothing.
std::optional<MeasureFirst> measure_first(const StepSheet& step, const std::vector<StepSheet>& before);

}  // namespace vatwright
