// How far a fermentation has come, from the density of the must and that of today.
#pragma once

#include "plugins/chemistry/must.hpp"
#include "units/constants.hpp"

namespace vatwright::chemistry {

// Heat of a gram of sugar that ferments: 24 kcal for a mole of hexose, generally accepted (Colombié and others,
// J. Food Eng. 2007, read in a quotation); Bouffard measured 23.5 (from memory).
using HeatOfReaction = decltype(Energy() / Mass());
inline constexpr HeatOfReaction fermentation_heat = 24.0 * kilocalorie / (180.156 * gram);

// A must before its fermentation. What is dissolved and is not sugar is taken to stay as it is.
struct FermentingMust {
  MassConcentration sugar, other;
  YieldFactor factor;
};
FermentingMust fermenting_must(Density original, YieldFactor factor, MassFraction non_sugar = must_non_sugar);

// Alcohol when so much of the sugar is left.
Strength alcohol_at(const FermentingMust& must, MassConcentration left);

// Density at 20 °C when so much of the sugar is left: by Tabarié's relation, alcohol and extract add up.
// It falls all the way.
Density density_at(const FermentingMust& must, MassConcentration left);

// Sugar left at a density of today; none below that of the dry wine. Throws InputError for a density
// above the must's, and for one below that of the alcohol alone.
MassConcentration sugar_left(const FermentingMust& must, Density now);

// Density at 20 °C of what weighs `now` at another temperature, 0 to 40 °C: ethanol and water (OIML R 22)
// and the extract (SPS-4) shrink or grow each as it does alone (derived). Throws InputError beyond.
Density density_at_20(const FermentingMust& must, Density now, Temperature temperature);

}  // namespace vatwright::chemistry
