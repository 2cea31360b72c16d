// The heat of sugar that ferments, as far as it is known.
#pragma once

#include "host/plugin/plugin.hpp"

namespace vatwright::lab {

inline constexpr Source heat_of_fermentation{.title = "heat of fermentation, about 24 kcal for a mole of sugar",
                                             .place = "Colombié and others, J. Food Eng. (2007)",
                                             .standing = "read in a quotation"};
inline constexpr Model<Fraction> sugar_to_heat{
    {.name = "sugar to heat",
     .help = "what a gram of sugar gives off, and what gas and vapour carry away of it",
     .unit = "%",
     .standard = 5,
     .source = {.title = "24 kcal for a mole of sugar, 23.5 by Bouffard, 20 net of what gas and vapour carry away: "
                         "equally likely in between (JCGM 100, 4.3.7)",
                .standing = "from memory"}}};

}  // namespace vatwright::lab
