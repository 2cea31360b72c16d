// Compositions by mass, and what the tests of the acid-base engine read from them.
#pragma once

#include "plugins/chemistry/equilibrium.hpp"

#include <initializer_list>
#include <utility>

namespace vatwright::chemistry {

using Masses = std::initializer_list<std::pair<Acid, double>>;

inline Composition of(Masses grams_per_litre) {
  Composition c;
  for (const auto& [acid, mass] : grams_per_litre) c.add(acid, mass * gram_per_litre);
  return c;
}

inline Composition of(Masses grams_per_litre, double potassium_milligram) {
  Composition c = of(grams_per_litre);
  c.add(Ion::potassium, potassium_milligram * milligram_per_litre);
  return c;
}

inline double ph_of(const Composition& c, const Medium& m) { return equilibrium(c, m).ph.value(); }
inline double ta_of(const Composition& c, Ph endpoint, const Medium& m) {
  return titratable_acidity(c, endpoint, m).value();
}

// 12 % vol at 20 °C.
inline const Medium wine(12.0 * percent_vol, celsius(20));

}  // namespace vatwright::chemistry
