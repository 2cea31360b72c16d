// The analysis of a blend held against the figures of the rule sets.
#pragma once

#include "plugins/blend/predict.hpp"
#include "plugins/lab/content_limits.hpp"

namespace vatwright::blend {

// Adds the checks of what is known of the blend. Where its lots differ in colour and the step does not
// say what it is, the strictest figure for any of their colours holds.
void check_analysis(const Inputs& in, const NewLot& blend, std::span<const Portion> portions, Outcome& out);

}  // namespace vatwright::blend
