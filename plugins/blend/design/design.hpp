// blend.design: which lots, and how much of each, for a blend that keeps to bounds, at least cost or
// nearest to a profile.
#pragma once

#include "plugins/blend/design/keys.hpp"
#include "plugins/blend/limits.hpp"

namespace vatwright::blend::design {

inline constexpr Need inputs[] = {
    needs(lots),          needs(wanted_volume), takes(bounds),          takes(aim, "cost"),   takes(profile),
    takes(least_lots),    takes(most_lots),     takes(smallest_share),  takes(lot::colour),   takes(lot::wine_class),
    takes(path, "10 mm"), takes(label_variety), takes(label_varieties), takes(label_vintage), takes(label_place),
    takes(label_origin)};
inline constexpr const ResultInfo* results[] = {&lots_used, &blend_volume, &cost, &distance};
inline constexpr auto limits = joined(label_topics, lab::content_topics);
inline constexpr Source sources[] = {programming, conservation, acid_constants, oiml, lab_source, common_practice};

inline constexpr std::string_view example = R"(recipe: a pink blend near to last year's
demo data: all figures are invented.
rules: EU
lots:
  A: {stage: wine, class: still, colour: pink, volume: 60 hL, ethanol: 11.8 % vol, pH: 3.15, titratable acidity: 6.6 g/L as tartaric acid, sugar: 1.2 g/L, vintage: 2026}
  B: {stage: wine, class: still, colour: pink, volume: 40 hL, ethanol: 13.4 % vol, pH: 3.52, titratable acidity: 4.7 g/L as tartaric acid, sugar: 2.4 g/L, vintage: 2026}
  C: {stage: wine, class: still, colour: pink, volume: 25 hL, ethanol: 12.6 % vol, pH: 3.34, titratable acidity: 5.4 g/L as tartaric acid, sugar: 1.0 g/L, vintage: 2025}
steps:
  - blend.design:
      lots: {A: {price: 110}, B: {price: 95}, C: {price: 120}}
      volume: 80 hL
      bounds: {pH: at most 3.30, sugar: at most 2 g/L}
      aim: profile
      profile: {ethanol: 12.5 % vol, titratable acidity: 5.9 g/L as tartaric acid}
      smallest share: 5 %
      label vintage: 2026
)";

// When no blend keeps to what was asked, there are no results: a failing check names what clashes.
Outcome run(const Inputs& in);

inline constexpr Calculation calculation{.name = "design",
                                         .help = "chooses lots and shares for a blend within bounds",
                                         .inputs = inputs,
                                         .results = results,
                                         .limits = limits,
                                         .sources = sources,
                                         .example_recipe = example,
                                         .on_lot = false,
                                         .repeatable = false,
                                         .run = run,
                                         .label = "Which lots, and how much of each, for the blend I want?"};

}  // namespace vatwright::blend::design
