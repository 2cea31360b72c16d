// One step of a worksheet in HTML: what to do first, then why it can be trusted.
#pragma once

#include "host/bench/worksheet.hpp"
#include "host/sheet/html_markup.hpp"

#include <cstddef>
#include <span>

namespace vatwright {

// Of `steps` the one at `at`, counted from 0; the section's id is "step-NUMBER", from 1. Cautions of a reagent that an
// earlier step has told stand there.
void write_step(Markup& page, std::span<const StepSheet> steps, std::size_t at);

// "Step 2, lot T7, 48.0 hL"
std::string step_title(std::size_t number, const StepSheet& step);

}  // namespace vatwright
