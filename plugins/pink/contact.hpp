// pink.contact: when to press a must on its skins, from readings of its colour by the hour.
#pragma once

#include "plugins/lab/gas.hpp"
#include "plugins/pink/keys.hpp"

namespace vatwright::pink::contact {

inline constexpr Source usual_time{.title = "usual time on the skins of a pink wine, 2 to 48 h",
                                   .standing = "common practice, no source"};
inline constexpr Source first_order{
    .title = "first-order extraction: Sant'Anna, Food and Bioprocess Technology 6 (2013) 3473",
    .place = "abstract; the form alone, not its constants"};
inline constexpr Source delta_method{.title = "JCGM 100, propagation of the covariance of the fit", .place = "5.2"};

inline constexpr SeriesKey<Time, Absorbance> readings{
    {.name = "readings",
     .help = "hours on the skins -> colour of the juice (A520, or the intensity), with the optical path",
     .unit = "AU",
     .valid = Range{0, 20},
     .source = slip_guard,
     .x_unit = "h",
     .x_valid = Range{0, 240}}};
inline constexpr Key<Absorbance> target{{.name = "target",
                                         .help = "colour to press at, measured as the readings are, through 10 mm",
                                         .unit = "AU",
                                         .valid = Range{0.01, 20},
                                         .source = slip_guard}};
inline constexpr Key<Absorbance> target_in_wine{
    {.name = "target in wine",
     .help = "colour that the wine is to have, measured as the readings are, through 10 mm",
     .unit = "AU",
     .valid = Range{0.01, 20},
     .usual = Range{0.1, 2.5},
     .source = slip_guard}};
inline constexpr Key<Absorbance> known_start{
    {.name = "colour at 0 h",
     .help = "of juice that has not met the skins, through 10 mm, when it was read; without it, it is fitted",
     .unit = "AU",
     .valid = Range{0, 20},
     .source = slip_guard}};

inline constexpr Result<Time> press_at{
    {.name = "press at", .help = "hours on the skins to the target", .unit = "h", .decimals = 1}};
inline constexpr Result<Time> press_at_uncertainty{{.name = "uncertainty of press at",
                                                    .help = "standard, from the covariance of the fit",
                                                    .unit = "h",
                                                    .decimals = 2}};
inline constexpr Result<Time> earliest{
    {.name = "earliest", .help = "lower end of the 95 % interval", .unit = "h", .decimals = 1}};
inline constexpr Result<Time> latest{
    {.name = "latest", .help = "upper end of the 95 % interval", .unit = "h", .decimals = 1}};
inline constexpr Result<Absorbance> start{
    {.name = "fitted start", .help = "colour at 0 h, through 10 mm", .unit = "AU", .decimals = 3}};
inline constexpr Result<Absorbance> plateau{
    {.name = "plateau", .help = "what the skins give in the end, through 10 mm", .unit = "AU", .decimals = 3}};
inline constexpr Result<Absorbance> plateau_uncertainty{{.name = "uncertainty of plateau",
                                                         .help = "standard, from the covariance of the fit",
                                                         .unit = "AU",
                                                         .decimals = 3}};
inline constexpr Result<Time> half_time{
    {.name = "half time", .help = "in which half of the colour still to come comes out", .unit = "h", .decimals = 2}};
inline constexpr Result<Absorbance> scatter{
    {.name = "scatter", .help = "of the readings about the course, standard deviation", .unit = "AU", .decimals = 3}};

inline constexpr Need inputs[] = {needs(readings), takes(target), takes(target_in_wine), takes(known_start)};
inline constexpr const Input* targets[] = {&target, &target_in_wine};
inline constexpr OneOf one_of[] = {targets};
inline constexpr const ResultInfo* results[] = {&press_at, &press_at_uncertainty, &earliest,  &latest, &start,
                                                &plateau,  &plateau_uncertainty,  &half_time, &scatter};
inline constexpr Source sources[] = {first_order, delta_method, usual_time, colour_loss};
// Invented readings.
inline constexpr std::string_view example[] = {
    "readings={path: 10 mm, 1 h: 0.48 AU, 2 h: 0.80 AU, 3 h: 1.05 AU, 4 h: 1.29 AU, 6 h: 1.62 AU, 8 h: 1.85 AU}",
    "target=2.0 AU"};

Outcome run(const Inputs& in);

inline constexpr Calculation calculation{.name = "contact",
                                         .help = "the hour to press, from the course of the colour on the skins",
                                         .inputs = inputs,
                                         .one_of = one_of,
                                         .results = results,
                                         .reagents = lab::gives_off_gas,
                                         .sources = sources,
                                         .example = example,
                                         .run = run,
                                         .label = "When do I press, for the colour I want?"};

}  // namespace vatwright::pink::contact
