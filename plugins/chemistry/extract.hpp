// Extract of a wine from its density and its alcohol (Tabarié), as OIV-MA-AS2-03B has it: what stays
// behind weighs as sucrose does.
#pragma once

#include "units/constants.hpp"

namespace vatwright::chemistry {

// Density at 20 °C without what sulfur dioxide and volatile acidity add to it: 0.0006 g/mL for 1 g/L
// of total sulfur dioxide (OIV-MA-AS2-01A), 0.0000086 g/mL for 1 meq/L (from memory).
Density extract_density(Density wine, MassConcentration total_so2, Acidity volatile_acidity);

// Relative density of the extract's solution, 20/20: 1 + 1.00180 (wine - its alcohol), in g/mL. Throws
// InputError for a density below that of ethanol and water of this strength.
Fraction extract_gravity(Density wine_at_20, Strength ethanol);

// Grams of sucrose in a litre of a solution of that relative density; throws InputError outside the
// range of sucrose_mass_fraction.
MassConcentration total_dry_extract(Fraction gravity);

// The density of a wine of so much alcohol and extract: the two above turned round.
Density wine_density(Strength ethanol, MassConcentration extract);

}  // namespace vatwright::chemistry
