// Sugar of a must, and the alcohol that it can become.
#pragma once

#include "plugins/chemistry/sucrose.hpp"
#include "units/constants.hpp"

namespace vatwright::chemistry {

// Acids, salts and the rest that weigh in a must's density and are not sugar: 2.1 g in 100 g
// (Margalit, Winery Technology and Operations, from memory). A must varies; the allowance is an
// input with this default.
inline constexpr MassFraction must_non_sugar = 2.1 * percent_mass;

// Sugar of a must from its density at 20 °C: all that is dissolved is taken to weigh as sucrose does,
// less the allowance. 10 % mass gives 82.0 g/L, where OIV-MA-AS2-02 has 82.2 (from memory); 80 °Oe
// gives 11.0 % vol by the factor below, where an encyclopaedia prints 10.6: allowances and yields differ
// by as much.
// Throws InputError for a density below that of water or of the allowance alone: a wine, not a must.
MassConcentration must_sugar(Density density_at_20, MassFraction non_sugar = must_non_sugar);

// What is dissolved in a must of so much sugar, counted as sucrose: the above turned round. Up to 70 %
// mass; throws InputError beyond.
MassFraction must_dissolved(MassConcentration sugar, MassFraction non_sugar = must_non_sugar);

// Sugar that makes one unit of strength: a yield factor, as 16.83 g/L per % vol.
using YieldFactor = decltype(MassConcentration() / Strength());

// The legal factor, the default (French order of 18 August 2014, AGRT1408514A, annex II B 4.4.2), and
// the span that the trade uses by colour and yeast (IFV: 16.5 white, 17.5 red).
inline constexpr YieldFactor eu_yield_factor = 16.83 * gram_per_litre / percent_vol;
inline constexpr YieldFactor least_usual_yield_factor = 16.5 * gram_per_litre / percent_vol;
inline constexpr YieldFactor most_usual_yield_factor = 18.0 * gram_per_litre / percent_vol;

// Sugar of the formula's yield, C6H12O6 -> 2 C2H6O + 2 CO2, which makes 51.1 % of its mass ethanol:
// 15.43 g/L per % vol. No fermentation needs less.
YieldFactor stoichiometric_yield_factor();

// Strength that `sugar`, as glucose and fructose, becomes. `sugar` must not be negative; InputError is
// thrown for a factor below the stoichiometric one, and for sugar that would pass 100 % vol.
Strength potential_alcohol(MassConcentration sugar, YieldFactor factor = eu_yield_factor);

// The sugar that was, or is, so much strength.
MassConcentration sugar_for(Strength strength, YieldFactor factor = eu_yield_factor);

}  // namespace vatwright::chemistry
