// assay.density: density from a pycnometer, or from the period of an oscillating cell.
#pragma once

#include "plugins/assay/keys.hpp"

namespace vatwright::assay::density {

inline constexpr Source oiv_density{.title = "OIV-MA-AS2-01A, density", .place = "form and repeatability from memory"};
inline constexpr Source air_source{.title = "density of air at 20 °C and one atmosphere, 1.2 g/L",
                                   .standing = "from memory"};
inline constexpr Source kell{.title = "Kell, J. Chem. Eng. Data 20 (1975) 97", .place = "density of water"};

template <class Quantity>
constexpr Key<Quantity> weighed(std::string_view name, std::string_view help, std::string_view unit, Range valid) {
  return Key<Quantity>{{.name = name, .help = help, .unit = unit, .valid = valid, .source = slip_guard}};
}
inline constexpr auto empty = weighed<Mass>("empty", "mass of the dry pycnometer", "g", {0.1, 2000});
inline constexpr auto with_water = weighed<Mass>("with water", "mass of it filled with water", "g", {0.2, 5000});
inline constexpr auto with_wine =
    weighed<Mass>("with wine", "mass of it filled with the sample, at the temperature of the water", "g", {0.2, 5000});
inline constexpr auto period = weighed<Time>("period", "of the cell with the sample", "ms", {0.1, 100});
inline constexpr auto period_in_water = weighed<Time>("period in water", "of the cell with water", "ms", {0.1, 100});
inline constexpr auto period_in_air = weighed<Time>("period in air", "of the empty cell", "ms", {0.1, 100});
inline constexpr Key<Temperature> at{{.name = "at",
                                      .help = "temperature of water and sample when they were read",
                                      .unit = "°C",
                                      .valid = Range{10, 40},
                                      .usual = Range{19, 21},
                                      .source = slip_guard}};
inline constexpr Key<Density> air{{.name = "air density",
                                   .help = "of the air in the room",
                                   .unit = "g/L",
                                   .valid = Range{0.8, 1.4},
                                   .usual = Range{1.1, 1.25},
                                   .source = air_source}};
inline constexpr Result<Density> found{
    {.name = "density", .help = "of the sample at that temperature", .unit = "g/mL", .decimals = 5}};
inline constexpr Result<Fraction> relative{
    {.name = "relative density", .help = "over that of water at the same temperature", .unit = "1", .decimals = 5}};

inline constexpr Need inputs[] = {takes(empty),       takes(with_water),      takes(with_wine),
                                  takes(period),      takes(period_in_water), takes(period_in_air),
                                  takes(at, "20 °C"), takes(air, "1.2 g/L")};
inline constexpr const Input* ways[] = {&with_wine, &period};
inline constexpr OneOf one_of[] = {ways};
inline constexpr const ResultInfo* results[] = {&found, &relative};
inline constexpr const Input* changes[] = {&lot::density};
inline constexpr Source sources[] = {
    oiv_density, kell, air_source, {.title = "weighing in air: buoyancy of both liquids", .standing = "derived"}};
inline constexpr std::string_view example[] = {"empty=67.0000 ± 0.0002 g", "with water=166.8000 ± 0.0002 g",
                                               "with wine=166.5000 ± 0.0002 g"};

Outcome run(const Inputs& in);

inline constexpr Calculation calculation{.name = "density",
                                         .help = "density from a pycnometer or an oscillating cell",
                                         .inputs = inputs,
                                         .one_of = one_of,
                                         .results = results,
                                         .changes = changes,
                                         .sources = sources,
                                         .example = example,
                                         .measures = true,
                                         .run = run,
                                         .label = "What is the density, by pycnometer or oscillating cell?",
                                         .group = bench_group};

}  // namespace vatwright::assay::density
