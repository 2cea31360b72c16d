// reagent.factor: the true concentration of a titrant, from titrations of a standard.
#pragma once

#include "plugins/reagent/keys.hpp"

namespace vatwright::reagent::factor {

inline constexpr Source pharmacopoeia{.title = "British Pharmacopoeia 2012", .place = "appendix I B"};
inline constexpr Source guide{.title = "EURACHEM/CITAC Guide Quantifying Uncertainty in Analytical Measurement, 2012",
                              .place = "examples A2 and A3, as recomputed by the Measurement Standards Laboratory"};

inline constexpr std::string_view titrants[] = {"sodium hydroxide solution", "hydrochloric acid", "sodium thiosulfate",
                                                "iodine solution"};
inline constexpr SubstanceChoice titrant{
    {.name = "titrant", .help = "the solution that is standardised; iodine counts as I2", .choices = titrants}};
inline constexpr std::string_view standards[] = {
    "potassium hydrogen phthalate", "sodium carbonate",  "potassium iodate",
    "sodium thiosulfate",           "hydrochloric acid", "sodium hydroxide solution"};
inline constexpr SubstanceChoice standard{
    {.name = "standard",
     .help = "what it is titrated against: a solid that is weighed, or a known solution",
     .choices = standards}};
inline constexpr Key<Mass> mass{{.name = "mass",
                                 .help = "of the standard in one titration, as it was weighed",
                                 .unit = "g",
                                 .valid = Range{0.0001, 100},
                                 .usual = Range{0.02, 5},
                                 .source = slip_guard}};
inline constexpr Key<Volume> standard_volume{{.name = "standard volume",
                                              .help = "of a known solution in one titration",
                                              .unit = "mL",
                                              .valid = Range{0.1, 500},
                                              .usual = Range{1, 100},
                                              .source = slip_guard}};
inline constexpr Key<AmountConcentration> standard_concentration{{.name = "standard concentration",
                                                                  .help = "of that known solution",
                                                                  .unit = "mol/L",
                                                                  .valid = Range{1e-5, 10},
                                                                  .usual = Range{0.001, 2},
                                                                  .source = slip_guard}};
inline constexpr Key<Volume> used{{.name = "used",
                                   .help = "volume of the titrant in this titration",
                                   .unit = "mL",
                                   .valid = Range{0.1, 200},
                                   .usual = Range{5, 50},
                                   .source = slip_guard}};
inline constexpr Need columns[] = {needs(used), takes(mass), takes(standard_volume)};
inline constexpr RowsKey titrations{
    {.name = "titrations",
     .help = "one or more, such as [{used: 18.64 mL, mass: 0.3888 g}]; what all share may stand in the step",
     .each = columns}};
inline constexpr Key<Volume> blank{{.name = "blank",
                                    .help = "titrant used without the standard, taken off",
                                    .unit = "mL",
                                    .valid = Range{0, 50},
                                    .usual = Range{0, 1},
                                    .source = slip_guard}};
inline constexpr Key<AmountConcentration> nominal{{.name = "nominal concentration",
                                                   .help = "what stands on the bottle",
                                                   .unit = "mol/L",
                                                   .valid = Range{1e-4, 10},
                                                   .usual = Range{0.001, 2},
                                                   .source = slip_guard}};
inline constexpr Key<Fraction> repeatability{
    {.name = "repeatability",
     .help = "standard deviation of one titration in your hands, as a share; without it that of the titrations",
     .unit = "%",
     .valid = Range{0, 5},
     .usual = Range{0.01, 0.5},
     .source = guide}};

inline constexpr Result<AmountConcentration> true_concentration{
    {.name = "concentration", .help = "of the titrant", .unit = "mol/L", .decimals = 5}};
inline constexpr Result<Fraction> found_factor{
    {.name = "factor", .help = "true over nominal concentration", .unit = "1", .decimals = 4}};

inline constexpr Need inputs[] = {needs(titrant),         needs(standard),
                                  needs(titrations),      takes(mass),
                                  takes(standard_volume), takes(standard_concentration),
                                  takes(purity, "100 %"), takes(blank, "0 mL"),
                                  needs(nominal),         takes(repeatability)};
inline constexpr const ResultInfo* results[] = {&true_concentration, &found_factor};
inline constexpr std::string_view reagents[] = {
    "sodium hydroxide solution", "hydrochloric acid", "sodium thiosulfate",          "iodine solution",
    "potassium iodate",          "sodium carbonate",  "potassium hydrogen phthalate"};
inline constexpr Source sources[] = {by_reaction, pharmacopoeia, guide};
inline constexpr std::string_view three_titrations =
    "titrations=[{mass: 0.5105 ± 0.0002 g, used: 25.00 ± 0.02 mL}, {mass: 0.5016 ± 0.0002 g, used: 24.55 ± 0.02 mL}, "
    "{mass: 0.5228 ± 0.0002 g, used: 25.62 ± 0.02 mL}]";
inline constexpr std::string_view example[] = {
    "titrant=sodium hydroxide solution", "standard=potassium hydrogen phthalate", "nominal concentration=0.1 mol/L",
    "purity=100.00 ± 0.03 %", three_titrations};

Outcome run(const Inputs& in);

inline constexpr Calculation calculation{.name = "factor",
                                         .help = "true concentration and factor of a titrant, with their ±",
                                         .inputs = inputs,
                                         .results = results,
                                         .reagents = reagents,
                                         .sources = sources,
                                         .example = example,
                                         .on_lot = false,
                                         .run = run,
                                         .label = "How strong is my titrant really?",
                                         .group = bench_group};

}  // namespace vatwright::reagent::factor
