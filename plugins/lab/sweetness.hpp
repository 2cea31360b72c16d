// Which word of the label a wine falls under, by the rule sets of the recipe.
#pragma once

#include "host/plugin/plugin.hpp"

namespace vatwright::lab {

inline constexpr Source dry_wine{.title = "OIV International Standard for the Labelling of Wines, 3.1.6",
                                 .place = "dry: up to 4 g/L"};
// Dry whatever its acidity; used where no rule set gives terms.
inline constexpr MassConcentration dry_sugar = 4.0 * gram_per_litre;

// An acidity in grams of tartaric acid.
MassConcentration as_tartaric(Acidity acidity);

// Notes the words that the rule sets allow at this sugar, by the lot's class and its acidity, with their
// source. `acidity` may be unknown: a word that hangs on it is said to.
void note_sweetness(const Inputs& in, MassConcentration sugar, std::optional<Acidity> acidity, Outcome& out);

}  // namespace vatwright::lab
