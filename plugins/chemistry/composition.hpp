// What is dissolved in a must or wine, as far as its pH goes.
#pragma once

#include "plugins/chemistry/acids.hpp"

namespace vatwright::chemistry {

// A concentration of charges as equivalents, and back: the pH counts one charge as one equivalent.
constexpr Acidity equivalents(AmountConcentration charges) { return coherent<Acidity>(charges.value()); }
constexpr AmountConcentration charges(Acidity equivalents) {
  return coherent<AmountConcentration>(equivalents.value());
}

struct Composition {
  // Total concentrations, dissociated or not; none negative.
  std::array<AmountConcentration, acid_count> acids{};
  std::array<AmountConcentration, ion_count> ions{};
  // Charge of strong ions that nobody measured: positive for cations. Its ions count as single
  // charged.
  Acidity rest{};

  constexpr AmountConcentration& operator[](Acid acid) { return acids[index(acid)]; }
  constexpr AmountConcentration operator[](Acid acid) const { return acids[index(acid)]; }
  constexpr AmountConcentration& operator[](Ion ion) { return ions[index(ion)]; }
  constexpr AmountConcentration operator[](Ion ion) const { return ions[index(ion)]; }

  // By mass, onto what is there.
  constexpr void add(Acid acid, MassConcentration c) { (*this)[acid] += c / row(acid).molar_mass; }
  constexpr void add(Ion ion, MassConcentration c) { (*this)[ion] += c / row(ion).molar_mass; }

  // Strong base as sodium hydroxide, no volume of its own; negative: hydrochloric acid.
  constexpr void add_base(Acidity base) {
    if (base >= Acidity{})
      (*this)[Ion::sodium] += charges(base);
    else
      (*this)[Ion::chloride] -= charges(base);
  }

  // Excess of strong cations over strong anions.
  constexpr Acidity strong_difference() const {
    Acidity sum = rest;
    for (std::size_t i = 0; i < ion_count; ++i)
      sum += equivalents(ions[i] * static_cast<double>(chemistry::ions[i].charge));
    return sum;
  }
};

// A blend by volume, no contraction: everything is conserved, pH is not averaged.
// `share_of_b` from 0 to 1.
constexpr Composition blend(const Composition& a, const Composition& b, Fraction share_of_b) {
  const double to = share_of_b.value(), from = 1 - to;
  Composition out;
  for (std::size_t i = 0; i < acid_count; ++i) out.acids[i] = from * a.acids[i] + to * b.acids[i];
  for (std::size_t i = 0; i < ion_count; ++i) out.ions[i] = from * a.ions[i] + to * b.ions[i];
  out.rest = from * a.rest + to * b.rest;
  return out;
}

}  // namespace vatwright::chemistry
