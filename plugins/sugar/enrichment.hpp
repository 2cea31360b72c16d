// sugar.enrichment: how much sucrose or concentrated must brings a must to a wanted strength.
#pragma once

#include "plugins/lab/agree.hpp"
#include "plugins/lab/gas.hpp"
#include "plugins/lab/thinned_ph.hpp"
#include "plugins/sugar/reading.hpp"
#include "plugins/sugar/tirage.hpp"

namespace vatwright::sugar::enrichment {

inline constexpr Source trade_rule{.title = "La Vigne no 245 (2012): 17 g of sucrose in a litre for 1 % vol of white",
                                   .place = "page 7; the gain in volume is left out there"};
inline constexpr Source volume_rule{.title = "27 CFR 24.181: 13.5 lb of sugar take up 1 US gal, 0.618 L/kg"};
inline constexpr Source concentrate_law{.title = "Regulation (EU) No 1308/2013",
                                        .place = "Annex VII, Part II: at least 61.7 % mass by refractometer",
                                        .standing = "from memory"};

inline constexpr Key<Strength> target{{.name = "target potential alcohol",
                                       .help = "alcohol that is there already and what all of the sugar can become",
                                       .unit = "% vol",
                                       .valid = Range{3, 20},
                                       .usual = Range{9, 14.5},
                                       .source = slip_guard}};
inline constexpr std::string_view sucrose = "sucrose";
inline constexpr std::string_view concentrate = "rectified concentrated must";
inline constexpr std::string_view substances[] = {sucrose, concentrate, tirage::of_sucrose, tirage::of_concentrate};
inline constexpr SubstanceChoice substance{
    {.name = "substance",
     .help = "what is stirred in; into a cuvée it goes as tirage liqueur, whichever is said",
     .choices = substances,
     .source = {.title = "Regulation (EU) No 1308/2013", .place = "Annex VIII, Part I, section B"}}};
inline constexpr Key<MassFraction> strength{{.name = "strength",
                                             .help = "sugar in the concentrated must, by refractometer at 20 °C",
                                             .unit = "°Brix",
                                             .valid = Range{40, 80},
                                             .usual = Range{61.7, 72},
                                             .source = concentrate_law}};

inline constexpr Limit<Strength> gain_limit{{.name = "strength gained by enrichment",
                                             .help = "most strength that all enrichments together may add, by zone",
                                             .unit = "% vol"}};
inline constexpr Limit<Strength> tirage_limit{{.name = "strength gained by tirage liqueur",
                                               .help = "most strength that all tirage liqueur of a cuvée may add",
                                               .unit = "% vol"}};
inline constexpr Limit<Acidity> acidified_limit{{.name = "acidified before enrichment",
                                                 .help = "most acidity added before to a must that is enriched",
                                                 .unit = "g/L as tartaric acid"}};
inline constexpr Limit<Strength> total_limit{{.name = "total strength after enrichment",
                                              .help = "ceiling of the total strength of what was enriched, by zone",
                                              .unit = "% vol"}};
inline constexpr Limit<MassFraction> solids_limit{
    {.name = "soluble solids after enrichment", .help = "most soluble solids of what was enriched", .unit = "°Brix"}};
inline constexpr Limit<Fraction> volume_limit{{.name = "volume gained by concentrated must",
                                               .help = "most volume that concentrated must may add in all, by zone",
                                               .unit = "%"}};

inline constexpr Result<Mass> mass{
    {.name = "mass", .help = "what to weigh in", .unit = "kg", .decimals = 2, .decided = true}};
inline constexpr Result<MassConcentration> dose{
    {.name = "dose", .help = "for a litre of the lot as it stands", .unit = "g/L", .decimals = 2}};
inline constexpr Result<Volume> volume_after{
    {.name = "volume", .help = "after it, at 20 °C", .unit = "L", .decimals = 1}};
inline constexpr Result<Volume> volume_gained{
    {.name = "volume gained", .help = "by what was stirred in", .unit = "L", .decimals = 1}};
inline constexpr Result<MassConcentration> sugar_after{
    {.name = "sugar", .help = "after it, as glucose and fructose", .unit = "g/L", .decimals = 1}};
inline constexpr Result<Strength> potential{
    {.name = "potential alcohol", .help = "after it, with what is there already", .unit = "% vol", .decimals = 2}};

inline constexpr auto inputs = joined(std::array{needs(lot::volume),
                                                 takes(target),
                                                 takes(stated),
                                                 takes(lot::sugar),
                                                 takes(lot::density),
                                                 takes(lot::soluble_solids),
                                                 takes(lot::ethanol),
                                                 takes(substance, sucrose),
                                                 takes(strength),
                                                 takes(yield, yield_by_default),
                                                 takes(non_sugar, non_sugar_by_default),
                                                 anew(takes(lot::temperature)),
                                                 takes(instrument),
                                                 takes(lot::zone),
                                                 takes(lot::colour),
                                                 takes(lot::stage),
                                                 takes(lot::wine_class),
                                                 takes(lot::strength_gained),
                                                 takes(lot::tirage_gained),
                                                 takes(lot::volume_gained),
                                                 takes(lot::acid_added),
                                                 takes(tirage::rated)},
                                      lab::ph_inputs);
inline constexpr const Input* targets[] = {&target, &stated};
inline constexpr OneOf one_of[] = {targets};
inline constexpr const ResultInfo* results[] = {
    &mass,        &dose,      &volume_after,           &volume_gained,
    &sugar_after, &potential, &tirage::carbon_dioxide, &tirage::overpressure};
inline constexpr const Input* changes[] = {&lot::volume,          &lot::sugar,          &lot::ethanol,
                                           &lot::density,         &lot::soluble_solids, &lot::ph,
                                           &lot::strength_gained, &lot::tirage_gained,  &lot::volume_gained};
inline constexpr const ModelInfo* models[] = {&sugar_to_alcohol, &density_to_sugar, &lab::unmeasured_acids};
inline constexpr const LimitInfo* limits[] = {&acidified_limit, &gain_limit,   &tirage_limit,          &total_limit,
                                              &volume_limit,    &solids_limit, &tirage::least_pressure};
inline constexpr Source sources[] = {mass_balance,
                                     icumsa,
                                     legal_yield,
                                     practice_yield,
                                     must_allowance,
                                     trade_rule,
                                     volume_rule,
                                     concentrate_law,
                                     refractometer_table,
                                     hydrometer_glass,
                                     tirage::solubility,
                                     tirage::gas_yield,
                                     tirage::heat_of_solution};
inline constexpr std::string_view example[] = {"volume=20 hL", "sugar=172 g/L", "zone=B",
                                               "colour=pink",  "stage=must",    "target potential alcohol=11.5 % vol"};

Outcome run(const Inputs& in);

inline constexpr Calculation calculation{
    .name = "enrichment",
    .help = "sugar for a wanted potential alcohol, or a stated amount, held against the zone's limits",
    .inputs = inputs,
    .one_of = one_of,
    .results = results,
    .changes = changes,
    .limits = limits,
    .reagents = lab::gives_off_gas,
    .models = models,
    .sources = sources,
    .example = example,
    .agree = lab::disagreements,
    .run = run,
    .label = "How much sugar do I add?"};

}  // namespace vatwright::sugar::enrichment
