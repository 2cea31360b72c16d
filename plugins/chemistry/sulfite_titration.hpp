// Sulfur dioxide from a titration: what one mole of titrant stands for.
#pragma once

#include "plugins/chemistry/binding.hpp"

namespace vatwright::chemistry {

// One I2 takes two electrons: the normality of an iodine solution is twice its concentration.
inline constexpr double electrons_of_iodine = 2;

// Iodine: SO2 + I2 + 2 H2O -> H2SO4 + 2 HI, one mole for one. `iodine` is counted as I2.
// `sample` must be positive.
constexpr MassConcentration so2_by_iodine(Volume titrant, AmountConcentration iodine, Volume sample) {
  return titrant * iodine * so2_molar_mass / sample;
}

// Aeration-oxidation: the peroxide makes sulfuric acid, which takes two of sodium hydroxide.
constexpr MassConcentration so2_by_aeration_oxidation(Volume titrant, AmountConcentration hydroxide, Volume sample) {
  return titrant * hydroxide * so2_molar_mass / sample / 2.0;
}

}  // namespace vatwright::chemistry
