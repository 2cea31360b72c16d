#include "plugins/chemistry/alcoholometry.hpp"

#include "plugins/chemistry/bracketed.hpp"
#include "plugins/chemistry/known_range.hpp"
#include "plugins/chemistry/oiml_r22.hpp"
#include "units/error.hpp"
#include "units/print.hpp"

#include <algorithm>

namespace vatwright::chemistry {

namespace kernel {

// Row 0 of the table is the density at 20 °C.
constexpr auto at_20 = oiml_r22[0];
constexpr double pure_ethanol_at_20 = polynomial(at_20, 1.0);

double ethanol_mass_fraction(double density, double t) {
  const auto isotherm = oiml_r22_isotherm(t);
  return bracketed_root([&](double p) { return polynomial(isotherm, p) - density; }, 0, 1);
}

double strength_by_volume(double mass_fraction) {
  return mass_fraction * polynomial(at_20, mass_fraction) / pure_ethanol_at_20;
}

double strength_by_mass(double volume_fraction) {
  return nearly_straight_root([&](double p) { return strength_by_volume(p) - volume_fraction; }, 0, 1,
                              {0, -volume_fraction}, {1, 1 - volume_fraction});
}

}  // namespace kernel

namespace {

double mixture_degrees(Temperature temperature) {
  const double t = degrees_celsius(temperature);
  constexpr double least = degrees_celsius(alcoholometry_least_temperature);
  constexpr double most = degrees_celsius(alcoholometry_most_temperature);
  if (!within(t, least, most))
    throw InputError("ethanol and water are known here from " +
                         from_to(alcoholometry_least_temperature, alcoholometry_most_temperature, "°C") + ", not at " +
                         print(temperature, "°C", 1),
                     "bring the sample to 20 °C and read it again");
  return t;
}

double share(MassFraction ethanol) {
  if (!within(ethanol.value(), 0, 1))
    throw InputError("a share of ethanol lies between 0 and 100 % mass, not " + print(ethanol, "% mass", 2),
                     "look at the figure and at its unit");
  return std::clamp(ethanol.value(), 0.0, 1.0);
}

double share(Strength strength) {
  if (!within(strength.value(), 0, 1))
    throw InputError("a strength lies between 0 and 100 % vol, not " + print(strength, "% vol", 2),
                     "look at the figure and at its unit");
  return std::clamp(strength.value(), 0.0, 1.0);
}

// What the liquid's density is over that which the scale of the instrument stands for.
double scale_factor(Temperature temperature, Alcoholometer instrument) {
  if (instrument == Alcoholometer::density_meter) return 1;
  return density_by_hydrometer(kilogram_per_cubic_metre, temperature) / kilogram_per_cubic_metre;
}

}  // namespace

Density ethanol_water_density(MassFraction ethanol, Temperature temperature) {
  return coherent<Density>(kernel::ethanol_water_density(share(ethanol), mixture_degrees(temperature)));
}

MassFraction ethanol_mass_fraction(Density density, Temperature temperature) {
  const double t = mixture_degrees(temperature);
  const double ethanol = kernel::ethanol_water_density(1, t);
  const double water = kernel::ethanol_water_density(0, t);
  if (!within(density.value(), ethanol, water))
    throw InputError("at " + print(temperature, "°C", 1) + " ethanol and water have a density between " +
                         print(coherent<Density>(ethanol), "kg/m³", 2) + " and " +
                         print(coherent<Density>(water), "kg/m³", 2) + ", not " + print(density, "kg/m³", 2),
                     "look at the reading and at its temperature; what holds more than ethanol and water is distilled "
                     "first");
  return coherent<MassFraction>(kernel::ethanol_mass_fraction(density.value(), t));
}

Strength strength_of(MassFraction ethanol) { return coherent<Strength>(kernel::strength_by_volume(share(ethanol))); }

MassFraction ethanol_by_mass(Strength strength) {
  return coherent<MassFraction>(kernel::strength_by_mass(share(strength)));
}

MassConcentration ethanol_concentration(Strength strength) {
  return coherent<Density>(kernel::pure_ethanol_at_20) * share(strength);
}

Strength strength_from_apparent(Strength apparent, Temperature temperature, Alcoholometer instrument) {
  const Density shown = ethanol_water_density(ethanol_by_mass(apparent), strength_temperature);
  const Density real = shown * scale_factor(temperature, instrument);
  if (!within(real.value(), ethanol_water_density(100.0 * percent_mass, temperature).value(),
              ethanol_water_density({}, temperature).value()))
    throw InputError(
        "no mixture of ethanol and water shows " + print(apparent, "% vol", 2) + " at " + print(temperature, "°C", 1),
        "look at the reading, and at the temperature that it was taken at");
  return strength_of(ethanol_mass_fraction(real, temperature));
}

EthanolWater ethanol_water(Volume at_20, Strength strength) {
  const MassFraction ethanol = ethanol_by_mass(strength);
  return {at_20 * ethanol_water_density(ethanol, strength_temperature), ethanol};
}

Mixed mix(const EthanolWater& a, const EthanolWater& b, Temperature temperature) {
  const Mass mass = a.mass + b.mass;
  if (a.mass < 0.0 * kilogram || b.mass < 0.0 * kilogram || !(mass > 0.0 * kilogram))
    throw InputError("a mix needs two masses that are not negative, and not both zero", "look at the two volumes");
  const auto room = [&](const EthanolWater& liquid) {
    return liquid.mass / ethanol_water_density(liquid.ethanol, temperature);
  };
  const EthanolWater liquid{mass, (a.mass * a.ethanol + b.mass * b.ethanol) / mass};
  const Volume volume = room(liquid);
  return {liquid, volume, room(a) + room(b) - volume};
}

}  // namespace vatwright::chemistry
