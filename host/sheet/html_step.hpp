// One step of a worksheet in HTML: what to do first, then why it can be trusted.
#pragma once

#include "host/bench/worksheet.hpp"
#include "host/sheet/html_markup.hpp"

#include <cstddef>

namespace vatwright {

// `number` counts from 1; the section's id is "step-NUMBER".
void write_step(Markup& page, std::size_t number, const StepSheet& step);

// "Step 2, lot T7, 48.0 hL"
std::string step_title(std::size_t number, const StepSheet& step);

}  // namespace vatwright
