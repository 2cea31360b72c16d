// reagent.dilution: a weaker solution from a stronger, and a series of them.
#pragma once

#include "plugins/reagent/keys.hpp"

namespace vatwright::reagent::dilution {

inline constexpr Key<AmountConcentration> stock_concentration{{.name = "stock concentration",
                                                               .help = "of the stronger solution, by amount",
                                                               .unit = "mol/L",
                                                               .valid = Range{1e-6, 25},
                                                               .usual = Range{0.001, 20},
                                                               .source = slip_guard}};
inline constexpr Key<MassConcentration> stock_content{{.name = "stock content",
                                                       .help = "of the stronger solution, by mass",
                                                       .unit = "g/L",
                                                       .valid = Range{1e-6, 2000},
                                                       .usual = Range{0.001, 1000},
                                                       .source = slip_guard}};
inline constexpr Key<MassConcentration> content{{.name = "content",
                                                 .help = "of the solution that is wanted, by mass",
                                                 .unit = "g/L",
                                                 .valid = Range{1e-9, 2000},
                                                 .usual = Range{1e-6, 1000},
                                                 .source = slip_guard}};
inline constexpr Key<Fraction> series{{.name = "series",
                                       .help = "how many solutions, each made from the one before in the same way",
                                       .unit = "1",
                                       .valid = Range{1, 20},
                                       .source = slip_guard}};

inline constexpr Result<Volume> stock_volume{
    {.name = "stock volume", .help = "of the stronger solution to take", .unit = "mL", .decimals = 3}};
inline constexpr Result<Volume> water{
    {.name = "water", .help = "to make up with, by difference", .unit = "mL", .decimals = 2}};

inline constexpr Need inputs[] = {takes(stock_concentration), takes(stock_content),
                                  takes(concentration),       takes(content),
                                  needs(make_up_to),          takes(series, "1")};
inline constexpr const Input* stocks[] = {&stock_concentration, &stock_content};
inline constexpr const Input* wanted[] = {&concentration, &content};
inline constexpr OneOf one_of[] = {stocks, wanted};
inline constexpr const ResultInfo* results[] = {&stock_volume, &water};
inline constexpr Source sources[] = {mixing_rule};
inline constexpr std::string_view example[] = {"stock concentration=0.5 mol/L", "concentration=0.1 mol/L",
                                               "make up to=100 mL", "series=3"};

Outcome run(const Inputs& in);

inline constexpr Calculation calculation{.name = "dilution",
                                         .help = "how much of a stock to make up for a weaker solution, or a series",
                                         .inputs = inputs,
                                         .one_of = one_of,
                                         .results = results,
                                         .sources = sources,
                                         .example = example,
                                         .on_lot = false,
                                         .run = run,
                                         .label = "How do I dilute a solution?",
                                         .group = bench_group};

}  // namespace vatwright::reagent::dilution
