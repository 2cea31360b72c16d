// sulfite.addition: how much to add for a wanted level of molecular, free or total sulfur dioxide, or what a stated
// amount is on the balance.
#pragma once

#include "plugins/lab/agree.hpp"
#include "plugins/sulfite/keys.hpp"

namespace vatwright::sulfite::addition {

inline constexpr Key<MassConcentration> target_molecular{
    {.name = "target molecular SO2",
     .help = "level that protects the wine; 0.5 is in use for red, 0.6 to 0.8 for white and pink",
     .unit = "mg/L",
     .valid = Range{0.1, 2.0},
     .usual = wanted_molecular,
     .source = {.title = wine_chemistry.title,
                .place = "chapter 17: 0.6 to 0.8 mg/L; 0.5 for red is common practice, no source"}}};
inline constexpr Key<MassConcentration> target_free{{.name = "target free SO2",
                                                     .help = "free sulfur dioxide wanted after the addition",
                                                     .unit = "mg/L",
                                                     .valid = Range{1, 150},
                                                     .usual = Range{10, 60},
                                                     .source = trade_rule}};

inline constexpr Key<MassConcentration> target_total{{.name = "target total SO2",
                                                      .help = "total sulfur dioxide wanted after the addition",
                                                      .unit = "mg/L",
                                                      .valid = Range{1, 400},
                                                      .usual = Range{20, 200},
                                                      .source = slip_guard}};

// An amount that was decided on elsewhere.
inline constexpr Key<MassConcentration> stated{{.name = "add",
                                                .help = "a stated amount for the lot; say of what with 'add as'",
                                                .unit = "mg/L",
                                                .valid = Range{0.1, 1000},
                                                .usual = Range{5, 150},
                                                .source = slip_guard}};
inline constexpr Key<Fraction> stated_on_fruit{
    {.name = "add on fruit",
     .help = "a stated amount for the grapes that the lot is made of; say of what with 'add as'",
     .unit = "g/100 kg",
     .valid = Range{0.01, 50},
     .usual = Range{1, 15},
     .source = slip_guard}};
inline constexpr Key<Fraction> stated_liquid{{.name = "add liquid",
                                              .help = "a stated volume of the solution for a volume of the lot",
                                              .unit = "mL/hL",
                                              .valid = Range{0.1, 20000},
                                              .usual = Range{5, 300},
                                              .source = slip_guard}};
inline constexpr Key<Mass> fruit{{.name = "fruit",
                                  .help = "mass of grapes that the lot is made of",
                                  .unit = "kg",
                                  .valid = Range{1, 1e6},
                                  .source = slip_guard}};
inline constexpr std::string_view as_so2 = "SO2", as_product = "product";
inline constexpr std::string_view countings[] = {as_so2, as_product};
inline constexpr Choice stated_as{
    {.name = "add as",
     .help = "whether a stated amount is of sulfur dioxide or of the product that is weighed",
     .choices = countings,
     .source = {.title = "share of sulfur dioxide in each salt, from atomic weights", .standing = "derived"}}};

inline constexpr std::string_view potassium_metabisulfite = "potassium metabisulfite";
inline constexpr std::string_view gas = "sulfur dioxide gas";
inline constexpr std::string_view solution = "sulfur dioxide solution";
inline constexpr std::string_view substances[] = {potassium_metabisulfite, "sodium metabisulfite", gas, solution};
inline constexpr SubstanceChoice substance{
    {.name = "substance",
     .help = "what is added; the sodium salt only where the law allows it",
     .choices = substances,
     .source = {.title = "OIV Code of Oenological Practices", .place = "II.3.4.4: gas, solutions, potassium salt"}}};
inline constexpr Key<MassConcentration> strength{{.name = "strength",
                                                  .help = "sulfur dioxide in the solution, mass per volume",
                                                  .unit = "g/L",
                                                  .valid = Range{10, 150},
                                                  .usual = Range{40, 100},
                                                  .source = slip_guard}};
inline constexpr Key<Fraction> free_share{{.name = "free share",
                                           .help = "part of the addition that stays free; default by stage and sugar",
                                           .unit = "%",
                                           .valid = Range{5, 100},
                                           .usual = Range{35, 75},
                                           .source = trade_rule}};

inline constexpr Result<MassConcentration> added_so2{
    {.name = "added SO2", .help = "with the rounded amount", .unit = "mg/L", .decimals = 1, .decided = true}};
inline constexpr Result<MassConcentration> free_so2{
    {.name = "free SO2", .help = "after the addition", .unit = "mg/L", .decimals = 1}};
inline constexpr Result<MassConcentration> total_so2{
    {.name = "total SO2", .help = "after the addition", .unit = "mg/L", .decimals = 1}};
inline constexpr Result<MassConcentration> molecular_so2{
    {.name = "molecular SO2", .help = "after the addition", .unit = "mg/L", .decimals = 2, .band = wanted_molecular}};
inline constexpr Result<Fraction> share_used{{.name = "free share",
                                              .help = "part of the addition that stays free",
                                              .unit = "%",
                                              .decimals = 1,
                                              .decided = true}};

inline constexpr Need inputs[] = {needs(lot::volume),
                                  takes(lot::ph),
                                  takes(lot::free_so2),
                                  takes(lot::total_so2),
                                  takes(target_molecular),
                                  takes(target_free),
                                  takes(target_total),
                                  takes(stated),
                                  takes(stated_on_fruit),
                                  takes(stated_liquid),
                                  takes(stated_as),
                                  takes(fruit),
                                  takes(substance, potassium_metabisulfite),
                                  takes(strength),
                                  takes(free_share),
                                  takes(model, "constant"),
                                  takes(pk1),
                                  takes(lot::sugar),
                                  takes(lot::ethanol),
                                  takes(lot::temperature),
                                  takes(lot::colour),
                                  takes(lot::wine_class),
                                  takes(lot::stage),
                                  takes(lot::potassium),
                                  takes(lot::sodium)};
inline constexpr const Input* targets[] = {&target_molecular, &target_free,     &target_total,
                                           &stated,           &stated_on_fruit, &stated_liquid};
inline constexpr OneOf one_of[] = {targets};
inline constexpr const ResultInfo* results[] = {&added_so2, &free_so2, &total_so2, &molecular_so2, &share_used};
inline constexpr const Input* changes[] = {&lot::free_so2, &lot::total_so2, &lot::potassium, &lot::sodium};
inline constexpr const LimitInfo* limits[] = {&total_limit, &free_limit, &declaration, &sodium_limit};
inline constexpr Source sources[] = {
    constant_pk1,
    oiv_molecular,
    permittivity_source,
    wine_chemistry,
    {.title = "share of sulfur dioxide in each salt, from atomic weights", .standing = "derived"},
    {.title = "part of an addition that stays free: from one half to two thirds",
     .standing = "common practice, no source"}};
inline constexpr std::string_view example[] = {
    "volume=48.0 hL",     "pH=3.42",       "free SO2=14 mg/L", "total SO2=62 mg/L",
    "ethanol=12.6 % vol", "sugar=1.8 g/L", "stage=wine",       "target molecular SO2=0.6 mg/L"};

Outcome run(const Inputs& in);

inline constexpr Model<Fraction> stays_free{
    {.name = "the share that stays free",
     .help = "of what is added, where it was not given",
     .unit = "%",
     .standard = 9.4,
     .source = {.title =
                    "free in total of 3961 finished white wines (Cortez et al., Decision Support Systems 47 (2009) "
                    "547)",
                .place = "0.10 to 0.41 from the 5th to the 95th percentile, as of a normal distribution",
                .standing = "derived"},
     .measure = "the share that stays free, by a trial addition ('free share')"}};
inline constexpr const ModelInfo* models[] = {&stays_free};

inline constexpr Calculation calculation{
    .name = "addition",
    .help = "what to add for a wanted molecular, free or total sulfur dioxide, or for a stated amount",
    .inputs = inputs,
    .one_of = one_of,
    .results = results,
    .changes = changes,
    .limits = limits,
    .models = models,
    .sources = sources,
    .example = example,
    .agree = lab::disagreements,
    .run = run,
    .label = "How much sulfite do I add?"};

}  // namespace vatwright::sulfite::addition
