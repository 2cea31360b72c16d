// Inputs, limits and sources that more than one calculation of this plugin names.
#pragma once

#include "host/plugin/plugin.hpp"
#include "plugins/lab/must.hpp"

namespace vatwright::sugar {

using lab::density_to_sugar;
using lab::legal_yield;
using lab::must_allowance;
using lab::non_sugar;
using lab::non_sugar_by_default;
using lab::non_sugar_of;
using lab::practice_yield;
using lab::sugar_to_alcohol;
using lab::yield;
using lab::yield_by_default;
using lab::yield_of;

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

inline constexpr const ModelInfo* must_models[] = {&sugar_to_alcohol, &density_to_sugar};

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
