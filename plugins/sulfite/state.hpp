// The sulfur dioxide of a lot as it was measured, and what the law says of it.
#pragma once

#include "host/plugin/plugin.hpp"

namespace vatwright::sulfite {

struct Readings {
  std::optional<MassConcentration> free, total;
};
// Throws InputError when both were read and free is above total. Two readings near each other may cross
// when they are drawn: there, total is then taken for as much as free.
Readings read_so2(const Inputs& in);

// Holds both figures against the rule sets of the recipe, and notes a limit that could not be checked because
// the figure was not measured.
void check_limits(const Inputs& in, std::optional<MassConcentration> free_so2,
                  std::optional<MassConcentration> total_so2, Outcome& out);

}  // namespace vatwright::sulfite
