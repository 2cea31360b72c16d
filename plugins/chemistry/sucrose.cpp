#include "plugins/chemistry/sucrose.hpp"

#include "plugins/chemistry/bracketed.hpp"
#include "plugins/chemistry/hydrometer.hpp"
#include "plugins/chemistry/known_range.hpp"
#include "plugins/chemistry/water.hpp"
#include "units/error.hpp"
#include "units/print.hpp"

#include <algorithm>

namespace vatwright::chemistry {

namespace {

// ICUMSA SPS-4: row j holds what multiplies ((t - 20) / 100)^j, with w, w² and so on. Transcribed
// from two copies that agree, but for the fourth entry of row 0, which one has as -3.9646 (less than
// 0.0001 kg/m³ at 70 % mass); SPS-4 itself was not opened.
constexpr std::array<std::array<double, 6>, 5> sps4{{
    {385.1761, 135.3705, 40.9299, -3.9643, 13.4853, -17.2890},
    {-46.2720, -7.1720, 1.1597, 5.1126, 17.5254},
    {59.7712, 7.2491, 12.3630, -35.4791},
    {-47.2207, -21.6977, 27.6301},
    {18.3184, 12.3081},
}};

constexpr double least_of_scale = -0.05;
constexpr double most_of_hydrometer = 0.70;

// The density at one temperature: coefficients of the powers of the mass fraction.
constexpr std::array<double, 7> isotherm(double t) {
  std::array<double, 7> power{kernel::water_density(t)};
  for (std::size_t k = 0; k < 6; ++k)
    for (std::size_t j = sps4.size(); j-- > 0;) power[k + 1] = power[k + 1] * ((t - 20) / 100) + sps4[j][k];
  return power;
}

}  // namespace

namespace kernel {

double sucrose_density(double w, double t) { return polynomial(isotherm(t), w); }

double sucrose_mass_fraction(double density, double t) {
  const auto at_t = isotherm(t);
  return bracketed_root([&](double w) { return polynomial(at_t, w) - density; }, least_of_scale, most_sucrose.value());
}

}  // namespace kernel

namespace {

double solution_degrees(Temperature temperature) {
  const double t = degrees_celsius(temperature);
  if (!within(t, degrees_celsius(sucrose_least_temperature), degrees_celsius(sucrose_most_temperature)))
    throw InputError("sucrose solutions are known here from " +
                         from_to(sucrose_least_temperature, sucrose_most_temperature, "°C") + ", not at " +
                         print(temperature, "°C", 1),
                     "bring the sample to 20 °C and read it again");
  return t;
}

}  // namespace

Density sucrose_density(MassFraction sucrose, Temperature temperature) {
  if (!within(sucrose.value(), 0, most_sucrose.value()))
    throw InputError("sucrose solutions are known here from " + from_to(MassFraction{}, most_sucrose, "% mass") +
                         ", not at " + print(sucrose, "% mass", 2),
                     "look at the figure and at its unit");
  return coherent<Density>(kernel::sucrose_density(std::max(sucrose.value(), 0.0), solution_degrees(temperature)));
}

MassFraction sucrose_mass_fraction(Density density, Temperature temperature) {
  const double t = solution_degrees(temperature);
  const double least = kernel::sucrose_density(0, t);
  const double most = kernel::sucrose_density(most_sucrose.value(), t);
  if (!within(density.value(), least, most))
    throw InputError("at " + print(temperature, "°C", 1) + " sucrose solutions have a density between " +
                         print(coherent<Density>(least), "kg/m³", 2) + " and " +
                         print(coherent<Density>(most), "kg/m³", 2) + ", not " + print(density, "kg/m³", 2),
                     "look at the reading, at its unit and at its temperature");
  return coherent<MassFraction>(std::max(kernel::sucrose_mass_fraction(density.value(), t), 0.0));
}

MassConcentration sucrose_concentration(MassFraction sucrose) {
  return sucrose_density(sucrose, hydrometer_temperature) * sucrose.value();
}

MassFraction brix_from_hydrometer(MassFraction reading, Temperature temperature) {
  const double t = solution_degrees(temperature);
  if (!within(reading.value(), least_of_scale, most_of_hydrometer))
    throw InputError(
        "a Brix hydrometer is read here from " +
            from_to(coherent<MassFraction>(least_of_scale), coherent<MassFraction>(most_of_hydrometer), "°Brix") +
            ", not at " + print(reading, "°Brix", 2),
        "look at the reading and at its unit");
  const auto shown = coherent<Density>(kernel::sucrose_density(reading.value(), 20));
  const Density real = density_by_hydrometer(shown, temperature);
  return coherent<MassFraction>(kernel::sucrose_mass_fraction(real.value(), t));
}

}  // namespace vatwright::chemistry
