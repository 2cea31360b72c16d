// Inputs, limits and sources that more than one calculation of this plugin names.
#pragma once

#include "host/plugin/plugin.hpp"
#include "plugins/lab/must.hpp"

#include <algorithm>

namespace vatwright::sugar {

using lab::legal_yield;
using lab::must_allowance;
using lab::non_sugar;
using lab::non_sugar_by_default;
using lab::practice_yield;
using lab::yield;
using lab::yield_by_default;

inline constexpr Source slip_guard = lot::guard;
inline constexpr Source oiml{.title = "OIML R 22, alcoholometry",
                             .place = "general formula; read in Directive 76/766/EEC"};
inline constexpr Source icumsa{.title = "ICUMSA SPS-4, density of sucrose solutions",
                               .standing = "read in transcriptions"};
inline constexpr Source mass_balance{.title = "balance of masses", .standing = "derived"};
inline constexpr Source tabarie{.title = "OIV-MA-AS2-03B, total dry extract", .place = "Tabarié's relation"};
inline constexpr Source oiv_distillate{.title = "OIV-MA-AS312-01, alcoholic strength by volume"};

// Words of lot::stage that these calculations go by.
inline constexpr std::string_view stage_must = "must", stage_wine = "wine";

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
inline constexpr const ModelInfo* must_models[] = {&sugar_to_alcohol, &density_to_sugar};

// No yeast needs less than the formula of the fermentation.
inline chemistry::YieldFactor yield_of(const Inputs& in) {
  const chemistry::YieldFactor here = (1.0 + in[sugar_to_alcohol].value()) * (in[yield] / percent_vol);
  return std::max(here, chemistry::stoichiometric_yield_factor());
}
inline MassFraction non_sugar_of(const Inputs& in) {
  return std::max(in[non_sugar] + in[density_to_sugar], MassFraction{});
}

// An amount that was decided on elsewhere, in place of a target.
inline constexpr Key<MassConcentration> stated{{.name = "add",
                                                .help = "a stated amount as it is weighed, for a litre of the lot",
                                                .unit = "g/L",
                                                .valid = Range{0.1, 500},
                                                .usual = Range{1, 60},
                                                .source = slip_guard}};

// How far the sugar of a must, and so its potential alcohol, can be trusted: musts differ in what else
// is dissolved in them, and yeasts in what they make of it.
inline constexpr std::string_view must_uncertainty = "± 0.4 % vol";

}  // namespace vatwright::sugar
