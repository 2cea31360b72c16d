// How much sulfur dioxide to add, and how the trade reckons it.
#pragma once

#include "units/constants.hpp"
#include "units/counted.hpp"

namespace vatwright::chemistry {

// What a mass is counted as: sulfur dioxide, or the product that is weighed.
struct SulfurDioxide {};
struct Product {};
using SulfurDioxideMass = Counted<SulfurDioxide, Mass>;
using ProductMass = Counted<Product, Mass>;

// Free sulfur dioxide that holds so much of it molecular. `molecular_share` must be positive.
constexpr MassConcentration free_for(MassConcentration molecular, Fraction molecular_share) {
  return molecular / molecular_share;
}

// Shares of an addition that stay free, by the trade's rule (common practice, no source): two
// thirds in dry wine, one half where more of it is bound: in must, in sweet wine, and in wine with
// little free sulfur dioxide so far.
inline constexpr Fraction higher_free_share = coherent<Fraction>(2.0 / 3);
inline constexpr Fraction lower_free_share = coherent<Fraction>(0.5);
inline constexpr MassConcentration little_free_so2 = 30.0 * milligram_per_litre;
inline constexpr MassConcentration sweet_from = 5.0 * gram_per_litre;

// The rule "half of the weight of potassium metabisulfite counts as sulfur dioxide" (common
// practice, no source). By formula it is 57.6 %, so that the rule weighs out more.
constexpr ProductMass half_weight_rule(SulfurDioxideMass so2) { return so2.recount<Product>(2.0); }

}  // namespace vatwright::chemistry
