// control.duplicates: do pairs of results agree, and how well does this laboratory repeat itself?
#pragma once

#include "plugins/control/keys.hpp"

namespace vatwright::control::duplicates {

inline constexpr Source cochran{.title = "Cochran's test, ISO 5725-2", .place = "7.3.3", .standing = "from memory"};

inline constexpr NameKey sample{{.name = "sample", .help = "what was read"}};
constexpr Input number(std::string_view name, std::string_view help) {
  return {.name = name, .help = help, .unit = "1", .valid = Range{-1e9, 1e9}, .source = slip_guard};
}
inline constexpr Key<Fraction> first{number("first", "the first result")};
inline constexpr Key<Fraction> second{number("second", "the second result")};
inline constexpr Key<Fraction> third{number("third", "a third, where the first two did not agree")};
inline constexpr Need columns[] = {needs(sample), needs(first), needs(second), takes(third)};
inline constexpr RowsKey pairs{
    {.name = "results", .help = "a line a sample, such as [{sample: T7, first: 31.0, second: 31.8}]", .each = columns}};
inline constexpr Key<Fraction> repeatability{{.name = "repeatability",
                                              .help = "what two results of one sample may differ by (limit r)",
                                              .unit = "1",
                                              .valid = Range{1e-9, 1e9},
                                              .source = precision}};

inline constexpr Result<Fraction> s_r{
    {.name = "s_r", .help = "standard deviation of repeats, from the pairs", .unit = "1", .decimals = 4}};
inline constexpr Result<Fraction> own_limit{
    {.name = "own repeatability", .help = "the limit r that these pairs speak for", .unit = "1", .decimals = 4}};
inline constexpr Result<Fraction> accepted{
    {.name = "accepted", .help = "samples with a result that may be reported", .unit = "1", .decimals = 0}};

inline constexpr Need inputs[] = {needs(pairs), needs(repeatability), takes(unit)};
inline constexpr const ResultInfo* results[] = {&s_r, &own_limit, &accepted};
inline constexpr Source sources[] = {precision, cochran};
inline constexpr std::string_view example[] = {
    "results=[{sample: T1, first: 31.0, second: 31.6}, {sample: T2, first: 24.5, second: 24.1}, {sample: T3, first: "
    "18.0, "
    "second: 18.4}]",
    "repeatability=1.5", "in=mg/L"};

Outcome run(const Inputs& in);

inline constexpr Calculation calculation{.name = "duplicates",
                                         .help = "whether pairs of results agree, and what may be reported",
                                         .inputs = inputs,
                                         .results = results,
                                         .sources = sources,
                                         .example = example,
                                         .on_lot = false,
                                         .run = run,
                                         .label = "Do the duplicates agree?",
                                         .group = bench_group};

}  // namespace vatwright::control::duplicates
