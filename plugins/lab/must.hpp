// What a must makes of its sugar, as every calculation takes it.
#pragma once

#include "host/plugin/plugin.hpp"
#include "plugins/chemistry/must.hpp"

#include <algorithm>

namespace vatwright::lab {

inline constexpr Source legal_yield{.title = "French order of 18 August 2014 (AGRT1408514A), 16.83 g/L",
                                    .place = "annex II B 4.4.2"};
inline constexpr Source practice_yield{.title = "IFV, practice grid for oenology: 16.5 g/L for white, 17.5 for red"};
inline constexpr Source must_allowance{.title = "Margalit, Winery Technology and Operations: 2.1 % mass",
                                       .standing = "from memory"};

// Written as the sugar that makes 1 % vol.
inline constexpr Key<MassConcentration> yield{{.name = "yield",
                                               .help = "sugar that makes 1 % vol: 16.5 to 18 g/L are in use",
                                               .unit = "g/L",
                                               .valid = Range{15.44, 25},
                                               .usual = Range{16.5, 18},
                                               .source = legal_yield}};
inline constexpr std::string_view yield_by_default = "16.83 g/L";

inline constexpr Key<MassFraction> non_sugar{
    {.name = "non-sugar",
     .help = "what is dissolved in the must and is not sugar; 2.1 % mass is a mean",
     .unit = "% mass",
     .valid = Range{0, 6},
     .usual = Range{1.5, 3.5},
     .source = must_allowance}};
inline constexpr std::string_view non_sugar_by_default = "2.1 % mass";

// How far the sugar of a must, and what yeast makes of it, differ from one must to the next.
inline constexpr Model<Fraction> sugar_to_alcohol{
    {.name = "sugar to alcohol",
     .help = "what a yeast makes of a gram of sugar",
     .unit = "%",
     .standard = 2.5,
     .source = {.title = "Australian Wine Research Institute, column",
                .place =
                    "180 g/L become 10.0 to 10.9 % vol, 210 g/L 11.7 to 12.7: equally likely in between (JCGM 100, "
                    "4.3.7)",
                .standing = "derived"}}};
inline constexpr Model<MassFraction> density_to_sugar{
    {.name = "density to sugar",
     .help = "what is dissolved in a must beside sugar",
     .unit = "% mass",
     .standard = 0.58,
     .source = {.title = "1.5 to 3.5 % mass, equally likely in between (JCGM 100, 4.3.7)",
                .standing = "common practice, no source"},
     .measure = "sugar by analysis"}};

// No yeast needs less than the formula of the fermentation.
inline chemistry::YieldFactor yield_of(const Inputs& in) {
  const chemistry::YieldFactor here = (1.0 + in[sugar_to_alcohol].value()) * (in[yield] / percent_vol);
  return std::max(here, chemistry::stoichiometric_yield_factor());
}
inline MassFraction non_sugar_of(const Inputs& in) {
  return std::max(in[non_sugar] + in[density_to_sugar], MassFraction{});
}

}  // namespace vatwright::lab
