// sugar.sweetening: how much sugar or concentrated must makes a still wine as sweet as wanted.
#pragma once

#include "plugins/lab/agree.hpp"
#include "plugins/lab/thinned_ph.hpp"
#include "plugins/sugar/keys.hpp"

namespace vatwright::sugar::sweetening {

inline constexpr Source wine_extract{.title = "sugar-free extract of 3961 white and 1359 red wines, by Tabarié",
                                     .place =
                                         "data of Cortez et al., Decision Support Systems 47 (2009) 547: white "
                                         "19.4 ± 2.4 g/L, red 29.9 ± 3.9 g/L",
                                     .standing = "derived"};

inline constexpr Key<MassConcentration> target{{.name = "target sugar",
                                                .help = "glucose and fructose of the sweetened wine",
                                                .unit = "g/L",
                                                .valid = Range{0.5, 300},
                                                .usual = Range{4, 100},
                                                .source = slip_guard}};
inline constexpr std::string_view sucrose = "sucrose", concentrate = "rectified concentrated must";
inline constexpr std::string_view substances[] = {sucrose, concentrate};
inline constexpr SubstanceChoice substance{
    {.name = "substance",
     .help = "what is stirred in; many laws let nothing but what comes from grapes into a still wine",
     .choices = substances,
     .source = {.title = "Delegated Regulation (EU) 2019/934", .place = "Annex I, Part D", .standing = "from memory"}}};
// The same as they stand on a sheet for a wine.
inline constexpr std::string_view of_sucrose = "sweetening sugar", of_concentrate = "sweetening must";
inline constexpr std::string_view reagents[] = {of_sucrose, of_concentrate};
inline constexpr Key<MassFraction> strength{{.name = "strength",
                                             .help = "sugar in the concentrated must, by refractometer at 20 °C",
                                             .unit = "°Brix",
                                             .valid = Range{40, 80},
                                             .usual = Range{61.7, 72},
                                             .source = slip_guard}};
inline constexpr Key<MassConcentration> extract{{.name = "sugar-free extract",
                                                 .help = "of the wine, by sugar.extract; it counts among the solids",
                                                 .unit = "g/L",
                                                 .valid = Range{5, 70},
                                                 .usual = Range{15, 35},
                                                 .source = wine_extract}};
inline constexpr Model<MassConcentration> usual_extract{{.name = "usual extract",
                                                         .help = "what a wine has of extract beside its sugar",
                                                         .unit = "g/L",
                                                         .standard = 4,
                                                         .source = wine_extract,
                                                         .measure = "the extract"}};
inline constexpr const ModelInfo* models[] = {&sugar_to_alcohol, &usual_extract, &lab::unmeasured_acids};

inline constexpr Limit<Strength> gain_limit{{.name = "strength gained by sweetening",
                                             .help = "most that the total strength may rise by all sweetening together",
                                             .unit = "% vol"}};
inline constexpr Limit<MassFraction> solids_limit{
    {.name = "total solids after sweetening", .help = "most dissolved in a sweetened wine", .unit = "% mass"}};
inline constexpr Limit<Strength> ethanol_limit{
    {.name = "strength of a sweetened wine", .help = "most actual strength after sweetening", .unit = "% vol"}};
inline constexpr Limit<Strength> total_limit{
    {.name = "total strength of wine", .help = "most of actual and potential strength together", .unit = "% vol"}};
inline constexpr const LimitInfo* limits[] = {&gain_limit, &solids_limit, &ethanol_limit, &total_limit};

inline constexpr Result<Mass> mass{
    {.name = "mass", .help = "what to weigh in", .unit = "kg", .decimals = 2, .decided = true}};
inline constexpr Result<Volume> volume_after{
    {.name = "volume", .help = "after it, at 20 °C", .unit = "L", .decimals = 1}};
inline constexpr Result<MassConcentration> sugar_after{{.name = "sugar", .help = "after it", .unit = "g/L"}};
inline constexpr Result<Strength> ethanol_after{
    {.name = "ethanol", .help = "after it", .unit = "% vol", .decimals = 2}};
inline constexpr Result<Strength> gained{
    {.name = "strength gained", .help = "potential, by all sweetening so far", .unit = "% vol", .decimals = 2}};
inline constexpr Result<MassFraction> solids{
    {.name = "total solids", .help = "sugar and the rest of the extract", .unit = "% mass", .decimals = 1}};

inline constexpr auto inputs = joined(
    std::array{needs(lot::volume), takes(target), takes(stated), needs(lot::sugar), needs(lot::ethanol),
               takes(substance, concentrate), takes(strength), takes(extract, "22 g/L"), takes(yield, yield_by_default),
               takes(lot::wine_class), takes(lot::stage), takes(lot::colour), takes(lot::zone),
               takes(lot::strength_gained), takes(lot::sweetening_gained), takes(lot::amelioration)},
    lab::ph_inputs);
inline constexpr const Input* targets[] = {&target, &stated};
inline constexpr OneOf one_of[] = {targets};
inline constexpr const ResultInfo* results[] = {&mass, &volume_after, &sugar_after, &ethanol_after, &gained, &solids};
inline constexpr const Input* changes[] = {&lot::volume, &lot::sugar,          &lot::ethanol,
                                           &lot::ph,     &lot::soluble_solids, &lot::sweetening_gained};
inline constexpr Source sources[] = {mass_balance, icumsa, legal_yield, wine_extract};
inline constexpr std::string_view example[] = {"volume=12 hL", "sugar=2 g/L",       "ethanol=12 % vol",   "class=still",
                                               "stage=wine",   "strength=65 °Brix", "target sugar=18 g/L"};

Outcome run(const Inputs& in);

inline constexpr Calculation calculation{
    .name = "sweetening",
    .help = "sugar or concentrated must for a wanted sweetness of a still wine, or a stated amount",
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
    .label = "How do I sweeten a still wine?"};

}  // namespace vatwright::sugar::sweetening
