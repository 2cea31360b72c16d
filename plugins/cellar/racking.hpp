// cellar.racking: what is left of a lot that is drawn off its lees.
#pragma once

#include "plugins/cellar/keys.hpp"

namespace vatwright::cellar::racking {

inline constexpr Key<Volume> lees{{.name = "lees",
                                   .help = "volume that stays behind, as the dipstick or the sight tube shows",
                                   .unit = "L",
                                   .valid = Range{0, 1e6},
                                   .source = slip_guard}};
inline constexpr Key<Fraction> lees_share{{.name = "lees share",
                                           .help = "part of the lot that stays behind, where nobody has measured it",
                                           .unit = "%",
                                           .valid = Range{0, 60},
                                           .usual = Range{0.5, 8},
                                           .source = practice}};
inline constexpr Key<Volume> losses{
    {.name = "losses", .help = "in hoses, pump and filter", .unit = "L", .valid = Range{0, 1e5}, .source = slip_guard}};
inline constexpr Key<Fraction> found{{.name = "wine in lees",
                                      .help = "part of the lees that a filter or settling gives back; planning only",
                                      .unit = "%",
                                      .valid = Range{0, 90},
                                      .usual = Range{30, 70},
                                      .source = practice}};

inline constexpr Result<Volume> clear{
    {.name = "racked volume", .help = "wine in the new vessel", .unit = "L", .decimals = 0}};
inline constexpr Result<Volume> left{
    {.name = "lees left", .help = "to be kept, pressed or sent away", .unit = "L", .decimals = 0}};
inline constexpr Result<Volume> won{
    {.name = "wine from lees", .help = "if they are filtered", .unit = "L", .decimals = 0}};
inline constexpr Result<Fraction> lost{
    {.name = "volume lost", .help = "lees and losses, of the lot", .unit = "%", .decimals = 1}};

inline constexpr Model<Fraction> guessed_lees{{.name = "the lees share",
                                               .help = "of itself, where nobody has measured the lees",
                                               .unit = "%",
                                               .standard = 40,
                                               .source = practice,
                                               .measure = "the volume of the lees"}};
inline constexpr Model<Fraction> guessed_wine_in_lees{
    {.name = "wine in lees",
     .help = "part of the lees that a filter or settling gives back",
     .unit = "%",
     .standard = 12,
     .source = {.title = "30 to 70 %, equally likely in between (JCGM 100, 4.3.7)",
                .standing = "common practice, no source"},
     .measure = "how far a sample of the lees settles"}};
inline constexpr const ModelInfo* models[] = {&guessed_lees, &guessed_wine_in_lees};

inline constexpr Need inputs[] = {needs(lot::volume), takes(lees), takes(lees_share), takes(losses, "0 L"),
                                  takes(found)};
inline constexpr const Input* behind[] = {&lees, &lees_share};
inline constexpr OneOf one_of[] = {behind};
inline constexpr const ResultInfo* results[] = {&clear, &left, &won, &lost};
inline constexpr const Input* changes[] = {&lot::volume};
inline constexpr std::string_view reagents[] = {"carbon dioxide"};
inline constexpr Source sources[] = {{.title = "balance of volumes", .standing = "derived"}, practice};
inline constexpr std::string_view example[] = {"volume=48 hL", "lees share=3 %", "losses=20 L"};

Outcome run(const Inputs& in);

inline constexpr Calculation calculation{.name = "racking",
                                         .help = "what is left of a lot that is drawn off its lees",
                                         .inputs = inputs,
                                         .one_of = one_of,
                                         .results = results,
                                         .changes = changes,
                                         .reagents = reagents,
                                         .models = models,
                                         .sources = sources,
                                         .example = example,
                                         .run = run,
                                         .label = "How much will I have after racking?",
                                         .group = vessels_and_moves};

}  // namespace vatwright::cellar::racking
