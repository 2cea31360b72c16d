// sugar.water: how much water a must takes, to flush and crush by or to stretch a sour one, where the law lets it.
#pragma once

#include "plugins/lab/agree.hpp"
#include "plugins/lab/gas.hpp"
#include "plugins/lab/thinned_ph.hpp"
#include "plugins/sugar/keys.hpp"

namespace vatwright::sugar::water {

inline constexpr Source crush_law{.title = "27 CFR 24.176, water to facilitate crushing and fermentation"};
inline constexpr Source stretch_law{.title = "27 CFR 24.178, amelioration"};

inline constexpr Key<MassFraction> target_solids{{.name = "target soluble solids",
                                                  .help = "to flush and crush by: what the must comes down to",
                                                  .unit = "°Brix",
                                                  .valid = Range{5, 60},
                                                  .usual = Range{20, 26},
                                                  .source = crush_law}};
inline constexpr Key<Acidity> target_acidity{{.name = "target titratable acidity",
                                              .help = "to stretch a sour must (amelioration): what it comes down to",
                                              .unit = "g/L as tartaric acid",
                                              .valid = Range{1, 30},
                                              .usual = Range{5, 9},
                                              .source = stretch_law}};

inline constexpr Limit<Fraction> any_limit{
    {.name = "water added to must", .help = "most water in a must, whatever it is for", .unit = "%"}};
inline constexpr Limit<MassFraction> solids_limit{{.name = "soluble solids after water",
                                                   .help = "least that water to crush by may bring a must to",
                                                   .unit = "°Brix"}};
inline constexpr Limit<MassFraction> fall_limit{{.name = "soluble solids lost to water",
                                                 .help = "most that water to crush by may take off a must",
                                                 .unit = "°Brix"}};
inline constexpr Limit<Fraction> share_limit{
    {.name = "ameliorating water", .help = "most water in the volume of a must that was stretched", .unit = "%"}};
inline constexpr Limit<Acidity> acid_limit{{.name = "fixed acidity after amelioration",
                                            .help = "least fixed acidity of a must that was stretched",
                                            .unit = "g/L as tartaric acid"}};
inline constexpr const ModelInfo* models[] = {&lab::unmeasured_acids};  // by the pH after it
inline constexpr const LimitInfo* limits[] = {&any_limit, &solids_limit, &fall_limit, &share_limit, &acid_limit};

inline constexpr Result<Volume> water{
    {.name = "water", .help = "to measure out, at 20 °C", .unit = "L", .decimals = 2, .decided = true}};
inline constexpr Result<Volume> volume_after{
    {.name = "volume", .help = "after it, at 20 °C", .unit = "L", .decimals = 1}};
inline constexpr Result<MassFraction> solids_after{
    {.name = "soluble solids", .help = "after it", .unit = "°Brix", .decimals = 2}};
inline constexpr Result<Acidity> acidity_after{
    {.name = "titratable acidity", .help = "after it", .unit = "g/L as tartaric acid", .decimals = 2}};
inline constexpr Result<Fraction> share{
    {.name = "amelioration", .help = "all ameliorating water, of the volume", .unit = "%", .decimals = 2}};

inline constexpr std::string_view drinking_water = "water";
inline constexpr std::string_view reagents[] = {drinking_water, lab::gas_of_fermentation};
inline constexpr auto inputs =
    joined(std::array{needs(lot::volume), needs(lot::soluble_solids), takes(target_solids), takes(target_acidity),
                      takes(lot::must_solids), takes(lot::amelioration), takes(lot::stage), takes(lot::ethanol),
                      takes(lot::colour), takes(lot::zone), takes(lot::wine_class)},
           lab::ph_inputs);
inline constexpr const Input* targets[] = {&target_solids, &target_acidity};
inline constexpr OneOf one_of[] = {targets};
inline constexpr const ResultInfo* results[] = {&water, &volume_after, &solids_after, &acidity_after, &share};
inline constexpr const Input* changes[] = {&lot::volume, &lot::soluble_solids, &lot::ph, &lot::amelioration,
                                           &lot::must_solids};
inline constexpr Source sources[] = {mass_balance, icumsa, crush_law, stretch_law};
inline constexpr std::string_view example =
    "recipe: a very sour must\n"
    "rules: US\n"
    "lots:\n"
    "  M1: {volume: 1000 L, stage: must, soluble solids: 21 °Brix, titratable acidity: 9 g/L as tartaric acid}\n"
    "steps:\n"
    "  - sugar.water: {target titratable acidity: 7 g/L as tartaric acid}\n";

Outcome run(const Inputs& in);

inline constexpr Calculation calculation{.name = "water",
                                         .help = "water to crush a must by, or to stretch a sour one, held to the law",
                                         .inputs = inputs,
                                         .one_of = one_of,
                                         .results = results,
                                         .changes = changes,
                                         .limits = limits,
                                         .reagents = reagents,
                                         .models = models,
                                         .sources = sources,
                                         .example_recipe = example,
                                         .agree = lab::disagreements,
                                         .run = run,
                                         .label = "How much water may this must take?"};

}  // namespace vatwright::sugar::water
