// 'uncertainty: from book': how far this cellar's forecasts were off stands in place of what readings and models give.
#pragma once

#include "host/bench/worksheet.hpp"
#include "host/recipe/recipe.hpp"

namespace vatwright {

// The ± of each forecast on the sheet of which the book has cases enough; a note says how many, and whether they were
// off to one side.
void state_learned(const Recipe& recipe, Worksheet& sheet);

}  // namespace vatwright
