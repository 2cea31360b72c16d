#include "plugins/chemistry/debye_huckel.hpp"

#include "plugins/chemistry/alcoholometry.hpp"
#include "plugins/chemistry/ethanol_water.hpp"
#include "units/constants.hpp"

#include <cmath>

namespace vatwright::chemistry {
namespace {

// Numerical factors of A and B for a density in g/mL (textbook values, from memory).
constexpr double a_factor = 1.8246e6;
constexpr double b_factor = 50.29;  // per ångström
constexpr auto gram_per_millilitre = 1000.0 * kilogram_per_cubic_metre;
constexpr auto angstrom = 0.1 * nanometre;

}  // namespace

DebyeHuckel::DebyeHuckel(Fraction permittivity, Density density, Temperature temperature) {
  const double product = permittivity.value() * temperature.value();
  const double root = std::sqrt(density / gram_per_millilitre);
  a_ = a_factor * root / std::pow(product, 1.5);
  b_ = b_factor * root / std::sqrt(product);
}

DebyeHuckel DebyeHuckel::ethanol_water(Strength strength, Temperature temperature) {
  const MassFraction ethanol = ethanol_by_mass(strength);
  return {permittivity(ethanol, temperature), ethanol_water_density(ethanol, strength_temperature), temperature};
}

Fraction DebyeHuckel::extended(AmountConcentration ionic_strength, Length closest) const {
  const double root = std::sqrt(ionic_strength / mole_per_litre);
  return a_ * root / (1 + b_ * (closest / angstrom) * root);
}

}  // namespace vatwright::chemistry
