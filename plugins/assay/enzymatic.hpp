// assay.enzymatic: an acid or a sugar from the absorbance of the coenzyme that its oxidation makes or uses.
#pragma once

#include "plugins/assay/keys.hpp"

namespace vatwright::assay::enzymatic {

inline constexpr Source end_point{
    .title = "end-point enzymatic analysis: OIV methods MA-AS311-02, MA-AS313-07, -09, -11",
    .place = "general form, volumes and absorptivities",
    .standing = "from memory"};
inline constexpr Source decree{.title = "French decree of 19 November 1987, annex VI",
                               .place = "glucose, fructose and sucrose, with a blank"};

inline constexpr std::string_view analytes[] = {"glucose", "fructose", "malic acid", "lactic acid", "citric acid"};
inline constexpr Choice analyte{
    {.name = "analyte", .help = "what the kit of enzymes finds", .choices = analytes, .source = end_point}};
inline constexpr std::string_view wavelengths[] = {"340 nm", "334 nm", "365 nm"};
inline constexpr Choice wavelength{
    {.name = "wavelength", .help = "of the lamp or the filter", .choices = wavelengths, .source = end_point}};

inline constexpr Key<Absorbance> row_before{{.name = "before",
                                             .help = "absorbance before the enzyme",
                                             .unit = "AU",
                                             .valid = Range{0, 4},
                                             .usual = Range{0, 1.5},
                                             .source = slip_guard}};
inline constexpr Key<Absorbance> row_after{{.name = "after",
                                            .help = "absorbance when the reaction has ended",
                                            .unit = "AU",
                                            .valid = Range{0, 4},
                                            .usual = Range{0.05, 1.8},
                                            .source = slip_guard}};
inline constexpr Need columns[] = {needs(row_before), needs(row_after)};
inline constexpr RowsKey readings{
    {.name = "readings",
     .help = "one or more cells of the sample, such as [{before: 0.210 AU, after: 0.460 AU}]",
     .each = columns}};
inline constexpr Key<Absorbance> blank_before{{.name = "blank before",
                                               .help = "absorbance of the blank before the enzyme",
                                               .unit = "AU",
                                               .valid = Range{0, 4},
                                               .usual = Range{0, 1},
                                               .source = decree}};
inline constexpr Key<Absorbance> blank_after{{.name = "blank after",
                                              .help = "absorbance of the blank at the end",
                                              .unit = "AU",
                                              .valid = Range{0, 4},
                                              .usual = Range{0, 1},
                                              .source = decree}};
inline constexpr Key<Length> path{{.name = "path",
                                   .help = "of light through the cell",
                                   .unit = "mm",
                                   .valid = Range{0.1, 100},
                                   .usual = Range{5, 20},
                                   .source = slip_guard}};
inline constexpr Key<Volume> final_volume{{.name = "final volume",
                                           .help = "in the cell at the end; left out: that of the analyte's method",
                                           .unit = "mL",
                                           .valid = Range{0.05, 100},
                                           .usual = Range{0.2, 5},
                                           .source = end_point}};
inline constexpr Key<Volume> cell_sample{{.name = "sample",
                                          .help = "in the cell; left out: that of the analyte's method",
                                          .unit = "mL",
                                          .valid = Range{0.001, 50},
                                          .usual = Range{0.005, 2},
                                          .source = end_point}};
using Absorptivity = decltype(Absorbance() / (Length() * AmountConcentration()));
inline constexpr Key<Absorptivity> absorptivity{
    {.name = "absorptivity",
     .help = "of the coenzyme; left out: 6.3, 6.2 and 3.4 at 340, 334, 365 nm",
     .unit = "AU·L/mmol/cm",
     .valid = Range{0.5, 20},
     .usual = Range{3.3, 6.4},
     .source = end_point}};
inline constexpr Key<MassConcentration> repeatability{
    {.name = "repeatability",
     .help = "what two results of one sample may differ by; left out: that of the analyte's method",
     .unit = "g/L",
     .valid = Range{1e-4, 50},
     .source = end_point}};

inline constexpr Result<MassConcentration> content{
    {.name = "content", .help = "of the analyte in the sample as it was taken", .unit = "g/L", .decimals = 3}};

inline constexpr Need inputs[] = {needs(analyte),
                                  needs(readings),
                                  takes(blank_before, "0 AU"),
                                  takes(blank_after, "0 AU"),
                                  takes(wavelength, "340 nm"),
                                  takes(path, "10 mm"),
                                  takes(final_volume),
                                  takes(cell_sample),
                                  takes(dilution, "1"),
                                  takes(absorptivity),
                                  takes(repeatability)};
inline constexpr const ResultInfo* results[] = {&content};
inline constexpr const Input* changes[] = {&lot::malic_acid, &lot::lactic_acid, &lot::citric_acid};
inline constexpr Source sources[] = {end_point, decree, lab::repeats_source};
inline constexpr std::string_view example[] = {
    "analyte=malic acid", "readings=[{before: 0.210 AU, after: 0.480 AU}, {before: 0.212 AU, after: 0.481 AU}]",
    "blank before=0.205 AU", "blank after=0.225 AU", "dilution=10"};

Outcome run(const Inputs& in);

inline constexpr Calculation calculation{.name = "enzymatic",
                                         .help = "an acid or a sugar by enzymes and absorbance, end point",
                                         .inputs = inputs,
                                         .results = results,
                                         .changes = changes,
                                         .sources = sources,
                                         .example = example,
                                         .measures = true,
                                         .run = run,
                                         .label = "What is the acid or the sugar, from the enzyme test?",
                                         .group = bench_group};

}  // namespace vatwright::assay::enzymatic
