// Nitrogen that yeast can take up, from what a laboratory measures of it. Factors come from formulas.
#pragma once

#include "units/atomic_weights.hpp"

namespace vatwright::chemistry {

// Mass of nitrogen in one mass of what ammonium was counted as. Laboratories print all three.
inline constexpr Fraction nitrogen_in_ammonium = molar_mass("N") / molar_mass("NH4");
inline constexpr Fraction nitrogen_in_ammonia = molar_mass("N") / molar_mass("NH3");

// Formol titration: with formaldehyde each ammonium ion and each primary amino group gives up one
// proton, so that one mole of sodium hydroxide stands for one mole of nitrogen. `must` is the volume
// of undiluted must in the portion that was titrated; it must be positive.
constexpr MassConcentration formol_nitrogen(Volume titrant, AmountConcentration hydroxide, Volume must) {
  return titrant * hydroxide * molar_mass("N") / must;
}

// Nitrogen for each mass of sugar that is to be fermented, by what the strain of yeast asks for: 0.75,
// 0.9 and 1.25 mg for 1 g (common practice, no source).
inline constexpr Fraction low_nitrogen_need = coherent<Fraction>(0.75e-3);
inline constexpr Fraction medium_nitrogen_need = coherent<Fraction>(0.90e-3);
inline constexpr Fraction high_nitrogen_need = coherent<Fraction>(1.25e-3);

// The table of need by soluble solids, 200 mg/L at 21 °Brix, 250 at 23, 300 at 25, 350 at 27, which is
// a straight line (Bisson and Butzke 2000, from memory). Meant for its own span and a little beyond.
inline constexpr MassFraction least_tabled_solids = 19.0 * percent_mass;
inline constexpr MassFraction most_tabled_solids = 29.0 * percent_mass;
constexpr MassConcentration tabled_nitrogen_need(MassFraction soluble_solids) {
  return 200.0 * milligram_per_litre +
         (soluble_solids - 21.0 * percent_mass) / percent_mass * 25.0 * milligram_per_litre;
}

}  // namespace vatwright::chemistry
