// cellar.cooling: the heat to take out of a lot, or the power that holds it while it ferments.
#pragma once

#include "plugins/cellar/keys.hpp"
#include "plugins/lab/fermentation_heat.hpp"
#include "plugins/lab/gas.hpp"

namespace vatwright::cellar::cooling {

inline constexpr Source heat_capacity_source{.title = "heat capacity of must and wine, 3.85 kJ/kg/K",
                                             .standing = "common practice, no source"};

using HeatPerMass = decltype(Energy() / Mass());
using HeatCapacity = decltype(Energy() / (Mass() * TemperatureInterval()));
using SugarRate = decltype(MassConcentration() / Time());

inline constexpr Key<Temperature> target{{.name = "cool to",
                                          .help = "temperature that is wanted",
                                          .unit = "°C",
                                          .valid = Range{-8, 40},
                                          .usual = Range{-5, 25},
                                          .source = slip_guard}};
inline constexpr Key<Time> within{{.name = "within",
                                   .help = "time to cool in",
                                   .unit = "h",
                                   .valid = Range{0.25, 1000},
                                   .usual = Range{2, 72},
                                   .source = slip_guard}};
inline constexpr Key<SugarRate> rate{{.name = "sugar fermented",
                                      .help = "in a day, to hold the temperature meanwhile",
                                      .unit = "g/L/d",
                                      .valid = Range{0, 120},
                                      .usual = Range{5, 40},
                                      .source = slip_guard}};
inline constexpr Key<Fraction> gained{{.name = "heat gained",
                                       .help = "through walls and pipes, on top",
                                       .unit = "%",
                                       .valid = Range{0, 200},
                                       .usual = Range{5, 40},
                                       .source = practice}};

inline constexpr Result<Energy> heat{
    {.name = "heat", .help = "to be taken out of the lot", .unit = "kWh", .decimals = 1}};
inline constexpr Result<Power> power{
    {.name = "cooling power", .help = "of the cooler, at the lot", .unit = "kW", .decimals = 2}};
inline constexpr Result<Mass> ice{
    {.name = "ice", .help = "that would melt for it outside the tank, never in the wine", .unit = "kg", .decimals = 0}};
inline constexpr Result<Power> fermenting{
    {.name = "heat of fermentation", .help = "while so much sugar goes in a day", .unit = "kW", .decimals = 2}};

inline constexpr Model<Fraction> heat_capacity_of_lot{
    {.name = "the heat capacity",
     .help = "3.85 kJ/kg/K, whatever sugar, alcohol and lees the lot has",
     .unit = "%",
     .standard = 4,
     .source = {.title = "3.6 kJ/kg/K of a sweet must to 4.2 of water, equally likely in between (JCGM 100, 4.3.7)",
                .standing = "common practice, no source"}}};
inline constexpr Model<Fraction> heat_from_around{
    {.name = "the heat gained",
     .help = "through walls and pipes, a share of the heat to be taken out",
     .unit = "%",
     .standard = 10,
     .source = {.title = "5 to 40 % of it, equally likely in between (JCGM 100, 4.3.7)",
                .standing = "common practice, no source"},
     .measure = "how much the tank warms by itself in a day"}};
inline constexpr const ModelInfo* models[] = {&heat_capacity_of_lot, &heat_from_around, &lab::sugar_to_heat};

inline constexpr Need inputs[] = {
    needs(lot::volume), takes(lot::temperature), takes(target),       takes(within, "12 h"),
    takes(rate),        takes(gained, "15 %"),   takes(lot::density), takes(lot::ethanol)};
inline constexpr const ResultInfo* results[] = {&heat, &power, &ice, &fermenting};
inline constexpr const Input* changes[] = {&lot::temperature};
inline constexpr Source sources[] = {heat_capacity_source,
                                     lab::heat_of_fermentation,
                                     {.title = "enthalpy of fusion of ice, 333.6 kJ/kg", .standing = "from memory"}};
inline constexpr std::string_view example[] = {"volume=100 hL", "temperature=24 °C", "cool to=14 °C", "within=10 h",
                                               "density=1085 kg/m³"};

Outcome run(const Inputs& in);

inline constexpr Calculation calculation{
    .name = "cooling",
    .help = "heat to take out of a lot, and the power that holds it while it ferments",
    .inputs = inputs,
    .results = results,
    .changes = changes,
    .reagents = lab::gives_off_gas,
    .models = models,
    .sources = sources,
    .example = example,
    .run = run,
    .label = "How much cooling does this tank need?",
    .group = vessels_and_moves};

}  // namespace vatwright::cellar::cooling
