// acid.curve: the titration that the lot would give, and how it is buffered.
#pragma once

#include "plugins/acid/wine.hpp"

namespace vatwright::acid::curve {

inline constexpr Key<AmountConcentration> titrant_concentration{{.name = "titrant concentration",
                                                                 .help = "sodium hydroxide in the titrant",
                                                                 .unit = "mol/L",
                                                                 .valid = Range{0.005, 2},
                                                                 .usual = Range{0.05, 0.5},
                                                                 .source = slip_guard}};
inline constexpr Key<Volume> sample{{.name = "sample",
                                     .help = "volume of wine or must taken",
                                     .unit = "mL",
                                     .valid = Range{0.5, 500},
                                     .usual = Range{5, 100},
                                     .source = slip_guard}};

inline constexpr Result<BufferCapacity> capacity{
    {.name = "buffer capacity", .help = "at the pH of the lot", .unit = "mmol/L/pH", .decimals = 1}};
inline constexpr Result<Volume> titrant_to_7{
    {.name = "titrant to pH 7.0", .help = "predicted", .unit = "mL", .decimals = 2}};
inline constexpr Result<Volume> titrant_to_8{{.name = "titrant to pH 8.2",
                                              .help = "predicted, without what else titrates above pH 7",
                                              .unit = "mL",
                                              .decimals = 2}};

inline constexpr auto inputs =
    joined(std::array{takes(titrant_concentration, "0.1 mol/L"), takes(sample, "10 mL")}, wine_inputs);
inline constexpr const ResultInfo* results[] = {&capacity, &titrant_to_7, &titrant_to_8};
inline constexpr Source sources[] = {model_source, ethanol_source, oiv_total_acidity, handbook};
inline constexpr std::string_view example[] = {"pH=3.42",
                                               "titratable acidity=5.1 g/L as tartaric acid",
                                               "ethanol=12.6 % vol",
                                               "tartaric acid=2.1 g/L",
                                               "malic acid=1.4 g/L",
                                               "titrant concentration=0.1 mol/L"};

Outcome run(const Inputs& in);

inline constexpr Calculation calculation{.name = "curve",
                                         .help = "the predicted titration curve, and the buffer capacity",
                                         .inputs = inputs,
                                         .results = results,
                                         .models = wine_models,
                                         .sources = sources,
                                         .example = example,
                                         .run = run,
                                         .label = "How does the pH move when acid is added or taken away?"};

}  // namespace vatwright::acid::curve
