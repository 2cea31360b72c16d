// Amounts that nobody can weigh or measure out are not ordered: the sheet says what could be measured instead.
#pragma once

#include "host/bench/worksheet.hpp"

#include <optional>

namespace vatwright {

// Where an addition is too small for balance, pipette or doser, the step gives nothing but a check that fails, which
// says what would be measurable, and the cautions of what it names. `volume`: of the lot, where it is known. Returns
// whether the step was refused.
bool refuse_unmeasurable(const Catalogue& catalogue, std::optional<Volume> volume, Outcome& outcome);

}  // namespace vatwright
