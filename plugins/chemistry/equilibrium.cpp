#include "plugins/chemistry/equilibrium.hpp"

#include "plugins/chemistry/balance.hpp"
#include "units/error.hpp"
#include "units/print.hpp"

namespace vatwright::chemistry {
namespace {

Equilibrium checked(const kernel::Balance::State& state) {
  Equilibrium out{state.ph * ph_unit, state.ionic_strength * mole_per_litre};
  if (out.ionic_strength > most_ionic_strength)
    throw InputError("activity coefficients are known here up to an ionic strength of " +
                         print(most_ionic_strength, "mol/L", 1) + ", not at " + print(out.ionic_strength, "mol/L", 2),
                     "it holds more salt and acid than a must or wine: measure pH, acidity and cations again, or ask "
                     "for less");
  return out;
}

kernel::Balance::State held_at(const kernel::Balance& balance, Ph target, std::optional<double> near = {}) {
  const auto state = balance.held_at(target.value(), near);
  checked(state);
  return state;
}

Acidity base_to(const kernel::Balance& balance, Ph target) {
  return equivalents(balance.base(held_at(balance, target)) * mole_per_litre);
}

}  // namespace

Equilibrium equilibrium(const Composition& composition, const Medium& medium) {
  return checked(kernel::Balance(composition, medium).solve());
}

Equilibrium equilibrium(const Composition& composition, const Medium& medium, Ph near) {
  return checked(kernel::Balance(composition, medium).solve(near.value()));
}

Acidity base_to(const Composition& composition, Ph target, const Medium& medium) {
  if (!(target.value() >= 0 && target.value() <= 14))
    throw InputError("a titration goes to a pH from 0 to 14, not to " + print_number(target.value(), 2),
                     "the end points in use are 7.0 and 8.2");
  return base_to(kernel::Balance(composition, medium), target);
}

Composition degassed(Composition composition) {
  composition[Acid::carbonic] = {};
  return composition;
}

Acidity titratable_acidity(const Composition& composition, Ph endpoint, const Medium& medium) {
  return base_to(degassed(composition), endpoint, medium);
}

BufferCapacity buffer_capacity(const Composition& composition, const Medium& medium) {
  return buffer_capacity(composition, equilibrium(composition, medium).ph, medium);
}

BufferCapacity buffer_capacity(const Composition& composition, Ph ph, const Medium& medium) {
  // Upwards only: base and acid bring different ions. Second order through two steps; the error is
  // below 1e-5 of the answer.
  constexpr Ph step = 1e-3 * ph_unit;
  const kernel::Balance balance(composition, medium);
  const auto once = held_at(balance, ph + step), twice = held_at(balance, ph + 2.0 * step, once.ionic_strength);
  return (4.0 * balance.base(once) - balance.base(twice)) * mole_per_litre / (2.0 * step);
}

Fraction share(Acid acid, std::size_t charge, const Equilibrium& at, const Medium& medium) {
  double term = 1, sum = 1, wanted = charge == 0 ? 1 : 0;
  for (std::size_t step = 0; step < row(acid).protons; ++step) {
    term *= kernel::power_of_ten(at.ph.value() - medium.mixed_pk(acid, step, at.ionic_strength).value());
    sum += term;
    if (step + 1 == charge) wanted = term;
  }
  return coherent<Fraction>(wanted / sum);
}

}  // namespace vatwright::chemistry
