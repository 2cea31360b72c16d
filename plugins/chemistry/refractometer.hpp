// Sucrose by refraction of the sodium D line (589.3 nm), and the refractometer's correction for
// temperature.
#pragma once

#include "units/constants.hpp"

#include <array>

namespace vatwright::chemistry {

// Where the fit below was held against values of the ICUMSA table (from memory): 0 to 70 % mass.
inline constexpr Fraction least_refractive_index = coherent<Fraction>(1.3329);
inline constexpr Fraction most_refractive_index = coherent<Fraction>(1.4656);

namespace kernel {

// Fifth-degree fit of the ICUMSA table at 20 °C, in °Brix; n is the refractive index against air
// (coefficients seen in an encyclopaedia, which states no range).
constexpr double brix_of_refractive_index(double n) {
  return ((((11758.74 * n - 88885.21) * n + 270177.93) * n - 413145.80) * n + 318417.95) * n - 99127.4536;
}

}  // namespace kernel

// Mass fraction of sucrose at 20 °C, within 0.03 % mass; the fit lies 0.01 to 0.02 % mass low, and
// what falls below water is water. Throws InputError outside 1.3329 to 1.4656.
MassFraction sucrose_by_refraction(Fraction refractive_index);

// The refractive index of a solution at 20 °C: the fit turned round. 0 to 70 % mass; throws
// InputError outside.
Fraction sucrose_refractive_index(MassFraction sucrose);

// What is added to a reading in % mass of sucrose: OIV-MA-AS2-02, table 1, the rows and columns
// that were seen, and none at 20 °C by definition. The blanks are blanks of the table that was seen.
struct RefractometerTable {
  std::array<double, 10> readings;     // % mass
  std::array<double, 8> temperatures;  // °C
  std::array<std::array<double, 10>, 8> correction;
};
extern const RefractometerTable oiv_refractometer_table;

// A reading of a refractometer set for 20 °C, corrected by that table, straight lines between its
// nodes: 10 to 70 % mass, 5 to 20 °C. Throws InputError outside, and in its blanks: above 30 % mass
// below 10 °C, and above 60 % mass above 16 °C.
MassFraction corrected_refraction(MassFraction reading, Temperature temperature);

}  // namespace vatwright::chemistry
