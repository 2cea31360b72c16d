#include "plugins/chemistry/ethanol_water.hpp"

#include "plugins/chemistry/known_range.hpp"
#include "units/constants.hpp"
#include "units/error.hpp"
#include "units/print.hpp"

#include <array>
#include <cmath>

namespace vatwright::chemistry {
namespace {

struct PermittivityRow {
  double mass_percent, at_20, at_25;
};
// Åkerlöf 1932, from memory.
constexpr std::array permittivities{PermittivityRow{0, 80.37, 78.48}, PermittivityRow{10, 74.60, 72.80},
                                    PermittivityRow{20, 68.66, 67.00}};

}  // namespace

Fraction permittivity(MassFraction ethanol, Temperature temperature) {
  const double p = ethanol / percent_mass;
  const double t = degrees_celsius(temperature);
  if (p < -slack || p > 20 + slack || t < -slack || t > 50 + slack)
    throw InputError("the permittivity of ethanol and water is known here from 0 to 20 % mass and 0 to 50 °C, not at " +
                         print(ethanol, "% mass", 1) + " and " + print(temperature, "°C", 1),
                     "look at both figures and their units; reckon before spirit is added");
  const std::size_t low = p > permittivities[1].mass_percent ? 1 : 0;
  const auto& a = permittivities[low];
  const auto& b = permittivities[low + 1];
  const double into = (p - a.mass_percent) / (b.mass_percent - a.mass_percent);
  const double at_20 = a.at_20 + (b.at_20 - a.at_20) * into;
  const double at_25 = a.at_25 + (b.at_25 - a.at_25) * into;
  return coherent<Fraction>(at_20 * std::pow(at_25 / at_20, (t - 20) / 5));
}

}  // namespace vatwright::chemistry
