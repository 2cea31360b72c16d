// sugar.alcohol: alcoholic strength from the density of a distillate, an alcoholometer, or a share by
// mass.
#pragma once

#include "plugins/sugar/reading.hpp"

namespace vatwright::sugar::alcohol {

// Not the density of the lot: the extract of a wine would be read as less alcohol.
inline constexpr Key<Density> distillate_density{
    {.name = "distillate density",
     .help = "of the distillate made up to the volume of the sample, at the temperature given; not of the wine",
     .unit = "kg/m³",
     .valid = Range{750, 1010},
     .usual = Range{780, 1000},
     .source = slip_guard}};
inline constexpr Key<Strength> apparent{{.name = "apparent alcohol",
                                         .help = "what an instrument graduated in % vol for 20 °C shows",
                                         .unit = "% vol",
                                         .valid = Range{0, 100},
                                         .source = oiml}};
inline constexpr Key<MassFraction> share{{.name = "mass fraction",
                                          .help = "mass of ethanol in one of liquid",
                                          .unit = "% mass",
                                          .valid = Range{0, 100},
                                          .source = oiml}};
inline constexpr std::string_view instruments[] = {glass_hydrometer, density_meter};
inline constexpr Choice instrument{{.name = "instrument",
                                    .help = "what showed the apparent alcohol: glass grows with warmth",
                                    .choices = instruments,
                                    .source = hydrometer_glass}};

inline constexpr Result<Strength> ethanol{
    {.name = "ethanol", .help = "strength by volume at 20 °C", .unit = "% vol", .decimals = 2}};
inline constexpr Result<MassFraction> by_mass{
    {.name = "mass fraction", .help = "ethanol by mass", .unit = "% mass", .decimals = 2}};
inline constexpr Result<Density> density{
    {.name = "density", .help = "of this ethanol and water at 20 °C", .unit = "kg/m³", .decimals = 2}};
inline constexpr Result<MassConcentration> grams{
    {.name = "ethanol per litre", .help = "at 20 °C", .unit = "g/L", .decimals = 1}};

inline constexpr Need inputs[] = {takes(distillate_density), takes(apparent), takes(share),
                                  anew(takes(lot::temperature, "20 °C")), takes(instrument, glass_hydrometer)};
inline constexpr const Input* readings[] = {&distillate_density, &apparent, &share};
inline constexpr OneOf one_of[] = {readings};
inline constexpr const ResultInfo* results[] = {&ethanol, &by_mass, &density, &grams};
inline constexpr const Input* changes[] = {&lot::ethanol};
inline constexpr std::string_view distilled = "distillate";
inline constexpr std::string_view reagents[] = {distilled};
inline constexpr Source sources[] = {oiml, oiv_distillate, hydrometer_glass};
inline constexpr std::string_view example[] = {"apparent alcohol=12.9 % vol", "temperature=15 °C"};

Outcome run(const Inputs& in);

inline constexpr Calculation calculation{
    .name = "alcohol",
    .help = "alcoholic strength from a distillate, an alcoholometer or a share by mass",
    .inputs = inputs,
    .one_of = one_of,
    .results = results,
    .changes = changes,
    .reagents = reagents,
    .sources = sources,
    .example = example,
    .measures = true,
    .run = run,
    .label = "What is the alcoholic strength?"};

}  // namespace vatwright::sugar::alcohol
