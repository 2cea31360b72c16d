// How much sulfur dioxide to add, and how the trade reckons it.
#pragma once

#include "units/constants.hpp"
#include "units/counted.hpp"

#include <algorithm>

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
// little free sulfur dioxide so far. The trade names one figure for "little" and one for "sweet", 30 mg/L
// and 5 g/L; here the share goes straight from one to the other around them, so that two readings a
// hair apart do not order two doses.
inline constexpr Fraction higher_free_share = coherent<Fraction>(2.0 / 3);
inline constexpr Fraction lower_free_share = coherent<Fraction>(0.5);
inline constexpr MassConcentration little_free_so2 = 20.0 * milligram_per_litre;
inline constexpr MassConcentration enough_free_so2 = 40.0 * milligram_per_litre;
inline constexpr MassConcentration dry_up_to = 4.0 * gram_per_litre;
inline constexpr MassConcentration sweet_from = 6.0 * gram_per_litre;

// Of wine with so much free sulfur dioxide and sugar; any of them from nothing on.
constexpr Fraction usual_free_share(MassConcentration free_so2, MassConcentration sugar) {
  const double held = (free_so2 - little_free_so2) / (enough_free_so2 - little_free_so2);
  const double dry = (sweet_from - sugar) / (sweet_from - dry_up_to);
  return lower_free_share +
         (higher_free_share - lower_free_share) * std::clamp(held, 0.0, 1.0) * std::clamp(dry, 0.0, 1.0);
}

// The rule "half of the weight of potassium metabisulfite counts as sulfur dioxide" (common
// practice, no source). By formula it is 57.6 %, so that the rule weighs out more.
constexpr ProductMass half_weight_rule(SulfurDioxideMass so2) { return so2.recount<Product>(2.0); }

}  // namespace vatwright::chemistry
