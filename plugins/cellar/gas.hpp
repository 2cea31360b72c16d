// cellar.gas: how much gas brings the air above a wine, or in an empty vessel, down to a wanted share of oxygen.
#pragma once

#include "plugins/cellar/keys.hpp"

namespace vatwright::cellar::gas {

inline constexpr Source mixing{.title = "full mixing of what flows in: the share falls by exp(-volumes)",
                               .standing = "derived"};
inline constexpr Source air{
    .title = "dry air, 20.95 % of oxygen", .place = "US Standard Atmosphere 1976", .standing = "from memory"};
inline constexpr Source from_below{
    .title = "Beverages 9 (2023) 19",
    .place = "a heavy gas from below: a quarter of the vessel's volume gave useful cover",
    .standing = "abstract seen"};

inline constexpr Key<Volume> headspace{{.name = "headspace",
                                        .help = "volume of air: above the wine, or of the empty vessel",
                                        .unit = "L",
                                        .valid = Range{0.01, 1e7},
                                        .source = slip_guard}};
inline constexpr std::string_view gases[] = {"nitrogen", "argon", "carbon dioxide"};
inline constexpr SubstanceChoice agent{{.name = "gas", .help = "what is let in", .choices = gases, .source = practice}};
inline constexpr Key<Fraction> wanted{{.name = "wanted oxygen",
                                       .help = "share of the gas that is left, by volume",
                                       .unit = "%",
                                       .valid = Range{0.01, 20},
                                       .usual = Range{0.1, 5},
                                       .source = practice}};
inline constexpr Key<Fraction> there{{.name = "oxygen now",
                                      .help = "share in the head space as a meter shows it",
                                      .unit = "%",
                                      .valid = Range{0.02, 21},
                                      .source = air}};
inline constexpr Key<Temperature> cellar_temperature{{.name = "gas temperature",
                                                      .help = "of the head space",
                                                      .unit = "°C",
                                                      .valid = Range{-10, 45},
                                                      .source = slip_guard}};

inline constexpr Result<Fraction> changes_of_volume{
    {.name = "changes of volume", .help = "head spaces of gas, fully mixed", .unit = "1", .decimals = 2}};
inline constexpr Result<Volume> gas_volume{
    {.name = "gas volume", .help = "at 1.013 bar and the temperature of the head space", .unit = "L", .decimals = 0}};
inline constexpr Result<Mass> gas_mass{
    {.name = "gas mass", .help = "that the cylinder loses", .unit = "kg", .decimals = 3, .decided = true}};

inline constexpr Model<Fraction> mixes_fully{
    {.name = "full mixing",
     .help = "gas that lies below pushes the air out with less, one that leaves at once takes more",
     .unit = "%",
     .standard = 30,
     .source = practice,
     .measure = "oxygen in the outlet while gas flows in"}};
inline constexpr const ModelInfo* models[] = {&mixes_fully};

inline constexpr Need inputs[] = {needs(headspace), needs(agent), needs(wanted), takes(there, "20.95 %"),
                                  takes(cellar_temperature, "20 °C")};
inline constexpr const ResultInfo* results[] = {&changes_of_volume, &gas_volume, &gas_mass};
inline constexpr Source sources[] = {
    mixing,
    air,
    from_below,
    {.title = "29 CFR 1910.146", .place = "permit-required confined spaces", .standing = "from memory"}};
inline constexpr std::string_view example[] = {"headspace=850 L", "gas=nitrogen", "wanted oxygen=0.5 %"};

Outcome run(const Inputs& in);

inline constexpr Calculation calculation{.name = "gas",
                                         .help = "how much gas brings oxygen in a head space down to a wanted share",
                                         .inputs = inputs,
                                         .results = results,
                                         .models = models,
                                         .sources = sources,
                                         .example = example,
                                         .on_lot = false,
                                         .run = run,
                                         .label = "How much gas keeps the air off?",
                                         .group = vessels_and_moves};

}  // namespace vatwright::cellar::gas
