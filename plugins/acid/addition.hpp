// acid.addition: how much acid to add for a wanted titratable acidity or pH, or what a stated amount does.
#pragma once

#include "plugins/acid/wine.hpp"
#include "plugins/lab/agree.hpp"
#include "plugins/lab/treatment_water.hpp"

namespace vatwright::acid::addition {

inline constexpr std::string_view tartaric = "tartaric acid";
inline constexpr std::string_view lactic = "lactic acid";
inline constexpr std::string_view citric = lot::added_citric_acid;
inline constexpr std::string_view substances[] = {tartaric, "malic acid", lactic, citric, "citric acid monohydrate"};
inline constexpr SubstanceChoice substance{
    {.name = "substance", .help = "what is added", .choices = substances, .source = oiv_acidification}};
inline constexpr Key<MassFraction> strength{{.name = "strength",
                                             .help = "pure acid in a solution, such as lactic acid, by mass: 50 % "
                                                     "or more",
                                             .unit = "% mass",
                                             .valid = Range{1, 100},
                                             .usual = Range{50, 95},
                                             .source = slip_guard}};
inline constexpr std::string_view as_pure = "pure acid", as_product = "product";
inline constexpr std::string_view countings[] = {as_pure, as_product};
inline constexpr Choice stated_as{
    {.name = "add as",
     .help = "whether a stated amount is of the pure acid or of the product that is weighed, with its water",
     .choices = countings,
     .source = {.title = "share of the acid, from atomic weights or the label", .standing = "derived"}}};
inline constexpr Result<MassConcentration> dose{{.name = "dose",
                                                 .help = "pure acid per volume of the lot, with the rounded amount",
                                                 .unit = "g/L",
                                                 .decimals = 3,
                                                 .decided = true}};

inline constexpr auto inputs =
    joined(std::array{needs(lot::volume), takes(lot::temperature), takes(target_titratable), takes(target_ph),
                      takes(stated), takes(stated_as), takes(substance, tartaric), takes(strength)},
           wine_inputs, law_inputs, history_inputs,
           std::array{takes(lot::strength_gained), takes(lot::treated_with), takes(lot::amelioration),
                      takes(lot::water_added)});
inline constexpr OneOf one_of[] = {targets};
inline constexpr const ResultInfo* results[] = {&dose, &ph_after, &titratable_after, &capacity_after};
inline constexpr const Input* changes[] = {&lot::ph,         &lot::titratable_acidity, &lot::tartaric_acid,
                                           &lot::malic_acid, &lot::lactic_acid,        &lot::citric_acid,
                                           &lot::acid_added, &lot::treated_with,       &lot::water_added};
inline constexpr const LimitInfo* limits[] = {&added_limit,  &removed_first,  &enriched_first,  &fixed_most,
                                              &citric_limit, &ameliorated_ph, &lab::water_limit};
inline constexpr Source sources[] = {
    model_source,
    ethanol_source,
    oiv_total_acidity,
    oiv_acidification,
    handbook,
    {.title = "1 g/L of tartaric acid raises the acidity by 1 g/L and lowers the pH by about 0.1",
     .standing = "common practice, no source"}};
inline constexpr std::string_view example[] = {"volume=48.0 hL",
                                               "pH=3.42",
                                               "titratable acidity=5.1 g/L as tartaric acid",
                                               "ethanol=12.6 % vol",
                                               "stage=wine",
                                               "potassium=980 mg/L",
                                               "tartaric acid=2.1 g/L",
                                               "malic acid=1.4 g/L",
                                               "target pH=3.30"};

Outcome run(const Inputs& in);

inline constexpr Calculation calculation{
    .name = "addition",
    .help = "what acid to add for a wanted titratable acidity or pH, or for a stated amount",
    .inputs = inputs,
    .one_of = one_of,
    .results = results,
    .changes = changes,
    .limits = limits,
    .models = wine_models,
    .sources = sources,
    .example = example,
    .agree = lab::disagreements,
    .run = run,
    .label = "How much acid do I add?"};

}  // namespace vatwright::acid::addition
