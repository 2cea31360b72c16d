#include "plugins/chemistry/ethanol_water.hpp"

#include "units/catalogue.hpp"
#include "units/constants.hpp"
#include "units/error.hpp"
#include "units/print.hpp"

#include <array>
#include <cmath>

namespace vatwright::chemistry {
namespace {

constexpr double slack = 1e-9;  // a unit conversion must not push an edge out of its range

// Coefficients per % vol and per (% vol)², least squares on OIML R 22 at 20 °C, 5 to 20 % vol (derived).
constexpr double linear = -1.4642;
constexpr double quadratic = 0.01188;

// Density of pure ethanol at 20 °C (OIML R 22).
constexpr Density pure_ethanol = 789.24 * kilogram_per_cubic_metre;

struct PermittivityRow {
  double mass_percent, at_20, at_25;
};
// Åkerlöf 1932, from memory.
constexpr std::array rows{PermittivityRow{0, 80.37, 78.48}, PermittivityRow{10, 74.60, 72.80},
                          PermittivityRow{20, 68.66, 67.00}};

void check_strength(Strength strength) {
  const double q = strength / percent_vol;
  if (q < -slack || q > 20 + slack)
    throw InputError("ethanol and water are known here from 0 to 20 % vol, not at " +
                     print(strength.value(), "% vol", 1));
}

}  // namespace

Density ethanol_water_density(Strength strength) {
  check_strength(strength);
  const double q = strength / percent_vol;
  return coherent<Density>(water_density_20 + linear * q + quadratic * q * q);
}

MassFraction ethanol_by_mass(Strength strength) {
  const Fraction by_volume = strength / coherent<Strength>(1);
  return by_volume * (pure_ethanol / ethanol_water_density(strength)) * coherent<MassFraction>(1);
}

Fraction permittivity(MassFraction ethanol, Temperature temperature) {
  const double p = ethanol / percent_mass;
  const double t = degrees_celsius(temperature);
  if (p < -slack || p > 20 + slack || t < -slack || t > 50 + slack)
    throw InputError("the permittivity of ethanol and water is known here from 0 to 20 % mass and 0 to 50 °C, not at " +
                     print(ethanol.value(), "% mass", 1) + " and " + print(temperature.value(), "°C", 1));
  const std::size_t low = p > rows[1].mass_percent ? 1 : 0;
  const auto& a = rows[low];
  const auto& b = rows[low + 1];
  const double into = (p - a.mass_percent) / (b.mass_percent - a.mass_percent);
  const double at_20 = a.at_20 + (b.at_20 - a.at_20) * into;
  const double at_25 = a.at_25 + (b.at_25 - a.at_25) * into;
  return coherent<Fraction>(at_20 * std::pow(at_25 / at_20, (t - 20) / 5));
}

}  // namespace vatwright::chemistry
