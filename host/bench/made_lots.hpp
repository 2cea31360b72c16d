// Steps that make lots, or draw from lots, and what that means for the steps after them on those lots.
#pragma once

#include "host/bench/worksheet.hpp"

#include <optional>
#include <string_view>
#include <vector>

namespace vatwright {

// Whether the step makes this lot, or makes others of it.
bool makes_of(const StepSheet& step, std::string_view lot);

// The last step before that makes the lot of `step`, or makes others of it; none for a step that adds nothing.
std::optional<MadeFirst> made_first(const StepSheet& step, const std::vector<StepSheet>& before);

// Takes the work and the additions out of a step that makes lots while a check of it fails, and out of every step after
// it that would work on what it makes or makes it of; the latter gets a check that says so, and loses its notes and
// second opinions, which tell of amounts and how to give them. What would have been added is among the reagents then:
// its figures are still on the sheet, and no dose is without its caution.
void withhold(StepSheet& step, const std::vector<StepSheet>& before);

}  // namespace vatwright
