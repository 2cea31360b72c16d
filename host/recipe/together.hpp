// What the figures of one analysis cannot be together, whoever wrote them: a recipe or a table of lots.
#pragma once

#include "host/plugin/readings.hpp"

namespace vatwright {

// Throws InputError when both are known and free sulfur dioxide is above total.
void check_together(const Value* free_so2, const Value* total_so2);

}  // namespace vatwright
