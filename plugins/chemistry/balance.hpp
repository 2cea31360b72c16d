// The charge balance in bare numbers, mol/L: the kernel behind equilibrium.hpp and inference.hpp.
#pragma once

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

inline Amounts amounts(const Composition& composition) {
  Amounts out;
  for (std::size_t i = 0; i < acid_count; ++i) out.acids[i] = composition.acids[i] / mole_per_litre;
  for (std::size_t i = 0; i < ion_count; ++i) out.ions[i] = composition.ions[i] / mole_per_litre;
  out.rest = charges(composition.rest) / mole_per_litre;
  return out;
}

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
  // InputError when there is none from 0 to 14.
  State solve(std::optional<double> near = {}) const;

  // Held at `ph` by strong base or acid, whose single charged ions count in the ionic strength.
  State held_at(double ph) const;

  // The strong base that holds it there, mol/L; negative: acid.
  double base(const State& state) const { return state.anions - state.protons - strong_difference_; }

 private:
  struct Part {
    double concentration, k1, k2, k3;
  };
  struct Sums {
    double charge, squares;  // Σ c |z| and Σ c z² of the acids' ions
  };

  Sums sums(double proton_activity, double gamma) const;
  // Repeats I -> ionic strength of the ions at I, from `start`, until it stands still.
  State settle(double ph, double start, bool base_closes) const;

  std::array<Part, acid_count> parts_;
  std::size_t size_ = 0;
  std::optional<double> held_;  // ionic strength
  double a_, water_product_, strong_difference_ = 0, cations_ = 0, strong_anions_ = 0, strong_ionic_strength_ = 0;
};

}  // namespace vatwright::chemistry::kernel
