// assay.calibration: a straight line through standards, samples read off it with their ±, and the least that it can
// tell.
#pragma once

#include "plugins/assay/keys.hpp"

namespace vatwright::assay::calibration {

inline constexpr Source turned_round{.title = "Massart et al., Handbook of Chemometrics and Qualimetrics A (1997)",
                                     .place = "8.26, as computed by the R package chemCal"};
inline constexpr Source din{.title = "DIN 32645",
                            .place = "limits of decision, detection and quantification, as in chemCal"};

inline constexpr Key<MassConcentration> standard_content{
    {.name = "content", .help = "of the standard", .unit = "mg/L", .valid = Range{0, 1e6}, .source = slip_guard}};
inline constexpr Key<Fraction> reading{{.name = "reading",
                                        .help = "of the instrument: absorbance, area, height, as a number",
                                        .unit = "1",
                                        .valid = Range{-1e9, 1e9},
                                        .source = slip_guard}};
inline constexpr Key<Fraction> weight{{.name = "weight",
                                       .help = "how much this standard counts, such as one over its variance",
                                       .unit = "1",
                                       .valid = Range{1e-12, 1e12},
                                       .source = slip_guard}};
inline constexpr Need standard_columns[] = {needs(standard_content), needs(reading), takes(weight)};
inline constexpr RowsKey standards{{.name = "standards",
                                    .help = "three or more, such as [{content: 0.1 mg/L, reading: 0.028}]",
                                    .source = turned_round,
                                    .each = standard_columns}};
inline constexpr NameKey sample_name{{.name = "name", .help = "of the sample; rows of one name are repeats"}};
inline constexpr Need sample_columns[] = {needs(sample_name), needs(reading), takes(dilution), takes(weight)};
inline constexpr RowsKey samples{{.name = "samples",
                                  .help = "what is read off the line, such as [{name: T7, reading: 0.0712}]",
                                  .each = sample_columns}};
inline constexpr std::string_view by_none = "none", by_x = "1/content", by_square = "1/content²",
                                  as_stated = "as stated";
inline constexpr std::string_view weightings[] = {by_none, by_x, by_square, as_stated};
inline constexpr Choice weighting{
    {.name = "weights", .help = "how the standards count", .choices = weightings, .source = turned_round}};
inline constexpr std::string_view no = "no", yes = "yes";
inline constexpr std::string_view answers[] = {no, yes};
inline constexpr Choice through_zero{
    {.name = "through zero", .help = "force the line through nought", .choices = answers, .source = turned_round}};
inline constexpr Key<Fraction> error{{.name = "error",
                                      .help = "chance of a wrong 'it is there' in the limits",
                                      .unit = "%",
                                      .valid = Range{0.1, 20},
                                      .usual = Range{1, 5},
                                      .source = din}};

using Slope = decltype(Fraction() / MassConcentration());
inline constexpr Result<Slope> slope{
    {.name = "slope", .help = "reading for each of content", .unit = "L/mg", .decimals = 5}};
inline constexpr Result<Fraction> intercept{
    {.name = "intercept", .help = "reading of a content of nought", .unit = "1", .decimals = 5}};
inline constexpr Result<Fraction> residual{
    {.name = "residual standard deviation", .help = "of the readings about the line", .unit = "1", .decimals = 6}};
inline constexpr Result<Fraction> explained{
    {.name = "r²", .help = "share of the squares that the line explains", .unit = "1", .decimals = 6}};
inline constexpr Result<MassConcentration> decision{
    {.name = "decision limit", .help = "above it there is something", .unit = "mg/L", .decimals = 4}};
inline constexpr Result<MassConcentration> detection{
    {.name = "detection limit", .help = "so much is found nearly always", .unit = "mg/L", .decimals = 4}};
inline constexpr Result<MassConcentration> quantification{
    {.name = "quantification limit", .help = "told to a third of itself", .unit = "mg/L", .decimals = 4}};
inline constexpr Result<MassConcentration> content{
    {.name = "content of the first sample", .help = "with the ± of a calibrated value", .unit = "mg/L", .decimals = 4}};

inline constexpr Need inputs[] = {needs(standards), takes(samples), takes(weighting, "none"), takes(through_zero, "no"),
                                  takes(error, "5 %")};
inline constexpr const ResultInfo* results[] = {&slope,    &intercept, &residual,       &explained,
                                                &decision, &detection, &quantification, &content};
inline constexpr Source sources[] = {turned_round, din, guide};
inline constexpr std::string_view example[] = {
    "standards=[{content: 0.1 mg/L, reading: 0.028}, {content: 0.1 mg/L, reading: 0.029}, {content: 0.3 mg/L, reading: "
    "0.084}, {content: 0.3 mg/L, reading: 0.083}, {content: 0.5 mg/L, reading: 0.135}, {content: 0.5 mg/L, reading: "
    "0.131}, {content: 0.9 mg/L, reading: 0.216}, {content: 0.9 mg/L, reading: 0.230}]",
    "samples=[{name: T7, reading: 0.0712}, {name: T7, reading: 0.0716}]"};

Outcome run(const Inputs& in);

inline constexpr Calculation calculation{.name = "calibration",
                                         .help = "a calibration line, what samples have by it with their ±, its limits",
                                         .inputs = inputs,
                                         .results = results,
                                         .sources = sources,
                                         .example = example,
                                         .on_lot = false,
                                         .run = run,
                                         .label = "What do the samples have, by the calibration line?",
                                         .group = bench_group};

}  // namespace vatwright::assay::calibration
