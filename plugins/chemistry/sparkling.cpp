#include "plugins/chemistry/sparkling.hpp"

#include "plugins/chemistry/constants.hpp"
#include "units/atomic_weights.hpp"
#include "units/error.hpp"
#include "units/print.hpp"

#include <algorithm>
#include <cmath>

namespace vatwright::chemistry {
namespace {

constexpr Fraction gas_of_hexose = 2.0 * molar_mass("CO2") / molar_mass("C6H12O6");
constexpr Pressure atmosphere = kernel::atmosphere * pascal;
constexpr Strength most_ethanol = 25.0 * percent_vol;
constexpr MassConcentration most_sugar = 200.0 * gram_per_litre;
constexpr double heat_of_solution = 24800;  // J/mol

using Solubility = decltype(MassConcentration() / Pressure());

Solubility solubility_at_20(Strength ethanol, MassConcentration sugar) {
  if (!(ethanol <= most_ethanol && sugar <= most_sugar))
    throw InputError("the pressure of carbon dioxide is known in wine of up to " + print(most_ethanol, "% vol", 0) +
                         " and " + print(most_sugar, "g/L", 0) + " of sugar, and here are " +
                         print(ethanol, "% vol", 1) + " and " + print(sugar, "g/L", 1),
                     "look at the ethanol and the sugar of the lot");
  return 1.951e-5 * (0.86 - 0.01 * (ethanol / percent_vol)) * (1 - 0.00144 * (sugar / gram_per_litre)) *
         gram_per_litre / pascal;
}

}  // namespace

MassConcentration carbon_dioxide_of(MassConcentration sugar) { return sugar * gas_of_hexose * share_to_gas; }

MassConcentration dissolved_carbon_dioxide(Pressure over, Strength ethanol, MassConcentration sugar) {
  return solubility_at_20(ethanol, sugar) * (over + atmosphere);
}

Pressure overpressure(MassConcentration carbon_dioxide, Strength ethanol, MassConcentration sugar) {
  return std::max<Pressure>(carbon_dioxide / solubility_at_20(ethanol, sugar) - atmosphere, Pressure{});
}

Pressure overpressure_at(Temperature temperature, Pressure at_20) {
  const double colder = 1 / temperature.value() - 1 / pressure_temperature.value();
  const double more_soluble = std::exp(heat_of_solution / kernel::gas_constant * colder);
  return std::max<Pressure>((at_20 + atmosphere) / more_soluble - atmosphere, Pressure{});
}

}  // namespace vatwright::chemistry
