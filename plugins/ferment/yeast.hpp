// ferment.yeast: how much dry yeast, its water, and the steps in which it comes down to the must.
#pragma once

#include "plugins/ferment/keys.hpp"
#include "plugins/lab/agree.hpp"

namespace vatwright::ferment::yeast {

inline constexpr Source awri{.title = "Australian Wine Research Institute, yeast rehydration",
                             .place = "25 g/hL give 5 million cells for a mL or more, at 2e10 viable cells for a gram"};
inline constexpr Source waking{
    .title =
        "five to ten times its mass of water at 35 to 40 °C, 15 to 20 min, not over 30; steps "
        "of 5 to 10 K, 10 min each",
    .standing = "from memory"};

inline constexpr std::string_view dry_yeast = "active dry yeast";
inline constexpr std::string_view forms[] = {dry_yeast};
inline constexpr SubstanceChoice substance{
    {.name = "substance", .help = "what is pitched", .group = "yeast", .choices = forms}};
inline constexpr Key<MassConcentration> dose{
    {.name = "yeast dose",
     .help = "20 to 25 g/hL; up to twice that in clear, very sweet or sulfited must",
     .unit = "g/hL",
     .valid = Range{1, 200},
     .usual = Range{15, 50},
     .group = "yeast",
     .source = awri}};
inline constexpr Key<Fraction> water_ratio{{.name = "water to yeast",
                                            .help = "mass of water for one of yeast",
                                            .unit = "1",
                                            .valid = Range{3, 20},
                                            .usual = Range{5, 10},
                                            .group = "water",
                                            .source = waking}};
inline constexpr Key<Temperature> water_temperature{{.name = "water temperature",
                                                     .help = "in which the yeast wakes; the sachet says it",
                                                     .unit = "°C",
                                                     .valid = Range{20, 45},
                                                     .usual = Range{35, 40},
                                                     .group = "water",
                                                     .source = waking}};
inline constexpr Key<TemperatureInterval> largest_step{{.name = "largest step",
                                                        .help = "by which the yeast is cooled at once",
                                                        .unit = "K",
                                                        .valid = Range{2, 15},
                                                        .usual = Range{5, 10},
                                                        .group = "water",
                                                        .source = waking}};

inline constexpr Limit<Fraction> water_limit{
    {.name = "yeast water", .help = "most water that wakes yeast, share of the juice", .unit = "%"}};

inline constexpr Result<Mass> mass{{.name = "yeast", .help = "to weigh", .unit = "g", .decimals = 0, .decided = true}};
inline constexpr Result<Volume> water{{.name = "water", .help = "to wake it in", .unit = "L", .decimals = 2}};
inline constexpr Result<Fraction> steps{
    {.name = "steps", .help = "of must stirred in before it goes into the tank", .unit = "1", .decimals = 0}};
inline constexpr Result<Volume> must_in_steps{
    {.name = "must for the steps", .help = "taken out of the tank and given back with the yeast", .unit = "L"}};

inline constexpr Need inputs[] = {
    needs(lot::volume),          needs(lot::temperature),  takes(substance, dry_yeast),
    takes(dose, "25 g/hL"),      takes(water_ratio, "10"), takes(water_temperature, "37 °C"),
    takes(largest_step, "10 K"), takes(lot::stage),        takes(lot::water_added)};
inline constexpr const ResultInfo* results[] = {&mass, &water, &steps, &must_in_steps};
inline constexpr const Input* changes[] = {&lot::water_added};
inline constexpr const LimitInfo* limits[] = {&water_limit};
inline constexpr Source sources[] = {awri, waking};
inline constexpr std::string_view example[] = {"volume=48 hL", "temperature=14 °C", "stage=must"};

Outcome run(const Inputs& in);

inline constexpr Calculation calculation{.name = "yeast",
                                         .help = "dry yeast, its water, and the steps down to the must",
                                         .inputs = inputs,
                                         .results = results,
                                         .changes = changes,
                                         .limits = limits,
                                         .sources = sources,
                                         .example = example,
                                         .repeatable = false,  // steps are whole ones
                                         .agree = lab::disagreements,
                                         .run = run,
                                         .label = "How is the yeast woken and cooled down to the must?",
                                         .group = "fermentation"};

}  // namespace vatwright::ferment::yeast
