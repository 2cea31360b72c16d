// assay.volatile: volatile acidity from the titration of a distillate.
#pragma once

#include "plugins/assay/keys.hpp"

namespace vatwright::assay::volatile_acids {

inline constexpr Key<AmountConcentration> titrant_concentration{
    {.name = "titrant concentration",
     .help = "sodium hydroxide on the bottle (0.1 N is 0.1 mol/L)",
     .unit = "mol/L",
     .valid = Range{0.005, 1},
     .usual = Range{0.02, 0.2},
     .source = slip_guard}};
inline constexpr Key<Volume> blank{{.name = "blank",
                                    .help = "titrant used by a distillate of water, taken off",
                                    .unit = "mL",
                                    .valid = Range{0, 20},
                                    .usual = Range{0, 0.3},
                                    .source = slip_guard}};
inline constexpr Key<Volume> iodine_free{{.name = "iodine for free",
                                          .help = "iodine used by the free sulfur dioxide of the distillate",
                                          .unit = "mL",
                                          .valid = Range{0, 50},
                                          .usual = Range{0, 5},
                                          .source = oiv_volatile}};
inline constexpr Key<Volume> iodine_bound{{.name = "iodine for bound",
                                           .help = "iodine used by its bound sulfur dioxide, after borax",
                                           .unit = "mL",
                                           .valid = Range{0, 50},
                                           .usual = Range{0, 10},
                                           .source = oiv_volatile}};
inline constexpr Key<AmountConcentration> iodine_concentration{{.name = "iodine concentration",
                                                                .help = "as I2 (0.01 N is 0.005 mol/L)",
                                                                .unit = "mol/L",
                                                                .valid = Range{0.0005, 0.5},
                                                                .usual = Range{0.002, 0.05},
                                                                .source = oiv_volatile}};
inline constexpr Key<MassConcentration> sorbic_acid{{.name = "sorbic acid",
                                                     .help = "in the wine; it distils along",
                                                     .unit = "mg/L",
                                                     .valid = Range{0, 1000},
                                                     .usual = Range{0, 250},
                                                     .source = oiv_volatile}};
inline constexpr Key<Acidity> repeatability{{.name = "repeatability",
                                             .help = "what two results of one sample may differ by, in your laboratory",
                                             .unit = "meq/L",
                                             .valid = Range{0.01, 20},
                                             .usual = Range{0.2, 2},
                                             .source = oiv_volatile}};

inline constexpr Result<Acidity> volatile_acidity{{.name = "volatile acidity",
                                                   .help = "free of sulfur dioxide, sorbic acid and carbon dioxide",
                                                   .unit = "g/L as acetic acid",
                                                   .decimals = 2}};

inline constexpr Need inputs[] = {takes(titrant),
                                  takes(lab::titrations),
                                  needs(titrant_concentration),
                                  takes(lab::factor, "1"),
                                  takes(sample, "20 mL"),
                                  takes(blank, "0 mL"),
                                  takes(iodine_free, "0 mL"),
                                  takes(iodine_bound, "0 mL"),
                                  takes(iodine_concentration, "0.005 mol/L"),
                                  takes(sorbic_acid, "0 mg/L"),
                                  takes(repeatability, "0.7 meq/L")};
inline constexpr const Input* readings[] = {&titrant, &lab::titrations};
inline constexpr OneOf one_of[] = {readings};
inline constexpr const ResultInfo* results[] = {&volatile_acidity};
inline constexpr const Input* changes[] = {&lot::volatile_acidity};
inline constexpr std::string_view reagents[] = {"sodium hydroxide solution", "iodine solution", "phenolphthalein",
                                                "tartaric acid"};
inline constexpr Source sources[] = {
    oiv_volatile,
    {.title = "sulfur dioxide and sorbic acid by their equivalents", .standing = "derived"},
    lab::repeats_source};
inline constexpr std::string_view example[] = {"titrations=[{titrant: 6.50 mL}, {titrant: 6.55 mL}]",
                                               "titrant concentration=0.1 mol/L", "iodine for free=1.0 mL",
                                               "iodine for bound=4.0 mL"};

Outcome run(const Inputs& in);

inline constexpr Calculation calculation{.name = "volatile",
                                         .help = "volatile acidity from the titration of a distillate",
                                         .inputs = inputs,
                                         .one_of = one_of,
                                         .results = results,
                                         .changes = changes,
                                         .reagents = reagents,
                                         .sources = sources,
                                         .example = example,
                                         .measures = true,
                                         .run = run,
                                         .label = "What is the volatile acidity, from my distillation?",
                                         .group = bench_group};

}  // namespace vatwright::assay::volatile_acids
