// The charge balance in bare numbers, mol/L: the kernel behind equilibrium.hpp and inference.hpp.
#pragma once

#include "plugins/chemistry/acid_forms.hpp"
#include "plugins/chemistry/activity.hpp"
#include "plugins/chemistry/composition.hpp"

#include <array>
#include <optional>

namespace vatwright::chemistry::kernel {

// A composition in bare numbers, mol/L.
struct Amounts {
  std::array<double, acid_count> acids{};
  std::array<double, ion_count> ions{};
  double rest = 0;
};

inline Products products(const std::array<double, most_protons>& k) { return {k[0], k[0] * k[1], k[0] * k[1] * k[2]}; }

inline Amounts amounts(const Composition& composition) {
  constexpr auto one = 1.0 / mole_per_litre;  // sixteen divisions would cost as much as a turn of the solver
  Amounts out;
  for (std::size_t i = 0; i < acid_count; ++i) out.acids[i] = composition.acids[i] * one;
  for (std::size_t i = 0; i < ion_count; ++i) out.ions[i] = composition.ions[i] * one;
  out.rest = charges(composition.rest) * one;
  return out;
}

// Throws InputError where one is negative, or no number.
void refuse_negative(const Amounts& amounts);

class Balance {
 public:
  Balance(const Composition& composition, const Medium& medium) : Balance(amounts(composition), medium) {}
  Balance(const Amounts& amounts, const Medium& medium);

  struct State {
    double ph;
    double ionic_strength;  // mol/L
    double anions;          // charge of the acids' ions and hydroxide, mol/L
    double protons;         // mol/L
  };

  // At the pH where the charges balance, found sooner when it lies `near` one that is known. Throws
  // InputError when there is none from 0 to 14. Newton's method is taken at its word only where the charges balance
  // where it ends; the root is else found between two bounds.
  State solve(std::optional<double> near = {}) const;

  // Held at `ph` by strong base or acid, whose single charged ions count in the ionic strength: found sooner when that
  // is `near` one that is known, mol/L.
  State held_at(double ph, std::optional<double> near = {}) const;

  // The strong base that holds it there, mol/L; negative: acid.
  double base(const State& state) const { return state.anions - state.protons - strong_difference_; }

 private:
  struct Part {
    double concentration;
    Products constants;
  };
  // Over the acids' ions: Σ c |z|, Σ c z², and their slopes. By the logarithm of 1/(activity of the proton) charge and
  // squares move by `spread` and `cross`, by that of 1/γ by `cross` and `fourth`.
  struct Sums {
    double charge = 0, squares = 0, spread = 0, cross = 0, fourth = 0;
  };

  Sums sums(double proton_activity, double gamma) const;
  // By Newton's method in pH and ionic strength at once; nothing where that does not arrive in a few turns.
  std::optional<State> solve_at_once(double start) const;
  State solve_bracketed(std::optional<double> near) const;
  // Repeats I -> ionic strength of the ions at I, from `start`, until it stands still.
  State settle(double ph, double start, bool base_closes) const;

  std::array<Part, acid_count> parts_;
  std::size_t size_ = 0;
  std::optional<double> held_;  // ionic strength
  double a_, water_product_, strong_difference_ = 0, cations_ = 0, strong_anions_ = 0, strong_ionic_strength_ = 0;
};

}  // namespace vatwright::chemistry::kernel
