// Ethanol and water, in the range of wine: density, mass fraction, permittivity.
#pragma once

#include "units/dimensions.hpp"

namespace vatwright::chemistry {

// Density at 20 °C, 0 to 20 % vol, good to 0.2 kg/m³: a quadratic through pure water, fitted to
// OIML R 22. The alcoholometry module will replace it. Throws InputError outside the range.
Density ethanol_water_density(Strength strength);

// Mass of ethanol per mass of the mix, 0 to 20 % vol, good to 0.01 % mass. Throws InputError
// outside the range.
MassFraction ethanol_by_mass(Strength strength);

// Relative permittivity, 0 to 20 % mass and 0 to 50 °C: Åkerlöf 1932 (from memory), linear in the
// mass fraction, exponential in temperature through the rows of 20 and 25 °C. For water at 0 °C it
// is 0.8 % above the value of Malmberg and Maryott (from memory), at 40 °C 0.1 % below it.
// Throws InputError outside the range.
Fraction permittivity(MassFraction ethanol, Temperature temperature);

}  // namespace vatwright::chemistry
