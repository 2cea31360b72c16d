// What a lot is, in words and shares: what the law and the label go by.
#pragma once

#include "host/plugin/lot_behaviour.hpp"

namespace vatwright::lot {

inline constexpr SharesKey varieties{{.name = "varieties", .help = "share of each grape variety", .behaves = shared}};
inline constexpr SharesKey vintage{
    {.name = "vintage", .help = "year of harvest, or the share of each", .behaves = shared}};
inline constexpr SharesKey origin{
    {.name = "origin", .help = "lots or places that it was joined from", .behaves = shared}};
inline constexpr std::string_view classes[] = {"still", "sparkling", "liqueur"};
inline constexpr Choice wine_class{{.name = "class",
                                    .help = "still, sparkling, or liqueur wine, which holds spirit",
                                    .choices = classes,
                                    .source = law,
                                    .behaves = one_word}};
inline constexpr std::string_view colours[] = {"red", "white", "pink"};
inline constexpr Choice colour{{.name = "colour",
                                .help = "the colour class that the law goes by",
                                .choices = colours,
                                .source = law,
                                .behaves = one_word}};
inline constexpr std::string_view stages[] = {"must", "wine"};
inline constexpr Choice stage{{.name = "stage",
                               .help = "must before and during fermentation, wine after it",
                               .choices = stages,
                               .source = law,
                               .behaves = one_word}};
inline constexpr std::string_view zones[] = {"A", "B", "C I", "C II", "C III a", "C III b"};
inline constexpr Choice zone{
    {.name = "zone",
     .help = "wine-growing zone of the European Union that the grapes grew in",
     .choices = zones,
     .source = {.title = "Regulation (EU) No 1308/2013", .place = "Annex VII, appendix 1", .standing = "from memory"},
     .behaves = one_word}};

}  // namespace vatwright::lot
