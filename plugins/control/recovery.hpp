// control.recovery: how much of what was added is found, and whether a reference is read right.
#pragma once

#include "plugins/control/keys.hpp"

namespace vatwright::control::recovery {

inline constexpr Source bias_test{.title = "bias against a reference within twice its standard uncertainty",
                                  .place = "JCGM 100, coverage factor 2"};

inline constexpr Key<MassConcentration> found{{.name = "found",
                                               .help = "read in the sample with the addition, or in the reference",
                                               .unit = "mg/L",
                                               .valid = Range{0, 1e6},
                                               .source = slip_guard}};
inline constexpr Key<MassConcentration> native{{.name = "native",
                                                .help = "read in the sample without the addition",
                                                .unit = "mg/L",
                                                .valid = Range{0, 1e6},
                                                .source = slip_guard}};
inline constexpr Key<MassConcentration> added{{.name = "added",
                                               .help = "content that the addition makes; of a reference: what it has",
                                               .unit = "mg/L",
                                               .valid = Range{1e-9, 1e6},
                                               .source = slip_guard}};

inline constexpr Result<Fraction> recovered{
    {.name = "recovery", .help = "found again of what was added", .unit = "%", .decimals = 1}};
inline constexpr Result<MassConcentration> bias{
    {.name = "bias", .help = "found less what there should be", .unit = "mg/L", .decimals = 3}};

inline constexpr Need inputs[] = {needs(found), needs(added), takes(native, "0 mg/L")};
inline constexpr const ResultInfo* results[] = {&recovered, &bias};
inline constexpr Source sources[] = {{.title = "recovery = (found - native) / added", .standing = "derived"},
                                     bias_test};
inline constexpr std::string_view example[] = {"found=48.6 ± 0.8 mg/L", "native=24.1 ± 0.6 mg/L",
                                               "added=25.0 ± 0.1 mg/L"};

Outcome run(const Inputs& in);

inline constexpr Calculation calculation{.name = "recovery",
                                         .help = "recovery of an addition, or bias against a reference, with its ±",
                                         .inputs = inputs,
                                         .results = results,
                                         .sources = sources,
                                         .example = example,
                                         .on_lot = false,
                                         .run = run,
                                         .label = "Does the method find what is there?",
                                         .group = bench_group};

}  // namespace vatwright::control::recovery
