// Sources that the calculations of the label share.
#pragma once

#include "host/plugin/plugin.hpp"

namespace vatwright::label {

inline constexpr Source factors{.title = "Regulation (EU) No 1169/2011", .place = "Annex XIV: kJ and kcal for a gram"};
inline constexpr Source declaration{.title = "Regulation (EU) No 1169/2011",
                                    .place =
                                        "Article 30 and Annex I; for wine made from 8 December 2023 on by Regulation "
                                        "(EU) 2021/2117",
                                    .standing = "from memory, definitions seen in a secondary source"};
inline constexpr Source rounding{.title = "Guidance of the European Commission on tolerances, December 2012",
                                 .place = "rounding of declared values",
                                 .standing = "from memory"};
inline constexpr Source glycerol_practice{.title =
                                              "glycerol of 8 g/L where it was not measured; 178 red wines have 8.8, "
                                              "standard deviation 1.7",
                                          .place = "practice in Austria; Forina and others, Vitis 25 (1986) 189"};

}  // namespace vatwright::label
