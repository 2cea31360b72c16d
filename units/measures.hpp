// Which unit is for which dimension.
#pragma once

#include "units/constants.hpp"
#include "units/parse.hpp"

namespace vatwright {

// Whether figures of that dimension are shown in it: kelvins, and no other unit of temperature, are also differences.
inline bool measures(const Unit& unit, const Dimension& dimension) {
  if (unit.dimension == dimension) return true;
  return dimension == dimension_of<TemperatureInterval>() && unit.dimension == dimension_of<Temperature>() &&
         unit.zero == 0;
}

}  // namespace vatwright
