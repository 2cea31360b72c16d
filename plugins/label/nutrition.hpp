// label.nutrition: energy in kJ and in kcal, each by its own factors, carbohydrate, sugars and salt for 100 mL.
#pragma once

#include "plugins/label/keys.hpp"

namespace vatwright::label::nutrition {

inline constexpr Key<MassConcentration> acids{
    {.name = "organic acids",
     .help = "all of them together by analysis; without it the titratable acidity as tartaric acid counts",
     .unit = "g/L",
     .valid = Range{0, 40},
     .usual = Range{3, 12},
     .group = "analysis",
     .source = factors}};
inline constexpr Key<MassConcentration> polyols{{.name = "other polyols",
                                                 .help = "beside glycerol, such as sorbitol and mannitol",
                                                 .unit = "g/L",
                                                 .valid = Range{0, 50},
                                                 .usual = Range{0, 2},
                                                 .group = "analysis",
                                                 .source = factors}};

inline constexpr Result<EnergyPerVolume> kilojoules{
    {.name = "energy", .help = "in kilojoules, by the factors for kJ", .unit = "kJ/100 mL"}};
inline constexpr Result<EnergyPerVolume> kilocalories{
    {.name = "energy in kcal", .help = "by the factors for kcal", .unit = "kcal/100 mL"}};
inline constexpr Result<MassConcentration> carbohydrate{
    {.name = "carbohydrate", .help = "sugars and polyols", .unit = "g/100 mL", .decimals = 2}};
inline constexpr Result<MassConcentration> sugars{
    {.name = "sugars", .help = "without polyols", .unit = "g/100 mL", .decimals = 2}};
inline constexpr Result<MassConcentration> salt{
    {.name = "salt", .help = "2.5 times the sodium", .unit = "g/100 mL", .decimals = 4}};

inline constexpr std::string_view usual_glycerol = "8 g/L";
inline constexpr Model<MassConcentration> glycerol_taken{{.name = "glycerol",
                                                          .help = "where it was not measured",
                                                          .unit = "g/L",
                                                          .standard = 1.7,
                                                          .source = glycerol_practice,
                                                          .measure = "glycerol"}};
inline constexpr Model<Fraction> acids_by_titration{
    {.name = "organic acids by titration",
     .help = "the titratable acidity, as tartaric acid, stands for all of them: those bound as salts are not in it",
     .unit = "%",
     .standard = 20,
     .source = {.title = "organic acids against titratable acidity", .standing = "common practice, no source"},
     .measure = "the organic acids"}};
inline constexpr const ModelInfo* models[] = {&glycerol_taken, &acids_by_titration};

inline constexpr Need inputs[] = {needs(lot::ethanol),
                                  needs(lot::sugar),
                                  takes(lot::glycerol, usual_glycerol),
                                  takes(acids),
                                  takes(lot::titratable_acidity),
                                  takes(polyols, "0 g/L"),
                                  takes(lot::sodium)};
inline constexpr const ResultInfo* results[] = {&kilojoules, &kilocalories, &carbohydrate, &sugars, &salt};
inline constexpr Source sources[] = {factors, declaration, rounding, glycerol_practice};
inline constexpr std::string_view example[] = {"ethanol=12.5 % vol", "sugar=2 g/L", "organic acids=6 g/L",
                                               "glycerol=8 g/L", "sodium=14 mg/L"};

Outcome run(const Inputs& in);

inline constexpr Calculation calculation{.name = "nutrition",
                                         .help = "the nutrition declaration for 100 mL, rounded as it is printed",
                                         .inputs = inputs,
                                         .results = results,
                                         .models = models,
                                         .sources = sources,
                                         .example = example,
                                         .run = run,
                                         .label = "What does the nutrition declaration say?",
                                         .group = "label"};

}  // namespace vatwright::label::nutrition
