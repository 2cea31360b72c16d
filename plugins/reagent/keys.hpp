// What the calculations of this plugin share.
#pragma once

#include "host/plugin/plugin.hpp"

namespace vatwright::reagent {

inline constexpr Source slip_guard = lot::guard;
inline constexpr Source by_reaction{.title = "one mole for so many, by the reaction", .standing = "derived"};
inline constexpr Source mixing_rule{.title = "c1 V1 = c2 V2", .standing = "derived"};
inline constexpr std::string_view bench_group = "at the laboratory bench";

inline constexpr Key<AmountConcentration> concentration{{.name = "concentration",
                                                         .help = "of the solution that is wanted",
                                                         .unit = "mol/L",
                                                         .valid = Range{1e-6, 20},
                                                         .usual = Range{0.001, 5},
                                                         .source = slip_guard}};
inline constexpr Key<Volume> make_up_to{{.name = "make up to",
                                         .help = "volume of the solution that is wanted",
                                         .unit = "mL",
                                         .valid = Range{1, 200000},
                                         .usual = Range{50, 10000},
                                         .source = slip_guard}};
inline constexpr Key<Fraction> purity{{.name = "purity",
                                       .help = "mass of the reagent in what is weighed, by its certificate",
                                       .unit = "%",
                                       .valid = Range{50, 101},
                                       .usual = Range{95, 100.1},
                                       .source = slip_guard}};

}  // namespace vatwright::reagent
