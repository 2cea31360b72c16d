#include "plugins/chemistry/fermentation.hpp"

#include "plugins/chemistry/alcoholometry.hpp"
#include "plugins/chemistry/bracketed.hpp"
#include "plugins/chemistry/extract.hpp"
#include "plugins/chemistry/sucrose.hpp"
#include "units/error.hpp"
#include "units/print.hpp"

namespace vatwright::chemistry {
namespace {

// How much denser the must is at 20 °C when so much of its sugar is left.
Density shrinkage(const FermentingMust& must, MassConcentration left, Temperature from) {
  const auto grows = [&](auto density_at) -> Density { return density_at(strength_temperature) - density_at(from); };
  const MassFraction alcohol = ethanol_by_mass(alcohol_at(must, left));
  const MassFraction extract = must_dissolved(left + must.other, MassFraction{});
  return grows([&](Temperature t) { return ethanol_water_density(alcohol, t); }) +
         grows([&](Temperature t) -> Density { return sucrose_density(extract, t) - sucrose_density({}, t); });
}

}  // namespace

FermentingMust fermenting_must(Density original, YieldFactor factor, MassFraction non_sugar) {
  return {must_sugar(original, non_sugar), original * non_sugar.value(), factor};
}

Strength alcohol_at(const FermentingMust& must, MassConcentration left) {
  return potential_alcohol(must.sugar - left, must.factor);
}

Density density_at(const FermentingMust& must, MassConcentration left) {
  return wine_density(alcohol_at(must, left), left + must.other);
}

MassConcentration sugar_left(const FermentingMust& must, Density now) {
  constexpr double hair = 0.01;  // kg/m³: OIML R 22 and Kell put water 0.002 apart
  const Density at_first = density_at(must, must.sugar);
  if (now.value() > at_first.value() + hair)
    throw InputError(
        "the density of now, " + print(now, "kg/m³", 1) + ", is above the original one, " + print(at_first, "kg/m³", 1),
        "look whether the two are swapped");
  extract_gravity(now, alcohol_at(must, MassConcentration{}));
  const double whole = must.sugar.value();
  const auto above = [&](double share) {
    return density_at(must, coherent<MassConcentration>(share * whole)).value() - now.value();
  };
  return coherent<MassConcentration>(kernel::bracketed_root(above, 0, 1) * whole);
}

Density density_at_20(const FermentingMust& must, Density now, Temperature temperature) {
  const auto left_at = [&](double share) { return coherent<MassConcentration>(share * must.sugar.value()); };
  const auto above = [&](double share) {
    const Density there = density_at(must, left_at(share)) - shrinkage(must, left_at(share), temperature);
    return there.value() - now.value();
  };
  return now + shrinkage(must, left_at(kernel::bracketed_root(above, 0, 1)), temperature);
}

}  // namespace vatwright::chemistry
