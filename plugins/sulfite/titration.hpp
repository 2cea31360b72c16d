// sulfite.titration: sulfur dioxide from the volume of a titrant.
#pragma once

#include "plugins/lab/repeats.hpp"
#include "plugins/sulfite/keys.hpp"

namespace vatwright::sulfite::titration {

inline constexpr Source aeration_source{.title = "OIV-MA-AS323-04A, sulfur dioxide", .place = "free: OENO 591A-2018"};
inline constexpr Source iodine_source{.title = "OIV-MA-AS323-04B, sulfur dioxide by iodine", .place = "Type IV"};
inline constexpr Source red_wines{
    .title = "Iowa State University Extension, Sulfur dioxide measurement and overestimation in red wine"};

inline constexpr std::string_view iodine = "iodine";
inline constexpr std::string_view aeration_oxidation = "aeration-oxidation";
inline constexpr std::string_view methods[] = {iodine, aeration_oxidation};
inline constexpr Choice method{{.name = "method",
                                .help = "direct titration with iodine, or aeration into peroxide and sodium hydroxide",
                                .choices = methods,
                                .source = aeration_source}};
inline constexpr Key<Volume> titrant{{.name = "titrant",
                                      .help = "volume of titrant used",
                                      .unit = "mL",
                                      .valid = Range{0, 100},
                                      .usual = Range{0.2, 25},
                                      .source = slip_guard}};
inline constexpr Key<AmountConcentration> titrant_concentration{
    {.name = "titrant concentration",
     .help = "iodine counted as I2 (0.02 N is 0.01 mol/L), or sodium hydroxide",
     .unit = "mol/L",
     .valid = Range{0.0005, 1},
     .usual = Range{0.001, 0.1},
     .source = slip_guard}};
inline constexpr Key<Volume> sample{{.name = "sample",
                                     .help = "volume of wine taken",
                                     .unit = "mL",
                                     .valid = Range{1, 500},
                                     .usual = Range{10, 100},
                                     .source = slip_guard}};
inline constexpr Key<Volume> blank{{.name = "blank",
                                    .help = "titrant used without sulfur dioxide, taken off",
                                    .unit = "mL",
                                    .valid = Range{0, 100},
                                    .usual = Range{0, 2},
                                    .source = slip_guard}};
inline constexpr std::string_view forms[] = {lot::free_so2.name, lot::total_so2.name};
inline constexpr Choice measures{
    {.name = "measures", .help = "what the result is of the lot; without it the lot stays as it is", .choices = forms}};

inline constexpr Source oiv_repeatability{.title = "OIV-MA-AS323-04A, sulfur dioxide",
                                          .place = "r = 1 mg/L below 50 mg/L, 6 mg/L from there",
                                          .standing = "from memory"};
inline constexpr Key<MassConcentration> repeatability{
    {.name = "repeatability",
     .help = "what two results of one sample may differ by; of two titrations and more 1 mg/L, from 50 mg/L on 6 mg/L",
     .unit = "mg/L",
     .valid = Range{0.01, 100},
     .usual = Range{0.5, 10},
     .source = oiv_repeatability}};

inline constexpr Result<MassConcentration> so2{
    {.name = "SO2", .help = "sulfur dioxide in the sample", .unit = "mg/L", .decimals = 1}};

inline constexpr Need inputs[] = {
    needs(method),           takes(titrant),       takes(lab::titrations), needs(titrant_concentration),
    takes(lab::factor, "1"), needs(sample),        takes(blank, "0 mL"),   takes(repeatability),
    takes(measures),         takes(lot::free_so2), takes(lot::total_so2)};
inline constexpr const Input* readings[] = {&titrant, &lab::titrations};
inline constexpr OneOf one_of[] = {readings};
inline constexpr const ResultInfo* results[] = {&so2};
inline constexpr const Input* changes[] = {&lot::free_so2, &lot::total_so2};
inline constexpr std::string_view reagents[] = {"iodine solution", "sodium hydroxide solution",
                                                "hydrogen peroxide solution", "phosphoric acid", "sulfuric acid"};
inline constexpr Source sources[] = {
    aeration_source, iodine_source,     {.title = "factors from the reactions", .standing = "derived"},
    red_wines,       oiv_repeatability, lab::repeats_source};
inline constexpr std::string_view example[] = {"method=aeration-oxidation", "titrant=2.05 mL",
                                               "titrant concentration=0.0100 mol/L", "sample=20 mL",
                                               "measures=free SO2"};

Outcome run(const Inputs& in);

inline constexpr Calculation calculation{.name = "titration",
                                         .help = "sulfur dioxide from a titration with iodine or by aeration-oxidation",
                                         .inputs = inputs,
                                         .one_of = one_of,
                                         .results = results,
                                         .changes = changes,
                                         .reagents = reagents,
                                         .sources = sources,
                                         .example = example,
                                         .measures = true,
                                         .run = run,
                                         .label = "What is the sulfur dioxide, from my titration?"};

}  // namespace vatwright::sulfite::titration
