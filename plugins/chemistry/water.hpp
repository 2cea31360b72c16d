// Density of pure water at one atmosphere.
#pragma once

#include "plugins/chemistry/polynomial.hpp"
#include "units/constants.hpp"

#include <array>

namespace vatwright::chemistry {
namespace kernel {

// kg/m³ at t in °C: Kell, J. Chem. Eng. Data 20 (1975) 97, his equation for -20 to 110 °C, below
// 0 °C supercooled (coefficients seen; range from memory).
constexpr double water_density(double t) {
  constexpr std::array over{999.83952, 16.952577, -7.9905127e-3, -46.241757e-6, 105.84601e-9, -281.03006e-12};
  return polynomial(over, t) / (1 + 16.887236e-3 * t);
}

}  // namespace kernel

inline constexpr Density water_at_20 = kernel::water_density(20) * kilogram_per_cubic_metre;

}  // namespace vatwright::chemistry
