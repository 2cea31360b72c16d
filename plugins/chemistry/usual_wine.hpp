// What a wine is taken to be, and its laboratory, where nobody says (common practice, no source).
#pragma once

#include "units/constants.hpp"

namespace vatwright::chemistry {

inline constexpr Strength usual_strength = 12.0 * percent_vol;
// At which pH and acidity are measured, whatever the tank has.
inline constexpr Temperature laboratory_temperature = celsius(20);

}  // namespace vatwright::chemistry
