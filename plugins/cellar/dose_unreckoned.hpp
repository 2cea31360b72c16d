// A plain dose of what moves the acidity, the sugar or the alcohol of a lot, where too little of the lot is known to
// reckon by: it is weighed all the same, where no rules are asked for.
#pragma once

#include "host/plugin/plugin.hpp"

#include <array>

namespace vatwright::cellar::plain_dose {

inline constexpr std::array unreckoned_inputs{takes(lot::acid_added), takes(lot::acid_removed),
                                              takes(lot::strength_gained), takes(lot::tirage_gained),
                                              takes(lot::sweetening_gained)};
inline constexpr std::array<const Input*, 14> unreckoned_facts{
    &lot::acid_added,     &lot::acid_removed, &lot::strength_gained, &lot::tirage_gained, &lot::sweetening_gained,
    &lot::tartaric_acid,  &lot::malic_acid,   &lot::lactic_acid,     &lot::citric_acid,   &lot::sugar,
    &lot::soluble_solids, &lot::ethanol,      &lot::volume,          &lot::density};

// What went in, one of the two: for the whole lot, as it is weighed or measured out.
struct Given {
  Mass mass{};
  Volume volume{};
};

// The books count it at the most that it can come to; what it moves is not known any more. Does nothing for a substance
// that moves nothing.
void leave_unknown(const Inputs& in, const SubstanceFacts& of, const Given& went_in, Outcome& out);

}  // namespace vatwright::cellar::plain_dose
