// From when on the rules of a wine hold for what is still called a must.
#pragma once

#include "host/plugin/lot.hpp"
#include "host/rules/condition.hpp"
#include "units/constants.hpp"

namespace vatwright {

inline constexpr Source becomes_wine{.title = "a must with so much alcohol and so little sugar is a wine",
                                     .standing = "common practice, no source"};
inline constexpr Strength least_ethanol_of_wine = coherent<Strength>(0.05);                         // 5 % vol
inline constexpr MassConcentration most_sugar_of_must_made_wine = coherent<MassConcentration>(20);  // 20 g/L
inline constexpr char counts_as_wine[] = "a must with 5 % vol or more and no more than 20 g/L of sugar counts as wine";

// A must that has the ethanol of a wine, and not more sugar than that; sugar that is not stated counts as none.
bool has_become_wine(const LotView& lot);

// The lot called a wine.
LotView as_wine(const LotView& lot);

// The wine that is to come of a must: nobody knows yet what it will have of sugar and alcohol.
LotView wine_to_come(const LotView& must);

}  // namespace vatwright
