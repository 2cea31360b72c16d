// Inputs, limits and sources that more than one calculation of this plugin names.
#pragma once

#include "host/plugin/plugin.hpp"

#include <array>

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
// What the label is to name; all of it is held against the rule sets.
inline constexpr NameKey label_variety{
    {.name = "label variety", .help = "the grape variety that the label is to name"}};
inline constexpr SharesKey label_varieties{
    {.name = "label varieties", .help = "several varieties, with the shares that the label is to print"}};
inline constexpr NameKey label_vintage{{.name = "label vintage", .help = "the year that the label is to name"}};
inline constexpr NameKey label_place{
    {.name = "label place", .help = "the place of origin that the label is to name, as the lots have it"}};

inline constexpr std::string_view viticultural_area = "viticultural area";
inline constexpr std::string_view protected_designation = "protected designation";
inline constexpr std::string_view protected_indication = "protected indication";
inline constexpr std::string_view other_origin = "other";
inline constexpr std::string_view label_origins[] = {viticultural_area, protected_designation, protected_indication,
                                                     other_origin};
inline constexpr Choice label_origin{
    {.name = "label origin",
     .help = "what kind of origin the label names: rules ask more of some than of others",
     .choices = label_origins,
     .source = {.title = "27 CFR 4.25 and 4.27(a)"}}};

inline constexpr Limit<Fraction> variety_share_limit{
    {.name = "variety share for a label", .help = "least share of a variety that the label names", .unit = "%"}};
inline constexpr Limit<Fraction> vintage_share_limit{
    {.name = "vintage share for a label", .help = "least share of a vintage that the label names", .unit = "%"}};
inline constexpr Limit<Fraction> area_vintage_share_limit{
    {.name = "vintage share for a viticultural area",
     .help = "least share of a vintage that the label names beside a viticultural area",
     .unit = "%"}};
inline constexpr Limit<Fraction> varieties_together_limit{{.name = "several varieties on a label",
                                                           .help = "least share that the named varieties make together",
                                                           .unit = "%"}};
inline constexpr Limit<Fraction> stated_share_limit{
    {.name = "tolerance of a stated variety share", .help = "most that a share on the label may be off", .unit = "%"}};
inline constexpr Limit<Fraction> origin_share_limit{
    {.name = "origin share for a label", .help = "least share from the place that the label names", .unit = "%"}};
inline constexpr Limit<Fraction> area_share_limit{{.name = "origin share for a viticultural area",
                                                   .help = "least share from the viticultural area on the label",
                                                   .unit = "%"}};
inline constexpr Limit<Fraction> designation_share_limit{{.name = "origin share for a protected designation",
                                                          .help = "least share from the protected designation",
                                                          .unit = "%"}};
inline constexpr Limit<Fraction> indication_share_limit{{.name = "origin share for a protected indication",
                                                         .help = "least share from the protected indication",
                                                         .unit = "%"}};
// All of them, for the calculations that hold a label.
inline constexpr std::array<const LimitInfo*, 9> label_topics{
    &variety_share_limit,      &vintage_share_limit,     &area_vintage_share_limit,
    &varieties_together_limit, &stated_share_limit,      &origin_share_limit,
    &area_share_limit,         &designation_share_limit, &indication_share_limit};

}  // namespace vatwright::blend
