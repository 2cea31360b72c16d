// What the calculations of this plugin share.
#pragma once

#include "plugins/lab/repeats.hpp"

namespace vatwright::assay {

inline constexpr Source slip_guard = lot::guard;
inline constexpr Source oiv_volatile{.title = "OIV-MA-AS313-02, volatile acidity",
                                     .place = "coefficients and repeatability from memory"};
inline constexpr Source guide{.title = "EURACHEM/CITAC Guide Quantifying Uncertainty in Analytical Measurement, 2012",
                              .place = "example A5, as recomputed by the Measurement Standards Laboratory"};
inline constexpr std::string_view bench_group = "at the laboratory bench";

inline constexpr Key<Volume> titrant{{.name = "titrant",
                                      .help = "volume of titrant used",
                                      .unit = "mL",
                                      .valid = Range{0, 200},
                                      .usual = Range{0.5, 50},
                                      .source = slip_guard}};
inline constexpr Key<Volume> sample{{.name = "sample",
                                     .help = "volume of wine or must taken",
                                     .unit = "mL",
                                     .valid = Range{0.01, 500},
                                     .usual = Range{0.05, 100},
                                     .source = slip_guard}};
inline constexpr Key<Fraction> dilution{{.name = "dilution",
                                         .help = "volume after over volume before, when the sample was diluted",
                                         .unit = "1",
                                         .valid = Range{1, 10000},
                                         .usual = Range{1, 200},
                                         .source = slip_guard}};

}  // namespace vatwright::assay
