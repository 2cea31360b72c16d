// What a hydrometer says away from the temperature that it was graduated at.
#pragma once

#include "units/constants.hpp"

namespace vatwright::chemistry {

// Hydrometers are graduated at 20 °C.
inline constexpr Temperature hydrometer_temperature = celsius(20);

// Cubic expansion of soda glass, of which hydrometers are made: OIML R 44, from memory.
inline constexpr auto soda_glass_expansion = coherent<Fraction>(25e-6) / kelvin;

// Density of the liquid that a glass hydrometer floats in, when the mark at the surface stands for
// `shown`: warm glass is larger, so that the same mark means a lighter liquid.
constexpr Density density_by_hydrometer(Density shown, Temperature temperature) {
  const Fraction growth = soda_glass_expansion * (temperature - hydrometer_temperature);
  return shown / (1.0 + growth.value());
}

}  // namespace vatwright::chemistry
