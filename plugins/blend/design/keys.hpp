// What blend.design asks and answers.
#pragma once

#include "plugins/blend/keys.hpp"

#include <array>
#include <iterator>

namespace vatwright::blend::design {

inline constexpr Source programming{.title = "linear and mixed-integer programming, GLPK 5.0",
                                    .place = "simplex; branch and bound"};

// Of one lot.
inline constexpr Key<Volume> available{{.name = "available",
                                        .help = "how much of the lot may be used; without it all of its volume",
                                        .unit = "hL",
                                        .valid = Range{0, 1e5},
                                        .source = slip_guard}};
inline constexpr Key<Fraction> price{{.name = "price",
                                      .help = "of one hL, a plain number in any one currency",
                                      .unit = "1",
                                      .valid = Range{0, 1e7},
                                      .source = slip_guard}};
inline constexpr Key<Volume> use_up{{.name = "use up",
                                     .help = "at least so much of the lot is used",
                                     .unit = "hL",
                                     .valid = Range{0, 1e5},
                                     .source = slip_guard}};
inline constexpr std::string_view in_part = "in part";
inline constexpr std::string_view whole = "whole or not at all";
inline constexpr std::string_view ways[] = {in_part, whole};
inline constexpr Choice tank{
    {.name = "tank", .help = "whether part of the lot may stay behind", .choices = ways, .source = common_practice}};
inline constexpr Need of_each_lot[] = {takes(available), takes(price), takes(use_up), takes(tank, in_part)};
inline constexpr LotsKey lots{{.name = "lots", .help = "lots to choose from", .each = of_each_lot}};

inline constexpr Key<Volume> wanted_volume{{.name = "volume",
                                            .help = "of the blend, before contraction",
                                            .unit = "hL",
                                            .valid = Range{0.00001, 1e5},
                                            .source = slip_guard}};

inline constexpr Source lab_source{.title = "CIE 15, L*a*b* under D65, 10° observer; OIV-MA-AS2-11",
                                   .standing = "formulas from memory"};
inline constexpr Key<Fraction> lightness{{.name = "L*",
                                          .help = "lightness of the blend, 100 for clear",
                                          .unit = "1",
                                          .valid = Range{0, 100},
                                          .source = lab_source}};
inline constexpr Key<Fraction> redness{{.name = "a*",
                                        .help = "from green, below 0, to red",
                                        .unit = "1",
                                        .valid = Range{-100, 100},
                                        .source = lab_source}};
inline constexpr Key<Fraction> yellowness{{.name = "b*",
                                           .help = "from blue, below 0, to yellow",
                                           .unit = "1",
                                           .valid = Range{-100, 130},
                                           .source = lab_source}};
inline constexpr Key<Length> path{{.name = "path",
                                   .help = "through which L*, a* and b* are meant",
                                   .unit = "mm",
                                   .valid = Range{0.1, 100},
                                   .source = lab_source}};

// A figure of the blend that can be bound, and the step that it is counted in, in the unit of its key: a
// difference that is worth as much as one step of another figure, which is what a figure is reproduced
// to, roughly (common practice, no source). Distances from a profile are counted in steps, and prices of
// bounds are for one.
struct Boundable {
  const Input* key;
  double step;
};
inline constexpr Boundable boundable[] = {{&lightness, 0.5},
                                          {&redness, 0.5},
                                          {&yellowness, 0.5},
                                          {&lot::ethanol, 0.1},
                                          {&lot::sugar, 0.5},
                                          {&lot::ph, 0.02},
                                          {&lot::titratable_acidity, 0.1},
                                          {&lot::volatile_acidity, 0.05},
                                          {&lot::tartaric_acid, 0.1},
                                          {&lot::malic_acid, 0.1},
                                          {&lot::lactic_acid, 0.1},
                                          {&lot::citric_acid, 0.05},
                                          {&lot::succinic_acid, 0.05},
                                          {&lot::potassium, 20},
                                          {&lot::calcium, 5},
                                          {&lot::sodium, 5},
                                          {&lot::free_so2, 2},
                                          {&lot::total_so2, 5},
                                          {&lot::acetaldehyde, 5},
                                          {&lot::assimilable_nitrogen, 10}};
inline constexpr auto can_be_bound = [] {
  std::array<Need, std::size(boundable)> needs{};
  for (std::size_t i = 0; i < needs.size(); ++i) needs[i] = takes(*boundable[i].key);
  return needs;
}();
inline constexpr BoundsKey bounds{
    {.name = "bounds", .help = "what the blend is held to: at most, at least, from ... to", .each = can_be_bound}};
inline constexpr BoundsKey profile{
    {.name = "profile", .help = "figures to come as close to as can be", .each = can_be_bound}};

inline constexpr std::string_view least_cost = "cost";
inline constexpr std::string_view closest = "profile";
inline constexpr std::string_view aims[] = {least_cost, closest};
inline constexpr Choice aim{{.name = "aim",
                             .help = "least cost by the lots' prices, or closest to the profile",
                             .choices = aims,
                             .source = programming}};

inline constexpr Key<Fraction> least_lots{{.name = "least lots",
                                           .help = "at least so many lots, each with 1 % or more",
                                           .unit = "1",
                                           .valid = Range{1, 1000},
                                           .source = slip_guard}};
inline constexpr Key<Fraction> most_lots{
    {.name = "most lots", .help = "at most so many lots", .unit = "1", .valid = Range{1, 1000}, .source = slip_guard}};
inline constexpr Key<Fraction> smallest_share{{.name = "smallest share",
                                               .help = "a lot is used with so much of the blend or not at all",
                                               .unit = "%",
                                               .valid = Range{0, 100},
                                               .usual = Range{0, 25},
                                               .source = common_practice}};

inline constexpr Result<Fraction> lots_used{
    {.name = "lots used", .help = "how many lots go into the blend", .unit = "1", .decimals = 0}};
inline constexpr Result<Volume> blend_volume{
    {.name = "blend volume", .help = "of the blend, after contraction", .unit = "hL", .decimals = 2}};
inline constexpr Result<Fraction> cost{
    {.name = "cost", .help = "of the whole blend, in the currency of the prices", .unit = "1", .decimals = 2}};
inline constexpr Result<Fraction> distance{
    {.name = "distance", .help = "from the profile: steps of all its figures together", .unit = "1", .decimals = 3}};

}  // namespace vatwright::blend::design
