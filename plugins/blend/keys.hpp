// Inputs, limits and sources that more than one calculation of this plugin names.
#pragma once

#include "host/plugin/plugin.hpp"

namespace vatwright::blend {

inline constexpr double hair = 1e-9;  // of a share, a volume or a count: arithmetic, not wine

inline constexpr Source slip_guard = lot::guard;
inline constexpr Source common_practice{.title = "cellar practice", .standing = "common practice, no source"};
inline constexpr Source conservation{.title = "what goes in comes out: mass and charge", .standing = "derived"};
inline constexpr Source acid_constants{.title = "thermodynamic constants of the acids, Davies activities",
                                       .standing = "from memory"};
inline constexpr Source oiml{.title = "OIML R 22, alcoholometry",
                             .place = "general formula; read in Directive 76/766/EEC"};

// Of one lot in a blend: one of the two.
inline constexpr Key<Fraction> share{{.name = "share",
                                      .help = "part of the blend, by the volumes before they are joined",
                                      .unit = "%",
                                      .valid = Range{0.01, 100},
                                      .source = slip_guard}};
inline constexpr Key<Volume> taken{{.name = "taken",
                                    .help = "volume that is drawn from the lot",
                                    .unit = "hL",
                                    .valid = Range{0.00001, 1e5},
                                    .source = slip_guard}};

inline constexpr NewLotKey into{{.name = "into", .help = "name of the new lot"}};
// What the label is to name; both are held against the rule sets.
inline constexpr NameKey label_variety{
    {.name = "label variety", .help = "the grape variety that the label is to name"}};
inline constexpr NameKey label_vintage{{.name = "label vintage", .help = "the year that the label is to name"}};

inline constexpr std::string_view viticultural_area = "viticultural area";
inline constexpr std::string_view other_origin = "other";
inline constexpr std::string_view label_origins[] = {viticultural_area, other_origin};
inline constexpr Choice label_origin{
    {.name = "label origin",
     .help = "what the label names beside the year: a viticultural area, or another origin, which some rules ask "
             "less of",
     .choices = label_origins,
     .source = {.title = "27 CFR 4.27(a)"}}};

inline constexpr Limit<Fraction> variety_share_limit{
    {.name = "variety share for a label", .help = "least share of a variety that the label names", .unit = "%"}};
inline constexpr Limit<Fraction> vintage_share_limit{
    {.name = "vintage share for a label", .help = "least share of a vintage that the label names", .unit = "%"}};
inline constexpr Limit<Fraction> area_vintage_share_limit{
    {.name = "vintage share for a viticultural area",
     .help = "least share of a vintage that the label names beside a viticultural area",
     .unit = "%"}};

}  // namespace vatwright::blend
