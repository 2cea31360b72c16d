// ferment.course: the readings of a fermentation fitted; how it stands, when it is dry, what it needs tomorrow.
#pragma once

#include "plugins/ferment/keys.hpp"
#include "plugins/lab/fermentation_heat.hpp"
#include "plugins/lab/left_must.hpp"

namespace vatwright::ferment::course {

inline constexpr Need columns[] = {needs(date), takes(at), needs(lot::density), takes(lot::temperature)};
inline constexpr RowsKey readings{
    {.name = "readings",
     .help = "densities of this fermentation, a row each; five days or more tell a course",
     .group = "readings",
     .each = columns}};
inline constexpr Key<Fraction> nutrient_at{{.name = "nutrient at",
                                            .help = "share of the sugar that is gone when the next portion is due",
                                            .unit = "%",
                                            .valid = Range{1, 60},
                                            .usual = Range{20, 40},
                                            .group = "nutrients",
                                            .source = nutrient_source}};

inline constexpr Result<MassConcentration> sugar{{.name = "sugar", .help = "left at the last reading", .unit = "g/L"}};
inline constexpr Result<Strength> ethanol{{.name = "ethanol", .help = "so far", .unit = "% vol", .decimals = 2}};
inline constexpr Result<Density> fall{{.name = "fall a day",
                                       .help = "of the density by the course, from the last reading to a day later",
                                       .unit = "kg/m³"}};
inline constexpr Result<MassConcentration> sugar_a_day{
    {.name = "sugar a day", .help = "that ferments from the last reading to a day later", .unit = "g/L"}};
inline constexpr Result<Time> dry_after{
    {.name = "dry after", .help = "by the course, from the first reading", .unit = "d"}};
inline constexpr Result<Time> dry_uncertainty{{.name = "uncertainty of dry after",
                                               .help = "standard, from the scatter about the course",
                                               .unit = "d",
                                               .decimals = 2}};
inline constexpr Result<Time> earliest{{.name = "earliest", .help = "lower end of the 95 % interval", .unit = "d"}};
inline constexpr Result<Time> latest{{.name = "latest", .help = "upper end of the 95 % interval", .unit = "d"}};
inline constexpr Result<Density> end{
    {.name = "end density", .help = "that the course goes to, fitted or held", .unit = "kg/m³"}};
inline constexpr Result<Energy> heat{
    {.name = "heat of a day", .help = "of the whole lot, from the last reading to a day later", .unit = "kWh"}};
inline constexpr Result<Power> cooling{
    {.name = "cooling power", .help = "mean of that day, to hold the temperature", .unit = "kW", .decimals = 2}};
inline constexpr Result<Volume> gas{
    {.name = "carbon dioxide of a day", .help = "of the whole lot, at 20 °C", .unit = "m³"}};
inline constexpr Result<Density> nutrient_density{
    {.name = "nutrient at density", .help = "at which the next portion is due", .unit = "kg/m³"}};

inline constexpr Need inputs[] = {needs(readings),
                                  takes(original_density),
                                  takes(dry_density),
                                  takes(instrument),
                                  takes(dry_at, "4 g/L"),
                                  takes(nutrient_at, "33 %"),
                                  takes(lab::yield, lab::yield_by_default),
                                  takes(lab::non_sugar, lab::non_sugar_by_default),
                                  takes(lot::volume),
                                  takes(lot::stage)};
inline constexpr const ResultInfo* results[] = {
    &sugar,  &ethanol, &fall, &sugar_a_day, &dry_after, &dry_uncertainty, &earliest,
    &latest, &end,     &heat, &cooling,     &gas,       &nutrient_density};
inline constexpr std::array<const Input*, 5> of_the_readings{&lot::density, &lot::sugar, &lot::ethanol,
                                                             &lot::temperature, &lot::soluble_solids};
inline constexpr auto changes = joined(of_the_readings, lab::read_of_must);
inline constexpr std::string_view reagents[] = {"carbon dioxide"};
// Reckoned with the results, which are not run anew: Tank::doubt().
inline constexpr const ModelInfo* models[] = {&lab::sugar_to_alcohol, &lab::density_to_sugar, &lab::sugar_to_heat};
inline constexpr Source sources[] = {
    logistic,   tabarie,      lab::must_allowance, lab::legal_yield, lab::heat_of_fermentation,
    dry_source, still_source, nutrient_source};
inline constexpr std::string_view example_readings =
    "readings=[{date: 2026-09-12, density: 1089 kg/m³, temperature: 14 °C}, {date: 2026-09-13, density: 1087 kg/m³, "
    "temperature: 15 °C}, {date: 2026-09-14, density: 1081 kg/m³, temperature: 16 °C}, {date: 2026-09-15, density: "
    "1069 "
    "kg/m³, temperature: 17 °C}, {date: 2026-09-16, density: 1051.5 kg/m³, temperature: 17 °C}, {date: 2026-09-17, "
    "density: 1031 kg/m³, temperature: 17 °C}, {date: 2026-09-18, density: 1014 kg/m³, temperature: 17 °C}, {date: "
    "2026-09-19, density: 1003.5 kg/m³, temperature: 17 °C}]";
inline constexpr std::string_view example[] = {"volume=48 hL", "original density=1090 kg/m³", "instrument=corrected",
                                               example_readings};

Outcome run(const Inputs& in);

inline constexpr Calculation calculation{
    .name = "course",
    .help = "a fermentation's readings fitted: how it stands, the day of dry, heat, nutrient by density",
    .inputs = inputs,
    .results = results,
    .changes = changes,
    .reagents = reagents,
    .models = models,
    .sources = sources,
    .example = example,
    .repeatable = false,  // a course may come and go with the readings; their scatter gives the doubt
    .run = run,
    .label = "Is the fermentation on its way, and when is it dry?",
    .group = "fermentation"};

}  // namespace vatwright::ferment::course
