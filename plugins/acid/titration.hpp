// acid.titration: titratable acidity from the volume of sodium hydroxide.
#pragma once

#include "plugins/acid/keys.hpp"
#include "plugins/lab/repeats.hpp"

namespace vatwright::acid::titration {

inline constexpr Key<Volume> titrant{{.name = "titrant",
                                      .help = "volume of sodium hydroxide used",
                                      .unit = "mL",
                                      .valid = Range{0, 200},
                                      .usual = Range{1, 50},
                                      .source = slip_guard}};
inline constexpr Key<AmountConcentration> titrant_concentration{
    {.name = "titrant concentration",
     .help = "sodium hydroxide on the bottle (0.1 N is 0.1 mol/L); its factor counts where it is given",
     .unit = "mol/L",
     .valid = Range{0.005, 2},
     .usual = Range{0.05, 0.5},
     .source = slip_guard}};
inline constexpr Key<Volume> sample{{.name = "sample",
                                     .help = "volume of wine or must taken, free of carbon dioxide",
                                     .unit = "mL",
                                     .valid = Range{0.5, 500},
                                     .usual = Range{5, 100},
                                     .source = slip_guard}};
inline constexpr Key<Volume> blank{{.name = "blank",
                                    .help = "titrant that the water and the indicator use, taken off",
                                    .unit = "mL",
                                    .valid = Range{0, 200},
                                    .usual = Range{0, 0.5},
                                    .source = slip_guard}};

inline constexpr Source oiv_repeatability{
    .title = "OIV-MA-AS313-01, total acidity", .place = "r = 0.9 meq/L", .standing = "from memory"};
inline constexpr Acidity usual_repeatability = 0.9 * milliequivalent_per_litre;
inline constexpr Key<Acidity> repeatability{
    {.name = "repeatability",
     .help = "what two results of one sample may differ by; of two titrations and more 0.9 meq/L is taken",
     .unit = "meq/L",
     .valid = Range{0.01, 50},
     .usual = Range{0.3, 3},
     .source = oiv_repeatability}};

inline constexpr Result<Acidity> titratable_acidity{
    {.name = "titratable acidity", .help = "to the end point", .unit = "g/L as tartaric acid", .decimals = 2}};

inline constexpr Need inputs[] = {takes(titrant),          takes(lab::titrations), needs(titrant_concentration),
                                  takes(lab::factor, "1"), needs(sample),          anew(needs(endpoint)),
                                  takes(blank, "0 mL"),    takes(repeatability)};
inline constexpr const Input* readings[] = {&titrant, &lab::titrations};
inline constexpr OneOf one_of[] = {readings};
inline constexpr const ResultInfo* results[] = {&titratable_acidity};
inline constexpr const Input* changes[] = {&lot::titratable_acidity, &lot::endpoint};
inline constexpr std::string_view reagents[] = {"sodium hydroxide solution"};
inline constexpr Source sources[] = {
    oiv_total_acidity,
    {.title = "pH 8.2 as the end point in the United States and Australia", .standing = "common practice, no source"},
    {.title = "bases from molar masses", .standing = "derived"},
    oiv_repeatability,
    lab::repeats_source};
inline constexpr std::string_view example[] = {"titrant=6.80 mL", "titrant concentration=0.100 mol/L", "sample=10 mL",
                                               "endpoint=7.0"};

Outcome run(const Inputs& in);

inline constexpr Calculation calculation{.name = "titration",
                                         .help = "titratable acidity from a titration with sodium hydroxide",
                                         .inputs = inputs,
                                         .one_of = one_of,
                                         .results = results,
                                         .changes = changes,
                                         .reagents = reagents,
                                         .sources = sources,
                                         .example = example,
                                         .measures = true,
                                         .run = run,
                                         .label = "What is the titratable acidity, from my titration?"};

}  // namespace vatwright::acid::titration
