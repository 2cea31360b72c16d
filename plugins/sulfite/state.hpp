// The sulfur dioxide of a lot as it was measured, and what the law says of it.
#pragma once

#include "host/plugin/plugin.hpp"

namespace vatwright::sulfite {

// Throws InputError when both are known and free is above total.
void check_free_within_total(std::optional<MassConcentration> free_so2, std::optional<MassConcentration> total_so2);

// Holds both figures against the rule sets of the recipe, and notes a limit on the total that could
// not be checked because it was not measured.
void check_limits(const Inputs& in, MassConcentration free_so2, std::optional<MassConcentration> total_so2,
                  Outcome& out);

}  // namespace vatwright::sulfite
