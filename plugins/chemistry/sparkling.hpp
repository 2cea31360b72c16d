// Carbon dioxide that a second fermentation makes in a closed bottle, and its pressure there.
#pragma once

#include "units/constants.hpp"

namespace vatwright::chemistry {

inline constexpr Pressure bar = 1e5 * pascal;
inline constexpr Temperature pressure_temperature = celsius(20);

// Of the sugar that becomes alcohol and carbon dioxide; 5 to 7 % of it goes other ways (Pasteur, as in
// Huxley, Critiques and Addresses). The larger share is taken, since it makes more pressure.
inline constexpr Fraction share_to_gas = 95.0 * percent;

// From `sugar`, as glucose and fructose: C6H12O6 -> 2 C2H6O + 2 CO2, 0.4886 of its mass, of that share.
MassConcentration carbon_dioxide_of(MassConcentration sugar);

// Carbon dioxide in a litre of wine and the pressure over it, above that of the air, at 20 °C: in g/L
// 1.951e-5 P (0.86 - 0.01 A) (1 - 0.00144 S), with P in Pa above nothing, A in % vol, S in g/L
// (Regulation (EEC) No 2676/90, chapter 37, from memory; the formula was read in quotations). All of
// the gas counts as dissolved: what the neck takes up is left out, so that the pressure is on the safe
// side. No pressure is below that of the air. Up to 25 % vol and 200 g/L; throws InputError beyond.
MassConcentration dissolved_carbon_dioxide(Pressure over, Strength ethanol, MassConcentration sugar);
Pressure overpressure(MassConcentration carbon_dioxide, Strength ethanol, MassConcentration sugar);

// That of the same bottle at another temperature: the solubility goes with exp((24 800 J/mol) / (R T))
// (Liger-Belair, from memory).
Pressure overpressure_at(Temperature temperature, Pressure at_20);

}  // namespace vatwright::chemistry
