// sugar.extract: what stays when a wine is boiled down, from its density and its alcohol.
#pragma once

#include "plugins/sugar/keys.hpp"

namespace vatwright::sugar::extract {

inline constexpr Source so2_term{.title = "OIV-MA-AS2-01A, density",
                                 .place = "less 0.0006 g/mL for 1 g/L of total SO2"};
inline constexpr Source acid_term{.title = "less 0.0000086 g/mL for 1 meq/L of volatile acidity",
                                  .standing = "from memory"};

inline constexpr Result<MassConcentration> total{
    {.name = "total dry extract", .help = "as sucrose", .unit = "g/L", .decimals = 1}};
inline constexpr Result<MassConcentration> sugar_free{
    {.name = "sugar-free extract", .help = "total less all sugar", .unit = "g/L", .decimals = 1}};
inline constexpr Result<MassConcentration> reduced{
    {.name = "reduced extract", .help = "total less the sugar above 1 g/L", .unit = "g/L", .decimals = 1}};
inline constexpr Result<MassConcentration> residual{{.name = "residual extract",
                                                     .help = "sugar-free less the fixed acidity as tartaric acid",
                                                     .unit = "g/L",
                                                     .decimals = 1}};

inline constexpr Need inputs[] = {
    needs(lot::density),          needs(lot::ethanol),  takes(lot::sugar), takes(lot::titratable_acidity),
    takes(lot::volatile_acidity), takes(lot::total_so2)};
inline constexpr const ResultInfo* results[] = {&total, &sugar_free, &reduced, &residual};
inline constexpr Source sources[] = {tabarie, oiml, icumsa, so2_term, acid_term};
inline constexpr std::string_view example[] = {"density=991.4 kg/m³",
                                               "ethanol=12.5 % vol",
                                               "sugar=1.6 g/L",
                                               "titratable acidity=5.4 g/L as tartaric acid",
                                               "volatile acidity=0.32 g/L as acetic acid",
                                               "total SO2=88 mg/L"};

Outcome run(const Inputs& in);

inline constexpr Calculation calculation{.name = "extract",
                                         .help = "dry extract from density and alcohol",
                                         .inputs = inputs,
                                         .results = results,
                                         .sources = sources,
                                         .example = example,
                                         .run = run,
                                         .label = "What is the dry extract?"};

}  // namespace vatwright::sugar::extract
