// sugar.fortification: how much spirit brings a wine to a wanted strength.
#pragma once

#include "plugins/lab/agree.hpp"
#include "plugins/lab/thinned_ph.hpp"
#include "plugins/sugar/keys.hpp"

namespace vatwright::sugar::fortification {

inline constexpr Source crossing{.title = "cross-mixing rule: volumes as if they added up",
                                 .standing = "common practice, no source"};
inline constexpr std::string_view grape_spirit = "grape spirit";

inline constexpr Key<Strength> spirit{{.name = "spirit",
                                       .help = "strength of the spirit, at 20 °C",
                                       .unit = "% vol",
                                       .valid = Range{20, 100},
                                       .usual = Range{52, 96.5},
                                       .source = slip_guard}};
inline constexpr Key<Strength> target{{.name = "target ethanol",
                                       .help = "actual strength wanted",
                                       .unit = "% vol",
                                       .valid = Range{1, 60},
                                       .usual = Range{15, 22},
                                       .source = slip_guard}};

inline constexpr Key<Fraction> stated_spirit{{.name = "add",
                                              .help = "a stated volume of spirit for a volume of the lot, at 20 °C",
                                              .unit = "L/hL",
                                              .valid = Range{0.01, 100},
                                              .usual = Range{0.5, 25},
                                              .source = slip_guard}};

inline constexpr Result<Volume> spirit_volume{
    {.name = "spirit volume", .help = "to measure out at 20 °C", .unit = "L", .decimals = 2, .decided = true}};
inline constexpr Result<Volume> volume_after{
    {.name = "volume", .help = "after it, with contraction, at 20 °C", .unit = "L", .decimals = 1}};
inline constexpr Result<Volume> contraction{
    {.name = "contraction", .help = "what is lost of the two volumes", .unit = "L", .decimals = 2}};
inline constexpr Result<Strength> ethanol{{.name = "ethanol", .help = "after it", .unit = "% vol", .decimals = 2}};
inline constexpr Result<Volume> by_crossing{
    {.name = "spirit by cross-mixing", .help = "for the same target, no contraction", .unit = "L", .decimals = 2}};

inline constexpr Limit<Strength> most_limit{
    {.name = "strength after fortification", .help = "most strength that spirit may bring a wine to", .unit = "% vol"}};
inline constexpr Limit<Strength> least_limit{
    {.name = "least strength of liqueur wine", .help = "least strength that a liqueur wine has", .unit = "% vol"}};
inline constexpr const ModelInfo* models[] = {&lab::unmeasured_acids};  // by the pH after it
inline constexpr const LimitInfo* limits[] = {&most_limit, &least_limit};

inline constexpr auto inputs =
    joined(std::array{needs(lot::volume), needs(lot::ethanol), needs(spirit), takes(target), takes(stated_spirit),
                      takes(lot::wine_class), takes(lot::stage), takes(lot::colour)},
           lab::ph_inputs);
inline constexpr const Input* targets[] = {&target, &stated_spirit};
inline constexpr OneOf one_of[] = {targets};
inline constexpr const ResultInfo* results[] = {&spirit_volume, &volume_after, &contraction, &ethanol, &by_crossing};
inline constexpr const Input* changes[] = {&lot::volume, &lot::ethanol, &lot::ph, &lot::soluble_solids};
inline constexpr std::string_view reagents[] = {grape_spirit};
inline constexpr Source sources[] = {mass_balance, oiml, crossing};
inline constexpr std::string_view example[] = {"volume=1000 L",    "class=liqueur",   "stage=wine",
                                               "ethanol=12 % vol", "spirit=96 % vol", "target ethanol=18 % vol"};

Outcome run(const Inputs& in);

inline constexpr Calculation calculation{
    .name = "fortification",
    .help = "spirit for a wanted strength, or a stated volume of it, by mass, with contraction",
    .inputs = inputs,
    .one_of = one_of,
    .results = results,
    .changes = changes,
    .limits = limits,
    .reagents = reagents,
    .models = models,
    .sources = sources,
    .example = example,
    .agree = lab::disagreements,
    .run = run,
    .label = "How much spirit do I add?"};

}  // namespace vatwright::sugar::fortification
