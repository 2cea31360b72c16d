// An amount that was decided on elsewhere: of sulfur dioxide or of the product that is weighed, by the lot or by its
// fruit.
#pragma once

#include "host/plugin/plugin.hpp"

namespace vatwright::sulfite::addition {

// Sulfur dioxide in the lot that the stated amount is, and a note of which of the two was meant. Throws InputError for
// an amount that could be either, with both readings, and for fruit or 'add as' that belong to nothing; zero where the
// step states no amount.
MassConcentration stated_so2(const Inputs& in, Outcome& out);

}  // namespace vatwright::sulfite::addition
