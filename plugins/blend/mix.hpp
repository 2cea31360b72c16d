// blend.mix: several lots joined into a new one, and every figure that is known of all of them.
#pragma once

#include "plugins/blend/keys.hpp"
#include "plugins/blend/limits.hpp"
#include "plugins/lab/unmeasured.hpp"

namespace vatwright::blend::mix {

inline constexpr Need each_lot[] = {takes(share), takes(taken)};
inline constexpr LotsKey lots{{.name = "lots",
                               .help = "what goes in: a share or a volume of each lot; names alone take whole lots",
                               .each = each_lot}};

inline constexpr Result<Volume> volume{
    {.name = "volume", .help = "of the blend, after contraction", .unit = "hL", .decimals = 3}};
inline constexpr Result<Volume> contraction{{.name = "contraction",
                                             .help = "lost of the volumes when they join; negative: gained",
                                             .unit = "L",
                                             .decimals = 2}};
inline constexpr Result<Strength> ethanol{
    {.name = "ethanol", .help = "by the mass of ethanol, with contraction", .unit = "% vol", .decimals = 2}};
inline constexpr Result<Ph> ph{
    {.name = "pH", .help = "by the charge balance of all that is dissolved", .unit = "pH", .decimals = 2}};
inline constexpr Result<Acidity> titratable_acidity{{.name = "titratable acidity",
                                                     .help = "of the blend, to the end point of its lots",
                                                     .unit = "g/L as tartaric acid",
                                                     .decimals = 2}};
inline constexpr Result<MassConcentration> sugar{
    {.name = "sugar", .help = "of the blend", .unit = "g/L", .decimals = 1}};
inline constexpr Result<MassConcentration> free_so2{
    {.name = "free SO2", .help = "on the day of joining, before it is bound anew", .unit = "mg/L", .decimals = 1}};
inline constexpr Result<MassConcentration> total_so2{
    {.name = "total SO2", .help = "of the blend", .unit = "mg/L", .decimals = 1}};

inline constexpr Need inputs[] = {needs(lots),
                                  needs(into),
                                  takes(lot::volume),
                                  takes(lot::colour),
                                  takes(lot::wine_class),
                                  takes(label_variety),
                                  takes(label_varieties),
                                  takes(label_vintage),
                                  takes(label_place),
                                  takes(label_origin)};
inline constexpr const ResultInfo* results[] = {&volume, &contraction, &ethanol,  &ph, &titratable_acidity,
                                                &sugar,  &free_so2,    &total_so2};
inline constexpr const ModelInfo* models[] = {&lab::unmeasured_acids};
inline constexpr auto limits = joined(label_topics, lab::content_topics);
inline constexpr Source sources[] = {oiml, conservation, acid_constants, common_practice};

inline constexpr std::string_view example = R"(recipe: two pink lots joined
demo data: all figures are invented.
rules: EU
lots:
  A: {stage: wine, class: still, colour: pink, volume: 60 hL, ethanol: 11.8 % vol, pH: 3.15, titratable acidity: 6.6 g/L as tartaric acid, sugar: 1.2 g/L, free SO2: 24 mg/L, total SO2: 82 mg/L, varieties: Sorrel, vintage: 2026}
  B: {stage: wine, class: still, colour: pink, volume: 40 hL, ethanol: 13.4 % vol, pH: 3.52, titratable acidity: 4.7 g/L as tartaric acid, sugar: 2.4 g/L, free SO2: 18 mg/L, total SO2: 64 mg/L, varieties: Teasel, vintage: 2026}
steps:
  - blend.mix: {lots: {A: 50 hL, B: 30 hL}, into: cuvee, label vintage: 2026}
)";

Outcome run(const Inputs& in);

inline constexpr Calculation calculation{.name = "mix",
                                         .help = "joins lots, and predicts the analysis of the blend",
                                         .inputs = inputs,
                                         .results = results,
                                         .limits = limits,
                                         .models = models,
                                         .sources = sources,
                                         .example_recipe = example,
                                         .on_lot = false,
                                         .run = run,
                                         .label = "What will the blend of these lots be?"};

}  // namespace vatwright::blend::mix
