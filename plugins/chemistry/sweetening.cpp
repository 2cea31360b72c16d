#include "plugins/chemistry/sweetening.hpp"

#include "plugins/chemistry/alcoholometry.hpp"
#include "plugins/chemistry/bracketed.hpp"
#include "plugins/chemistry/sucrose.hpp"
#include "units/atomic_weights.hpp"
#include "units/error.hpp"
#include "units/print.hpp"

#include <algorithm>

namespace vatwright::chemistry {
namespace {

constexpr Fraction hexose_of_sucrose = 2.0 * molar_mass("C6H12O6") / molar_mass("C12H22O11");
constexpr double most_sweetened = 0.70;
constexpr double sugar_slack = 1e-9;

Mass mass_of(const SweetMust& must) { return must.volume * sucrose_density(must.dissolved, strength_temperature); }

// The largest mass of sweetener, per mass of must, that this solution is known for.
double most_share(const SweetMust& must, const Sweetener& sweetener) {
  constexpr double many_times = 50;
  const double w = must.dissolved.value();
  const double dry = sweetener.dissolved.value();
  return dry > most_sweetened ? std::min((most_sweetened - w) / (dry - most_sweetened), many_times) : many_times;
}

template <class Figure>
Mass mass_for(const SweetMust& must, const Sweetener& sweetener, double wanted, Figure figure_of) {
  const Mass whole = mass_of(must);
  const auto missing = [&](double share) {
    return figure_of(sweetened(must, sweetener, share * whole)).value() - wanted;
  };
  return kernel::bracketed_root(missing, 0, most_share(must, sweetener)) * whole;
}

}  // namespace

Sweetener sucrose_sweetener() { return {100.0 * percent_mass, hexose_of_sucrose}; }

Sweetener concentrated_must(MassFraction strength) { return {strength, coherent<Fraction>(strength.value())}; }

Strength total_strength(const SweetMust& must, YieldFactor factor) {
  return must.ethanol + potential_alcohol(must.sugar, factor);
}

SweetMust sweetened(const SweetMust& must, const Sweetener& sweetener, Mass added) {
  const Mass before = mass_of(must);
  const Mass after = before + added;
  SweetMust out = must;
  out.dissolved = (before * must.dissolved + added * sweetener.dissolved) / after;
  out.volume = after / sucrose_density(out.dissolved, strength_temperature);
  out.sugar = (must.volume * must.sugar + added * sweetener.hexose) / out.volume;
  out.ethanol = must.ethanol * (must.volume / out.volume);
  return out;
}

Mass sweetener_for_strength(const SweetMust& must, const Sweetener& sweetener, Strength wanted, YieldFactor factor) {
  const auto strength = [&](const SweetMust& m) { return total_strength(m, factor); };
  const Strength now = strength(must);
  if (wanted <= now * (1 + sugar_slack)) return Mass{};
  const Strength most = strength(sweetened(must, sweetener, most_share(must, sweetener) * mass_of(must)));
  if (most < wanted)
    throw InputError("this cannot bring the must to " + print(wanted, "% vol", 2) +
                         "; the most that is known here is " + print(most, "% vol", 1),
                     "lower the target, or take what is stronger");
  return mass_for(must, sweetener, wanted.value(), strength);
}

Mass sweetener_for_sugar(const SweetMust& must, const Sweetener& sweetener, MassConcentration wanted) {
  const auto sugar = [](const SweetMust& m) { return m.sugar; };
  if (wanted <= must.sugar * (1 + sugar_slack)) return Mass{};
  const auto most = sweetened(must, sweetener, most_share(must, sweetener) * mass_of(must)).sugar;
  if (most < wanted)
    throw InputError("this cannot bring the lot to " + print(wanted, "g/L", 1) + "; the most that is known here is " +
                         print(most, "g/L", 0),
                     "lower the target, or take what is stronger");
  return mass_for(must, sweetener, wanted.value(), sugar);
}

Mass sweetener_for_gain(const SweetMust& must, const Sweetener& sweetener, Fraction gain) {
  return mass_for(must, sweetener, gain.value(),
                  [&](const SweetMust& m) -> Fraction { return m.volume / must.volume - 1.0; });
}

}  // namespace vatwright::chemistry
