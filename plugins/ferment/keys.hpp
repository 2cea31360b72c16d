// Inputs and sources that the calculations of a running fermentation share.
#pragma once

#include "host/plugin/plugin.hpp"
#include "plugins/lab/must.hpp"

namespace vatwright::ferment {

inline constexpr Source slip_guard = lot::guard;
inline constexpr Source logistic{.title = "logistic fall of density, least squares on the lot's own readings",
                                 .place = "the shape is common practice, no source; intervals by Student's t",
                                 .standing = "derived"};
inline constexpr Source tabarie{.title = "OIV-MA-AS2-03B, total dry extract", .place = "Tabarié's relation"};
inline constexpr Source dry_source{.title = "OIV International Standard for the Labelling of Wines, 3.1.6",
                                   .place = "dry: up to 4 g/L"};
inline constexpr Source still_source{.title = "a density that falls by less than 0.5 kg/m³ in a day stands still",
                                     .standing = "common practice, no source"};
inline constexpr Source nutrient_source{
    .title = "the second portion of nutrient goes in when a third of the sugar is gone",
    .standing = "common practice, no source"};

inline constexpr DateKey date{{.name = "date", .help = "day of the reading"}};
inline constexpr Key<Time> at{{.name = "at",
                               .help = "time of the day of the reading; 8 h where nothing is said",
                               .unit = "h",
                               .valid = Range{0, 24},
                               .source = slip_guard}};
inline constexpr Key<Density> original_density{
    {.name = "original density",
     .help = "of the must before fermentation, sugar added counted in, at 20 °C; without it the highest reading",
     .unit = "kg/m³",
     .valid = Range{1000, 1400},
     .usual = Range{1050, 1140},
     .source = slip_guard}};
inline constexpr std::string_view corrected = "corrected", glass_hydrometer = "hydrometer", meter = "density meter";
inline constexpr std::string_view instruments[] = {corrected, glass_hydrometer, meter};
inline constexpr Choice instrument{
    {.name = "instrument",
     .help = "what read the densities at the temperatures given; 'corrected': the figures are for 20 °C",
     .choices = instruments,
     .source = slip_guard}};
inline constexpr Key<MassConcentration> dry_at{{.name = "dry at",
                                                .help = "sugar at which the wine is called dry",
                                                .unit = "g/L",
                                                .valid = Range{0.5, 20},
                                                .usual = Range{1, 9},
                                                .source = dry_source}};
inline constexpr Key<Density> dry_density{
    {.name = "density when dry",
     .help = "known of this wine, at 20 °C; without it reckoned from the original density",
     .unit = "kg/m³",
     .valid = Range{970, 1010},
     .usual = Range{985, 1000},
     .source = tabarie}};

}  // namespace vatwright::ferment
