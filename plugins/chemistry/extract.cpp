#include "plugins/chemistry/extract.hpp"

#include "plugins/chemistry/alcoholometry.hpp"
#include "plugins/chemistry/must.hpp"
#include "plugins/chemistry/sucrose.hpp"
#include "plugins/chemistry/water.hpp"
#include "units/error.hpp"
#include "units/print.hpp"

#include <algorithm>

namespace vatwright::chemistry {
namespace {

constexpr double tabarie = 1.00180;  // OIV-MA-AS2-03B
constexpr Density of_water_at_4 = 1000.0 * kilogram_per_cubic_metre;
constexpr auto sulfur_dioxide_share = coherent<Fraction>(0.6);          // 0.0006 g/mL for 1 g/L
constexpr auto volatile_acid_share = coherent<EquivalentMass>(0.0086);  // 0.0000086 g/mL for 1 meq/L, kg/eq
constexpr double reading = 1e-6;                                        // the arithmetic is not exact

Density alcohol_density(Strength ethanol) {
  return ethanol_water_density(ethanol_by_mass(ethanol), strength_temperature);
}

}  // namespace

Density extract_density(Density wine, MassConcentration total_so2, Acidity volatile_acidity) {
  return wine - total_so2 * sulfur_dioxide_share - volatile_acidity * volatile_acid_share;
}

Fraction extract_gravity(Density wine_at_20, Strength ethanol) {
  const Density alcohol = alcohol_density(ethanol);
  if (!(wine_at_20 >= alcohol * (1 - reading)))
    throw InputError("a density of " + print(wine_at_20, "kg/m³", 2) + " is below that of " +
                         print(ethanol, "% vol", 2) + " of alcohol alone, " + print(alcohol, "kg/m³", 2),
                     "measure density and ethanol again, both at 20 °C");
  return 1.0 + tabarie * (wine_at_20 - alcohol) / of_water_at_4;
}

MassConcentration total_dry_extract(Fraction gravity) {
  const Density solution = std::max(gravity * water_at_20, water_at_20);
  return sucrose_concentration(sucrose_mass_fraction(solution, strength_temperature));
}

Density wine_density(Strength ethanol, MassConcentration extract) {
  const MassFraction dissolved = must_dissolved(extract, MassFraction{});
  const Fraction gravity = sucrose_density(dissolved, strength_temperature) / water_at_20;
  return alcohol_density(ethanol) + (gravity - 1.0) * of_water_at_4 / tabarie;
}

}  // namespace vatwright::chemistry
