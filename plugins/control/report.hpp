// control.report: what may be reported of repeated readings of one sample.
#pragma once

#include "plugins/control/keys.hpp"
#include "plugins/lab/repeats.hpp"

namespace vatwright::control::report {

inline constexpr Key<Fraction> value{
    {.name = "value", .help = "one reading", .unit = "1", .valid = Range{-1e9, 1e9}, .source = slip_guard}};
inline constexpr Need columns[] = {needs(value)};
inline constexpr RowsKey readings{
    {.name = "readings", .help = "one or more of one sample, such as [{value: 3.42}, {value: 3.43}]", .each = columns}};
inline constexpr Key<Fraction> repeatability{{.name = "repeatability",
                                              .help = "what two readings of one sample may differ by (limit r)",
                                              .unit = "1",
                                              .valid = Range{1e-9, 1e9},
                                              .source = precision}};
inline constexpr Result<Fraction> reported{
    {.name = "report", .help = "mean of readings that agree, else their median", .unit = "1", .decimals = 4}};

inline constexpr Need inputs[] = {needs(readings), takes(repeatability), takes(unit)};
inline constexpr const ResultInfo* results[] = {&reported};
inline constexpr Source sources[] = {precision};
inline constexpr std::string_view example[] = {"readings=[{value: 3.42}, {value: 3.43}]", "repeatability=0.03",
                                               "in=pH"};

Outcome run(const Inputs& in);

inline constexpr Calculation calculation{.name = "report",
                                         .help = "what may be reported of repeated readings of one sample",
                                         .inputs = inputs,
                                         .results = results,
                                         .sources = sources,
                                         .example = example,
                                         .on_lot = false,
                                         .run = run,
                                         .label = "Which result do I report of these readings?",
                                         .group = bench_group};

}  // namespace vatwright::control::report
