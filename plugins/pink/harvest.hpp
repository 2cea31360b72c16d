// pink.harvest: when to pick, from readings of ripening by plot and the window that is wanted.
#pragma once

#include "plugins/pink/keys.hpp"

namespace vatwright::pink::harvest {

inline constexpr Source straight_course{.title = "over a few weeks of ripening sugar, acidity and pH run straight",
                                        .standing = "common practice, no source"};
inline constexpr Source usual_window{
    .title = "direct-press pink is picked at 19 to 22 °Brix, pH 3.1 to 3.35, 6.5 to 9 g/L as tartaric acid",
    .standing = "from memory"};

inline constexpr NameKey plot{{.name = "plot", .help = "where the sample was taken"}};
inline constexpr DateKey date{{.name = "date", .help = "day of the sample"}};
// A reading is off by so much at the least, whatever line three of them happen to lie on: the division of a
// refractometer or hydrometer, the repeatability of pH and of titrations.
struct Resolution {
  const Input* of;
  double standard;
  std::string_view unit;
};
inline constexpr Resolution resolutions[] = {{&lot::soluble_solids, 0.06, "°Brix"},
                                             {&lot::sugar, 0.6, "g/L"},
                                             {&lot::density, 0.3, "kg/m³"},
                                             {&lot::ph, 0.011, "pH"},
                                             {&lot::titratable_acidity, 0.32, "meq/L"}};
inline constexpr Source resolution_source{
    .title = "a reading is uncertain by 0.06 °Brix, 0.6 g/L of sugar, 0.3 kg/m³, pH 0.011 or 0.32 meq/L at the least",
    .standing = "common practice, no source"};

// What ripens; the readings have it, and the wanted window bounds it.
inline constexpr Need ripening[] = {takes(lot::soluble_solids), takes(lot::sugar), takes(lot::density), takes(lot::ph),
                                    takes(lot::titratable_acidity)};
inline constexpr Need columns[] = {needs(plot), needs(date), ripening[0], ripening[1],
                                   ripening[2], ripening[3], ripening[4]};
inline constexpr RowsKey readings{
    {.name = "readings", .help = "samples of ripening, three or more days for each plot", .each = columns}};
inline constexpr BoundsKey wanted{{.name = "wanted",
                                   .help = "the window for pink, such as {sugar: 185 to 205 g/L, pH: at most 3.35}",
                                   .source = usual_window,
                                   .each = ripening}};
inline constexpr BoundsKey wanted_for_red{
    {.name = "wanted for red", .help = "the window for a red from the same plots, to compare", .each = ripening}};
inline constexpr Key<Time> look_ahead{{.name = "look ahead",
                                       .help = "how far past a plot's last reading its course is trusted",
                                       .unit = "d",
                                       .valid = Range{1, 42},
                                       .usual = Range{3, 21},
                                       .source = straight_course}};

inline constexpr Result<Time> opens_after{{.name = "opens after",
                                           .help = "first whole day to pick a plot, counted from the first reading",
                                           .unit = "d",
                                           .decimals = 0}};
inline constexpr Result<Time> closes_after{
    {.name = "closes after",
     .help = "last whole day of the plot that closes first, counted from the first reading",
     .unit = "d",
     .decimals = 0}};

inline constexpr Need inputs[] = {needs(readings), needs(wanted), takes(wanted_for_red), takes(look_ahead, "14 d")};
inline constexpr const ResultInfo* results[] = {&opens_after, &closes_after};
inline constexpr Source sources[] = {
    {.title = "straight lines by least squares, intervals by Student's t", .standing = "derived"},
    straight_course,
    resolution_source,
    usual_window};
inline constexpr std::string_view example_readings =
    "readings=[{plot: Upper Terrace, date: 2026-08-17, sugar: 158 g/L, pH: 3.02}, {plot: Upper Terrace, date: "
    "2026-08-21, sugar: 169 g/L, pH: 3.07}, {plot: Upper Terrace, date: 2026-08-25, sugar: 178 g/L, pH: 3.11}, {plot: "
    "Upper Terrace, date: 2026-08-28, sugar: 187 g/L, pH: 3.16}]";
inline constexpr std::string_view example[] = {example_readings, "wanted={sugar: 190 to 208 g/L, pH: at most 3.28}"};

Outcome run(const Inputs& in);

inline constexpr Calculation calculation{
    .name = "harvest",
    .help = "ripening courses by plot, the days to pick for pink, and what ends them",
    .inputs = inputs,
    .results = results,
    .sources = sources,
    .example = example,
    .on_lot = false,
    .repeatable = false,  // a window may come and go with the readings; their scatter gives the doubt
    .run = run,
    .label = "On which days do I pick?"};

}  // namespace vatwright::pink::harvest
