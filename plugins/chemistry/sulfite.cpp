#include "plugins/chemistry/sulfite.hpp"

#include "plugins/chemistry/debye_huckel.hpp"
#include "plugins/chemistry/known_range.hpp"
#include "units/error.hpp"
#include "units/print.hpp"

#include <algorithm>

namespace vatwright::chemistry {
namespace {

// Which interval of an axis, and how far into it; beyond 1 in the last one is extrapolation.
struct GridPlace {
  std::size_t low;
  double into;
};

template <std::size_t N>
GridPlace grid_place(const std::array<double, N>& axis, double x) {
  std::size_t low = 0;
  while (low + 2 < N && x > axis[low + 1]) ++low;
  return {low, (x - axis[low]) / (axis[low + 1] - axis[low])};
}

double interpolated(double a, double b, double into) { return a + (b - a) * into; }

void check_range(Strength strength, Temperature temperature) {
  if (strength < Strength{} || strength > oiv_most_strength * (1 + slack))
    throw InputError("the OIV model of pK1 covers " + from_to(Strength{}, oiv_most_strength, "% vol") + ", not " +
                         print(strength, "% vol", 1),
                     "take the constant model, or give pK1");
  const double t = degrees_celsius(temperature);
  if (t < oiv_pk1_grid.temperatures.front() - slack || t > oiv_pk1_grid.temperatures.back() + slack)
    throw InputError("the OIV model of pK1 covers " + from_to(oiv_least_temperature, oiv_most_temperature, "°C") +
                         ", not " + print(temperature, "°C", 1),
                     "take the constant model, or give pK1");
}

}  // namespace

Fraction oiv_thermodynamic_pk1(Strength strength, Temperature temperature) {
  check_range(strength, temperature);
  const auto row = grid_place(oiv_pk1_grid.strengths, strength / percent_vol);
  const auto column = grid_place(oiv_pk1_grid.temperatures, degrees_celsius(temperature));
  const auto along = [&](const std::array<double, 5>& pk1) {
    return interpolated(pk1[column.low], pk1[column.low + 1], column.into);
  };
  const auto& pk1 = oiv_pk1_grid.pk1;
  return coherent<Fraction>(interpolated(along(pk1[row.low]), along(pk1[row.low + 1]), row.into));
}

Fraction oiv_pk1(Strength strength, Temperature temperature) {
  const auto thermodynamic = oiv_thermodynamic_pk1(strength, temperature);
  const auto solvent = DebyeHuckel::ethanol_water(std::min(strength, oiv_most_strength), temperature);
  return thermodynamic - solvent.extended(oiv_ionic_strength, oiv_closest_approach);
}

}  // namespace vatwright::chemistry
