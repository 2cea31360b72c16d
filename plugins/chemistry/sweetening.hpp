// A must made richer: sucrose or concentrated must stirred in, by the balance of masses. Volume follows
// from the density of what is dissolved, counted as sucrose, so that the litres gained are those of the
// solution and not of the dry sugar.
#pragma once

#include "plugins/chemistry/must.hpp"
#include "units/constants.hpp"

namespace vatwright::chemistry {

// What is stirred in: what of it is dissolved once it is in the must, and the glucose and fructose
// that one mass of it becomes.
struct Sweetener {
  MassFraction dissolved;
  Fraction hexose;
};

// Sucrose is split by the yeast and takes up water: C12H22O11 + H2O -> 2 C6H12O6, 1.0526 of its mass.
Sweetener sucrose_sweetener();

// Concentrated must of which nothing but sugar is dissolved. 0 to 95 % mass.
Sweetener concentrated_must(MassFraction strength);

struct SweetMust {
  Volume volume;            // at 20 °C
  MassConcentration sugar;  // glucose and fructose
  Strength ethanol;         // that it has already
  MassFraction dissolved;   // counted as sucrose
};

// Alcohol that the must has, and that its sugar can become.
Strength total_strength(const SweetMust& must, YieldFactor factor);

// The must with `added` stirred in. While it ferments, its sugar is in a solution of ethanol; the
// volume that sugar takes up there is counted as the same (0.62 L/kg either way).
SweetMust sweetened(const SweetMust& must, const Sweetener& sweetener, Mass added);

// Water holds nothing: what it makes thinner.
inline Sweetener water_alone() { return concentrated_must(MassFraction{}); }

// The mass that brings the must to so much sugar; the rest as below.
Mass sweetener_for_sugar(const SweetMust& must, const Sweetener& sweetener, MassConcentration wanted);

// The mass that brings the must to a total strength, or to so much of its own volume more. None where it
// has that strength or more; throws InputError for one past what the sweetener can bring.
Mass sweetener_for_strength(const SweetMust& must, const Sweetener& sweetener, Strength wanted, YieldFactor factor);
Mass sweetener_for_gain(const SweetMust& must, const Sweetener& sweetener, Fraction gain);

}  // namespace vatwright::chemistry
