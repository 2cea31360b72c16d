// sulfite.molecular: how much of the free sulfur dioxide is molecular.
#pragma once

#include "plugins/sulfite/keys.hpp"

namespace vatwright::sulfite::molecular {

inline constexpr Result<Fraction> pk1_used{
    {.name = "pK1", .help = "the one that was used", .unit = "1", .decimals = 3}};
inline constexpr Result<MassConcentration> molecular_so2{{.name = "molecular SO2",
                                                          .help = "the part that protects the wine",
                                                          .unit = "mg/L",
                                                          .decimals = 2,
                                                          .band = wanted_molecular}};
inline constexpr Result<Fraction> share{
    {.name = "molecular share", .help = "molecular in free sulfur dioxide", .unit = "%", .decimals = 2}};

inline constexpr Need inputs[] = {needs(lot::ph),
                                  needs(lot::free_so2),
                                  takes(lot::total_so2),
                                  takes(lot::ethanol),
                                  takes(lot::temperature),
                                  takes(lot::sugar),
                                  takes(lot::colour),
                                  takes(lot::wine_class),
                                  takes(lot::stage),
                                  takes(model, "constant"),
                                  takes(pk1),
                                  takes(lot::titratable_acidity),
                                  takes(lot::endpoint),
                                  takes(lot::tartaric_acid),
                                  takes(lot::malic_acid),
                                  takes(lot::lactic_acid),
                                  takes(lot::citric_acid),
                                  takes(lot::succinic_acid),
                                  takes(lot::volatile_acidity),
                                  takes(lot::potassium),
                                  takes(lot::calcium),
                                  takes(lot::sodium)};
inline constexpr const ResultInfo* results[] = {&pk1_used, &molecular_so2, &share};
inline constexpr const LimitInfo* limits[] = {&total_limit, &free_limit, &declaration};
inline constexpr Source sources[] = {oiv_molecular, permittivity_source, constant_pk1, wine_chemistry};
inline constexpr std::string_view example[] = {"pH=3.40", "free SO2=28 mg/L", "total SO2=95 mg/L", "ethanol=12.5 % vol",
                                               "temperature=20 °C"};

Outcome run(const Inputs& in);

inline constexpr Calculation calculation{.name = "molecular",
                                         .help = "molecular sulfur dioxide from free sulfur dioxide and pH",
                                         .inputs = inputs,
                                         .results = results,
                                         .limits = limits,
                                         .sources = sources,
                                         .example = example,
                                         .run = run,
                                         .label = "How much of the free sulfur dioxide protects?"};

}  // namespace vatwright::sulfite::molecular
