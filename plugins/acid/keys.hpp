// Inputs, results, limits and sources that more than one calculation of this plugin names.
#pragma once

#include "host/plugin/plugin.hpp"
#include "plugins/lab/content_limits.hpp"
#include "plugins/lab/thinned_ph.hpp"

#include <array>
#include <cstddef>

namespace vatwright::acid {

inline constexpr Source slip_guard = lot::guard;
inline constexpr Source oiv_total_acidity{.title = "OIV-MA-AS313-01, total acidity",
                                          .place = "to pH 7, carbon dioxide not counted"};
inline constexpr Source model_source{
    .title =
        "charge balance with thermodynamic constants by temperature (NIST 46; Eden and Bates 1959; Bénézeth, Palmer "
        "and Wesolowski 1997; Kettler et al. 1995) and Davies activities",
    .standing = "enthalpies and heat capacities partly from memory"};
inline constexpr Source ethanol_source{
    .title = "Prenesti, Berto, Toso and Daniele, Sci. World J. 2012, 249041",
    .place = "table 4: how ethanol moves the constants of lactic and succinic acid; a working rule for the others"};
inline constexpr Source handbook{.title = "Ribéreau-Gayon et al., Handbook of Enology, vol. 2", .place = "chapter 1"};
inline constexpr Source oiv_acidification{.title = "OIV International Code of Oenological Practices",
                                          .place = "chemical acidification (II.2.1.3.1.1, II.3.1.1.1)"};
inline constexpr Source oiv_deacidification{.title = "OIV International Code of Oenological Practices",
                                            .place = "chemical de-acidification, wines"};

using lot::endpoint;
using lot::ph_of_endpoint;
using lot::to_7;
using lot::to_8;

inline constexpr Key<Acidity> target_titratable{{.name = "target titratable acidity",
                                                 .help = "titratable acidity wanted, to the same end point",
                                                 .unit = "g/L as tartaric acid",
                                                 .valid = Range{0, 40},
                                                 .usual = Range{3.5, 12},
                                                 .source = slip_guard}};
inline constexpr Key<Ph> target_ph{{.name = "target pH",
                                    .help = "pH wanted",
                                    .unit = "pH",
                                    .valid = Range{1.5, 5.0},
                                    .usual = Range{2.9, 3.9},
                                    .source = slip_guard}};
// An amount that was decided on elsewhere.
inline constexpr Key<MassConcentration> stated{{.name = "add",
                                                .help = "a stated amount of the pure substance, in place of a target",
                                                .unit = "g/L",
                                                .valid = Range{0.01, 10},
                                                .usual = Range{0.1, 4},
                                                .source = slip_guard}};
inline constexpr const Input* targets[] = {&target_titratable, &target_ph, &stated};

inline constexpr Result<Ph> ph_after{{.name = "pH", .help = "predicted", .unit = "pH", .decimals = 2}};
inline constexpr Result<Acidity> titratable_after{
    {.name = "titratable acidity", .help = "predicted", .unit = "g/L as tartaric acid", .decimals = 2}};
inline constexpr Result<BufferCapacity> capacity_after{
    {.name = "buffer capacity", .help = "at the predicted pH", .unit = "mmol/L/pH", .decimals = 1}};

inline constexpr Limit<Acidity> added_limit{
    {.name = "added acidity", .help = "most acid that may be added", .unit = "g/L as tartaric acid"}};
inline constexpr Limit<Acidity> removed_limit{
    {.name = "removed acidity", .help = "most acid that may be taken away", .unit = "g/L as tartaric acid"}};
inline constexpr Limit<Acidity> removed_first{{.name = "acid removed before acidification",
                                               .help = "most acid that may have been taken away before acid is added",
                                               .unit = "g/L as tartaric acid"}};
inline constexpr Limit<Acidity> added_first{{.name = "acid added before deacidification",
                                             .help = "most acid that may have been added before acid is taken away",
                                             .unit = "g/L as tartaric acid"}};
inline constexpr Limit<Strength> enriched_first{{.name = "enriched before acidification",
                                                 .help = "most strength that may have been gained before acid is added",
                                                 .unit = "% vol"}};
inline constexpr Limit<Acidity> total_limit{
    {.name = "total acidity of wine", .help = "least acidity of a wine", .unit = "g/L as tartaric acid"}};
inline constexpr Limit<Acidity> fixed_most{{.name = "fixed acidity after acidification",
                                            .help = "most fixed acidity after acid was added",
                                            .unit = "g/L as tartaric acid"}};
inline constexpr Limit<Ph> ameliorated_ph{{.name = "pH after acidification",
                                           .help = "least pH that acid may bring a must or wine to that was stretched "
                                                   "with water",
                                           .unit = "pH"}};
inline constexpr Limit<Acidity> fixed_least{{.name = "fixed acidity after deacidification",
                                             .help = "least fixed acidity after acid was taken away",
                                             .unit = "g/L as tartaric acid"}};
inline constexpr Limit<MassConcentration> tartaric_limit{
    {.name = "residual tartaric acid", .help = "tartaric acid that must be left", .unit = "g/L"}};
inline constexpr const auto& citric_limit = lab::citric_acid_limit;

// What the composition of the lot is inferred from, and what the law goes by; joined to a
// calculation's own inputs.
inline constexpr auto wine_inputs = joined(std::array{needs(lot::ph), needs(lot::titratable_acidity),
                                                      takes(endpoint, to_7), takes(lot::stage), takes(lot::ethanol)},
                                           lab::acid_inputs);
inline constexpr std::array law_inputs{takes(lot::colour), takes(lot::wine_class), takes(lot::sugar), takes(lot::zone)};
inline constexpr std::array history_inputs{takes(lot::acid_added), takes(lot::acid_removed)};

}  // namespace vatwright::acid
