// Readings of one lot that cannot all be right. Every calculation that doses has the host look here first.
#pragma once

#include "host/plugin/inputs.hpp"
#include "host/plugin/lot.hpp"
#include "host/plugin/outcome.hpp"

#include <vector>

namespace vatwright::lab {

// What musts and methods differ by, and what no slip of the pen stays within: common practice, no source.
inline constexpr Source tolerances{.title = "what readings of one must or wine may differ by",
                                   .standing = "common practice, no source"};

// Two instruments on one must: 1.5 °Brix. Both against sugar by analysis: what else is dissolved differs too.
inline constexpr MassConcentration by_two_instruments = 16.0 * gram_per_litre;
inline constexpr MassConcentration by_analysis = 25.0 * gram_per_litre;

// A must whose alcohol nobody states is taken as not fermenting from this density on; below it, or with
// alcohol, its density says nothing of its sugar alone.
inline constexpr Density not_fermenting_from = 1050.0 * kilogram_per_cubic_metre;

// What a wine has of extract beside its sugar.
inline constexpr MassConcentration least_sugar_free_extract = 5.0 * gram_per_litre;
inline constexpr MassConcentration most_sugar_free_extract = 70.0 * gram_per_litre;

// Sugar, soluble solids and density of a must; density, ethanol and sugar of what has alcohol; volatile and
// titratable acidity. Each names the reading that stands alone against the others.
std::vector<Disagreement> disagreements(const Readings& lot);

}  // namespace vatwright::lab
