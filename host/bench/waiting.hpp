// Additions that wait for their moment, such as the second portion of a nutrient, and what has to wait with them.
#pragma once

#include "host/bench/worksheet.hpp"

namespace vatwright {

inline bool waits(const Addition& addition) { return !addition.when.empty(); }

// Whether `step` takes a forecast of steps[earlier]: then it cannot be done before that.
bool rests_on(const StepSheet& step, std::size_t earlier);

}  // namespace vatwright
