// Whether what a plugin says of itself agrees: a check with its own figures, a dose with its amount
// and the volume that takes it.
#pragma once

#include "host/plugin/outcome.hpp"

#include <string>
#include <vector>

namespace vatwright {

// Each returns what is wrong, to be read after "an answer that cannot be used: ", or nothing. Figures are
// finite and in units of their dimension: `vet` has looked.

// A check holds where its value stands to its limit as the relation says, but for what rounding makes of
// either: half of the last figure shown. Where they are to be equal, a dose that was rounded may be off by
// a tenth, or by five of the last figure; a lot that is at its target, by a hundredth or as many.
std::string fault_in(const Check& check);

// `volumes`: those that may take the addition, the lot's before and after; it may name a part of its own.
// The dose is the amount over one of them, to the last figure shown or a thousandth. Nothing is heavier
// than the water of the lot, nor is more than a hundred times the lot poured in.
std::string fault_in(const Addition& addition, std::vector<Volume> volumes);

}  // namespace vatwright
