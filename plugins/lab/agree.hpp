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

// Acid that titratable acidity and potassium ask for, beyond all of tartaric, malic and lactic acid: wines have 20 to
// 50 meq/L of others.
inline constexpr Acidity most_unexplained_acid = 75.0 * milliequivalent_per_litre;
// Where potassium is not stated, no wine has less.
inline constexpr AmountConcentration least_potassium = 10.0 * millimole_per_litre;

// Conductivity at 15 to 25 °C that a millimole of potassium in a litre has with what balances it, at the least and the
// most; and other ions, counted as potassium.
inline constexpr double least_per_millimole = 25, most_per_millimole = 90;  // µS/cm
inline constexpr AmountConcentration other_ions = 40.0 * millimole_per_litre;

// Sugar, soluble solids and density of a must; density, ethanol and sugar of what has alcohol; titratable
// acidity with the acids that make it up; conductivity with potassium. Each names the reading that stands alone against
// the others.
std::vector<Disagreement> disagreements(const Readings& lot);

}  // namespace vatwright::lab
