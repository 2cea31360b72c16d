// control.meter: a pH meter by its buffers: slope, offset, and a sample's pH from its millivolts.
#pragma once

#include "plugins/control/keys.hpp"

namespace vatwright::control::meter {

inline constexpr Source buffers_source{.title = "European Pharmacopoeia, table 2.2.3-2",
                                       .place = "buffers from 15 to 35 °C"};
inline constexpr Source nernst{.title = "Nernst slope ln 10 R T / F, CODATA constants", .standing = "derived"};
inline constexpr Source acceptance{.title = "United States Pharmacopeia, chapter 791",
                                   .place = "slope 90 to 105 %, offset within 30 mV"};
inline constexpr Source bench_rule{.title = "slope 95 to 102 %", .standing = "common practice, no source"};

inline constexpr std::string_view names[] = {"tetroxalate", "tartrate", "citrate",  "phthalate",
                                             "phosphate",   "borax",    "carbonate"};
inline constexpr Choice buffer{
    {.name = "buffer", .help = "its pH at the temperature is looked up", .choices = names, .source = buffers_source}};
inline constexpr Key<Ph> buffer_ph{{.name = "buffer pH",
                                    .help = "of another buffer, from its label at the temperature",
                                    .unit = "pH",
                                    .valid = Range{0, 14},
                                    .source = slip_guard}};
inline constexpr Key<Voltage> reads{{.name = "reads",
                                     .help = "what the meter shows in millivolts",
                                     .unit = "mV",
                                     .valid = Range{-1000, 1000},
                                     .usual = Range{-450, 450},
                                     .source = slip_guard}};
inline constexpr Need columns[] = {takes(buffer), takes(buffer_ph), needs(reads)};
inline constexpr RowsKey buffers{
    {.name = "buffers",
     .help = "two or more, such as [{buffer: phthalate, reads: 172.5 mV}, {buffer: phosphate, reads: 4.9 mV}]",
     .each = columns}};
inline constexpr Key<Voltage> sample_reads{{.name = "sample reads",
                                            .help = "what the meter shows in the sample, in millivolts",
                                            .unit = "mV",
                                            .valid = Range{-1000, 1000},
                                            .usual = Range{-100, 400},
                                            .source = slip_guard}};
inline constexpr Key<Temperature> at{{.name = "at",
                                      .help = "temperature of the buffers and the sample",
                                      .unit = "°C",
                                      .valid = Range{15, 35},
                                      .usual = Range{18, 26},
                                      .source = buffers_source}};
inline constexpr std::string_view pharmacopeia = "pharmacopeia", strict = "bench";
inline constexpr std::string_view limits[] = {pharmacopeia, strict};
inline constexpr Choice held_to{{.name = "held to",
                                 .help = "slope 90 to 105 % (pharmacopeia) or 95 to 102 % (bench)",
                                 .choices = limits,
                                 .source = acceptance}};

inline constexpr Result<Voltage> slope{
    {.name = "slope", .help = "millivolts for one pH, at this temperature", .unit = "mV", .decimals = 3}};
inline constexpr Result<Fraction> share{
    {.name = "slope share", .help = "of what theory gives at this temperature", .unit = "%", .decimals = 2}};
inline constexpr Result<Voltage> offset{{.name = "offset", .help = "at pH 7", .unit = "mV", .decimals = 2}};
inline constexpr Result<Ph> sample_ph{{.name = "pH", .help = "of the sample", .unit = "pH", .decimals = 3}};

inline constexpr Need inputs[] = {needs(buffers), takes(sample_reads), takes(at, "20 °C"),
                                  takes(held_to, "pharmacopeia")};
inline constexpr const ResultInfo* results[] = {&slope, &share, &offset, &sample_ph};
inline constexpr const Input* changes[] = {&lot::ph};
inline constexpr Source sources[] = {nernst, buffers_source, acceptance, bench_rule};
inline constexpr std::string_view example[] = {
    "buffers=[{buffer: tartrate, reads: 199.3 ± 0.3 mV}, {buffer: phthalate, reads: 172.9 ± 0.3 mV}, {buffer: "
    "phosphate, "
    "reads: 5.3 ± 0.3 mV}]",
    "sample reads=196.0 ± 0.3 mV", "at=25 °C"};

Outcome run(const Inputs& in);

inline constexpr Calculation calculation{
    .name = "meter",
    .help = "slope and offset of a pH meter from its buffers, a sample's pH with its ±",
    .inputs = inputs,
    .results = results,
    .changes = changes,
    .sources = sources,
    .example = example,
    .measures = true,
    .run = run,
    .label = "Is the pH meter right?",
    .group = bench_group};

}  // namespace vatwright::control::meter
