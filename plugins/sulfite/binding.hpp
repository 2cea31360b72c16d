// sulfite.binding: how much of the total sulfur dioxide the carbonyl compounds hold bound.
#pragma once

#include "plugins/sulfite/keys.hpp"

namespace vatwright::sulfite::binding {

inline constexpr Source white_wines{.title = "Prenesti, Berto, Toso, Daniele, Scientific World Journal 2012, 249041",
                                    .place = "Table 1, six white wines"};

inline constexpr Key<MassConcentration> pyruvic_acid{{.name = "pyruvic acid",
                                                      .help = "total, free and bound",
                                                      .unit = "mg/L",
                                                      .valid = Range{0, 2000},
                                                      .usual = Range{0, 300},
                                                      .source = white_wines}};
inline constexpr Key<MassConcentration> oxoglutaric_acid{{.name = "2-oxoglutaric acid",
                                                          .help = "total, free and bound",
                                                          .unit = "mg/L",
                                                          .valid = Range{0, 2000},
                                                          .usual = Range{0, 250},
                                                          .source = white_wines}};
inline constexpr Key<MassConcentration> glucose{{.name = "glucose",
                                                 .help = "glucose alone, without fructose",
                                                 .unit = "g/L",
                                                 .valid = Range{0, 500},
                                                 .usual = Range{0, 160},
                                                 .source = slip_guard}};

inline constexpr Result<MassConcentration> bound_so2{
    {.name = "bound SO2", .help = "held by the four compounds", .unit = "mg/L", .decimals = 1}};
inline constexpr Result<MassConcentration> free_so2{
    {.name = "free SO2", .help = "what they leave free of the total", .unit = "mg/L", .decimals = 1}};

inline constexpr Need inputs[] = {needs(lot::total_so2),         needs(lot::ph),
                                  takes(lot::free_so2),          takes(lot::acetaldehyde, "0 mg/L"),
                                  takes(pyruvic_acid, "0 mg/L"), takes(oxoglutaric_acid, "0 mg/L"),
                                  takes(glucose, "0 g/L"),       takes(lot::ethanol),
                                  takes(lot::temperature),       takes(lot::stage),
                                  takes(model, "constant"),      takes(pk1)};
inline constexpr const ResultInfo* results[] = {&bound_so2, &free_so2};
inline constexpr Source sources[] = {
    {.title = "dissociation constants of the bisulfite adducts at wine pH, 20 to 25 °C", .standing = "from memory"},
    constant_pk1,
    oiv_molecular,
    permittivity_source,
    white_wines};
inline constexpr std::string_view example[] = {"total SO2=85 mg/L",          "pH=3.30",
                                               "acetaldehyde=30 mg/L",       "pyruvic acid=20 mg/L",
                                               "2-oxoglutaric acid=50 mg/L", "glucose=1 g/L"};

Outcome run(const Inputs& in);

inline constexpr Model<Fraction> what_binds{
    {.name = "what binds",
     .help = "what binds sulfur dioxide and is not named here, and constants that differ by up to a factor of two",
     .unit = "%",
     .standard = 30,
     .source = {.standing = "common practice, no source"},
     .measure = "free SO2"}};
inline constexpr const ModelInfo* models[] = {&what_binds};

inline constexpr Calculation calculation{
    .name = "binding",
    .help = "bound and free sulfur dioxide from total sulfur dioxide and what binds it",
    .inputs = inputs,
    .results = results,
    .models = models,
    .sources = sources,
    .example = example,
    .run = run,
    .label = "How much sulfur dioxide is bound, and how much stays free?"};

}  // namespace vatwright::sulfite::binding
