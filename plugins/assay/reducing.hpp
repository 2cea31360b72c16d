// assay.reducing: reducing sugars by copper and thiosulfate.
#pragma once

#include "plugins/assay/keys.hpp"

namespace vatwright::assay::reducing {

inline constexpr Source luff{.title = "French decree of 18 August 2014, annex II, after OIV-MA-AS311-01",
                             .place = "table of thiosulfate and sugar; its row of 18 mL is misprinted and mended here"};
inline constexpr Source oiv_sugar{.title = "OIV-MA-AS311-01, reducing substances", .standing = "from memory"};

inline constexpr Key<AmountConcentration> titrant_concentration{{.name = "titrant concentration",
                                                                 .help = "thiosulfate on the bottle",
                                                                 .unit = "mol/L",
                                                                 .valid = Range{0.01, 1},
                                                                 .usual = Range{0.05, 0.2},
                                                                 .source = slip_guard}};
inline constexpr Key<Volume> copper_blank{{.name = "blank",
                                           .help = "thiosulfate used without sugar: more than with it",
                                           .unit = "mL",
                                           .valid = Range{1, 100},
                                           .usual = Range{15, 30},
                                           .source = luff}};
inline constexpr Key<MassConcentration> repeatability{{.name = "repeatability",
                                                       .help = "what two results of one sample may differ by",
                                                       .unit = "g/L",
                                                       .valid = Range{0.001, 20},
                                                       .source = oiv_sugar}};

inline constexpr Result<MassConcentration> reducing_sugar{
    {.name = "reducing sugar", .help = "as invert sugar, pentoses included", .unit = "g/L", .decimals = 2}};

inline constexpr Need inputs[] = {
    takes(titrant),          takes(lab::titrations), needs(copper_blank),  needs(titrant_concentration),
    takes(lab::factor, "1"), takes(sample, "25 mL"), takes(dilution, "1"), takes(repeatability)};
inline constexpr const Input* readings[] = {&titrant, &lab::titrations};
inline constexpr OneOf one_of[] = {readings};
inline constexpr const ResultInfo* results[] = {&reducing_sugar};
inline constexpr std::string_view reagents[] = {"copper reagent", "sodium thiosulfate", "sulfuric acid",
                                                "starch indicator"};
inline constexpr Source sources[] = {luff, oiv_sugar, lab::repeats_source};
inline constexpr std::string_view example[] = {"titrations=[{titrant: 12.40 mL}, {titrant: 12.45 mL}]",
                                               "blank=22.40 mL", "titrant concentration=0.1 mol/L", "dilution=2"};

Outcome run(const Inputs& in);

inline constexpr Calculation calculation{.name = "reducing",
                                         .help = "reducing sugars by copper and thiosulfate",
                                         .inputs = inputs,
                                         .one_of = one_of,
                                         .results = results,
                                         .reagents = reagents,
                                         .sources = sources,
                                         .example = example,
                                         .measures = true,
                                         .run = run,
                                         .label = "What are the reducing sugars, from the copper method?",
                                         .group = bench_group};

}  // namespace vatwright::assay::reducing
