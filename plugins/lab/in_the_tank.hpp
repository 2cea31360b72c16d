// What a lot has at the temperature of its tank, beside what the laboratory reads at its own.
#pragma once

#include "host/plugin/plugin.hpp"
#include "plugins/chemistry/lab_analysis.hpp"

#include <optional>

namespace vatwright::lab {

struct InTheTank {
  Temperature temperature;
  Ph ph;
  // Molecular in free sulfur dioxide, over what it is where the laboratory reads it: by the constants of the acid-base
  // engine at both temperatures.
  Fraction molecular_change;
};

// Of what is dissolved, read at chemistry::laboratory_temperature. Nothing where the temperature of the lot is not
// known, lies outside 0 to 50 °C, or is so near that a meter would not tell.
std::optional<InTheTank> in_the_tank(const Inputs& in, const chemistry::Composition& dissolved);

// The same of a lot as it stands; nothing where pH and titratable acidity are not known, or cannot be together.
std::optional<InTheTank> in_the_tank(const Inputs& in);

// As a note.
void tell_ph_in_the_tank(const Inputs& in, const chemistry::Composition& dissolved, Outcome& out);

}  // namespace vatwright::lab
