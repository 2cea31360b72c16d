// reagent.solution: what to weigh or to measure for a solution of a reagent.
#pragma once

#include "plugins/reagent/keys.hpp"

namespace vatwright::reagent::solution {

inline constexpr std::string_view reagents[] = {"sodium hydroxide",   "potassium hydrogen phthalate",
                                                "sodium carbonate",   "potassium iodate",
                                                "sodium thiosulfate", "iodine solution",
                                                "sulfuric acid",      "hydrochloric acid",
                                                "acetic acid",        "phosphoric acid",
                                                "tartaric acid",      "potassium chloride"};
inline constexpr SubstanceChoice reagent{
    {.name = "reagent",
     .help = "what is dissolved; its molar mass comes from its formula, crystal water included",
     .choices = reagents}};
inline constexpr Key<MassFraction> mass_fraction{
    {.name = "mass fraction",
     .help = "of a concentrated acid, from its label; with it the stock is measured by volume",
     .unit = "% mass",
     .valid = Range{1, 100},
     .usual = Range{10, 100},
     .source = slip_guard}};
inline constexpr Key<Density> stock_density{{.name = "stock density",
                                             .help = "of that concentrated acid, from its label",
                                             .unit = "g/mL",
                                             .valid = Range{0.5, 3},
                                             .usual = Range{0.8, 1.9},
                                             .source = slip_guard}};

inline constexpr Result<Mass> mass{
    {.name = "mass", .help = "of the reagent as it is weighed", .unit = "g", .decimals = 4}};
inline constexpr Result<Volume> stock_volume{
    {.name = "stock volume", .help = "of the concentrated acid", .unit = "mL", .decimals = 2}};
inline constexpr Result<AmountConcentration> stock_concentration{
    {.name = "stock concentration", .help = "of the concentrated acid", .unit = "mol/L", .decimals = 2}};

inline constexpr Need inputs[] = {needs(reagent),         needs(concentration), needs(make_up_to),
                                  takes(purity, "100 %"), takes(mass_fraction), takes(stock_density)};
inline constexpr const ResultInfo* results[] = {&mass, &stock_volume, &stock_concentration};
inline constexpr Source sources[] = {
    {.title = "mass = concentration x volume x molar mass / purity", .standing = "derived"},
    {.title = "concentration of a stock = 10 x per cent by mass x density / molar mass", .standing = "derived"}};
inline constexpr std::string_view example[] = {"reagent=sulfuric acid", "concentration=0.05 mol/L",
                                               "make up to=1000 mL", "mass fraction=96 % mass",
                                               "stock density=1.84 g/mL"};

Outcome run(const Inputs& in);

inline constexpr Calculation calculation{.name = "solution",
                                         .help = "what to weigh or measure for a solution of a reagent",
                                         .inputs = inputs,
                                         .results = results,
                                         .reagents = reagents,
                                         .sources = sources,
                                         .example = example,
                                         .on_lot = false,
                                         .run = run,
                                         .label = "What do I weigh for a solution?",
                                         .group = bench_group};

}  // namespace vatwright::reagent::solution
