// control.chart: a control sample over time, and whether the laboratory is right today.
#pragma once

#include "plugins/control/keys.hpp"

namespace vatwright::control::chart {

inline constexpr Source shewhart{.title = "ISO 7870-2, Shewhart control charts", .standing = "from memory"};
inline constexpr Source short_rules{.title = "Westgard et al., Clin. Chem. 27 (1981) 493", .standing = "from memory"};

inline constexpr DateKey date{{.name = "date", .help = "day of the reading"}};
inline constexpr Key<Fraction> value{
    {.name = "value", .help = "of the control sample", .unit = "1", .valid = Range{-1e9, 1e9}, .source = slip_guard}};
inline constexpr Need columns[] = {takes(date), needs(value)};
inline constexpr RowsKey readings{{.name = "readings",
                                   .help = "of the control sample in order, such as [{date: 2026-09-01, value: 30.2}]",
                                   .each = columns}};
inline constexpr Key<Fraction> target{{.name = "target",
                                       .help = "true value of the control sample; left out: the mean of the trial",
                                       .unit = "1",
                                       .valid = Range{-1e9, 1e9},
                                       .source = slip_guard}};
inline constexpr Key<Fraction> spread{{.name = "standard deviation",
                                       .help = "of one reading; left out: from the moving ranges of the trial",
                                       .unit = "1",
                                       .valid = Range{1e-12, 1e9},
                                       .source = slip_guard}};
inline constexpr Key<Fraction> trial{{.name = "trial",
                                      .help = "how many first readings set the limits; left out: all but the last",
                                      .unit = "1",
                                      .valid = Range{2, 10000},
                                      .usual = Range{10, 40},
                                      .source = shewhart}};
inline constexpr std::string_view laboratory = "laboratory", shewhart_rules = "shewhart";
inline constexpr std::string_view sets[] = {laboratory, shewhart_rules};
inline constexpr Choice rule_set{{.name = "run rules",
                                  .help = "the laboratory's short set, or the eight of the Shewhart chart",
                                  .choices = sets,
                                  .source = short_rules}};

inline constexpr Result<Fraction> centre{{.name = "centre", .help = "of the chart", .unit = "1", .decimals = 4}};
inline constexpr Result<Fraction> sigma{
    {.name = "standard deviation of a reading", .help = "that the limits stand on", .unit = "1", .decimals = 4}};
inline constexpr Result<Fraction> low{{.name = "lower limit", .help = "3 s below", .unit = "1", .decimals = 4}};
inline constexpr Result<Fraction> high{{.name = "upper limit", .help = "3 s above", .unit = "1", .decimals = 4}};

inline constexpr Need inputs[] = {
    needs(readings), takes(target), takes(spread), takes(trial), takes(rule_set, "laboratory"), takes(unit)};
inline constexpr const ResultInfo* results[] = {&centre, &sigma, &low, &high};
inline constexpr Source sources[] = {shewhart, short_rules};
inline constexpr std::string_view example[] = {
    "readings=[{date: 2026-09-01, value: 30.2}, {date: 2026-09-02, value: 29.6}, {date: 2026-09-03, value: 30.5}, "
    "{date: "
    "2026-09-04, value: 30.1}, {date: 2026-09-05, value: 29.4}, {date: 2026-09-06, value: 30.3}]",
    "target=30.0", "standard deviation=0.5", "in=mg/L"};

Outcome run(const Inputs& in);

inline constexpr Calculation calculation{.name = "chart",
                                         .help = "a control sample over time: limits, run rules, verdict",
                                         .inputs = inputs,
                                         .results = results,
                                         .sources = sources,
                                         .example = example,
                                         .on_lot = false,
                                         .repeatable = false,  // its doubt is the scatter that it shows
                                         .run = run,
                                         .label = "Is the laboratory right today?",
                                         .group = bench_group};

}  // namespace vatwright::control::chart
