// Permittivity of ethanol and water, in the range of wine.
#pragma once

#include "units/dimensions.hpp"

namespace vatwright::chemistry {

// Relative permittivity, 0 to 20 % mass and 0 to 50 °C: Åkerlöf 1932 (from memory), linear in the
// mass fraction, exponential in temperature through the rows of 20 and 25 °C. For water at 0 °C it
// is 0.8 % above the value of Malmberg and Maryott (from memory), at 40 °C 0.1 % below it.
// Throws InputError outside the range.
Fraction permittivity(MassFraction ethanol, Temperature temperature);

}  // namespace vatwright::chemistry
