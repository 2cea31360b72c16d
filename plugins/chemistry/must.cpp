#include "plugins/chemistry/must.hpp"

#include "plugins/chemistry/alcoholometry.hpp"
#include "plugins/chemistry/bracketed.hpp"
#include "plugins/chemistry/hydrometer.hpp"
#include "units/atomic_weights.hpp"
#include "units/error.hpp"
#include "units/print.hpp"

namespace vatwright::chemistry {
namespace {

constexpr MassFraction most_dissolved = 70.0 * percent_mass;

constexpr Fraction ethanol_of_hexose = 2.0 * molar_mass("C2H6O") / molar_mass("C6H12O6");

void check_factor(YieldFactor factor) {
  const YieldFactor least = stoichiometric_yield_factor();
  if (!(factor >= least))
    throw InputError("sugar cannot yield more than its formula gives, " + print(least * percent_vol, "g/L", 2) +
                         " for 1 % vol; the factor here is " + print(factor * percent_vol, "g/L", 2),
                     "give a yield that is in use");
}

}  // namespace

MassConcentration must_sugar(Density density_at_20, MassFraction non_sugar) {
  const MassFraction dissolved = sucrose_mass_fraction(density_at_20, hydrometer_temperature);
  if (non_sugar < 0.0 * percent_mass || dissolved < non_sugar)
    throw InputError("a must of " + print(density_at_20, "kg/m³", 1) + " holds " + print(dissolved, "% mass", 2) +
                         " dissolved, and " + print(non_sugar, "% mass", 2) +
                         " of that are counted as other than sugar",
                     "for a wine, use its sugar by analysis");
  return density_at_20 * (dissolved - non_sugar).value();
}

MassFraction must_dissolved(MassConcentration sugar, MassFraction non_sugar) {
  const auto missing = [&](double w) {
    return kernel::sucrose_density(w, 20) * (w - non_sugar.value()) - sugar.value();
  };
  if (!(sugar >= MassConcentration{}) || missing(most_dissolved.value()) < 0)
    throw InputError("no must holds " + print(sugar, "g/L", 1) + " of sugar",
                     "look at the sugar and at its unit: a must is known here up to 70 % mass of what is dissolved");
  return coherent<MassFraction>(kernel::bracketed_root(missing, 0, most_dissolved.value()));
}

YieldFactor stoichiometric_yield_factor() {
  const Strength pure = coherent<Strength>(1);
  return ethanol_concentration(pure) / ethanol_of_hexose / pure;
}

Strength potential_alcohol(MassConcentration sugar, YieldFactor factor) {
  check_factor(factor);
  const Strength strength = sugar / factor;
  if (!(sugar >= 0.0 * gram_per_litre) || strength > 100.0 * percent_vol)
    throw InputError("no strength comes of " + print(sugar, "g/L", 1) + " of sugar",
                     "look at the sugar and at its unit");
  return strength;
}

MassConcentration sugar_for(Strength strength, YieldFactor factor) {
  check_factor(factor);
  return strength * factor;
}

}  // namespace vatwright::chemistry
