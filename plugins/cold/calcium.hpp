// cold.calcium: the risk of calcium tartrate, which no cold test foretells.
#pragma once

#include "plugins/cold/sources.hpp"
#include "plugins/cold/wine.hpp"
#include "plugins/lab/unmeasured.hpp"

namespace vatwright::cold::calcium {

// Above them there is risk of calcium tartrate; for pink wine the trade press prints that of white.
inline constexpr MassConcentration most_in_red = 60.0 * milligram_per_litre;
inline constexpr MassConcentration most_in_other = 80.0 * milligram_per_litre;
inline constexpr Key<MassConcentration> most_calcium{
    {.name = "most calcium",
     .help = "criterion of the verdict; the default goes by colour, red or other",
     .unit = "mg/L",
     .valid = Range{1, 1000},
     .usual = Range{50, 100},
     .source = awri_calcium}};

inline constexpr Result<Fraction> saturation_ratio{
    {.name = "saturation ratio",
     .help = "ion product over that of saturated water at 20 °C; higher in wine, so that below 1 is no all-clear",
     .unit = "1",
     .decimals = 2}};

inline constexpr Model<Fraction> calcium_complexes{
    {.name = "complexes of calcium",
     .help = "tartrate and citrate that hold calcium back, left out here: 0.6 to 1.6 times the ratio",
     .unit = "%",
     .standard = 27,
     .source = {.title = "ion pairs of NIST 46 with tartrate, citrate and acetate, over compositions of must and wine",
                .place = "factor 1.6 either way, as equally likely in between (JCGM 100, 4.3.7)",
                .standing = "derived"}}};
inline constexpr const ModelInfo* models[] = {&calcium_complexes, &lab::unmeasured_acids};
inline constexpr Need inputs[] = {needs(lot::calcium),
                                  needs(lot::tartaric_acid),
                                  needs(lot::ph),
                                  takes(lot::ethanol),
                                  takes(lot::titratable_acidity),
                                  takes(lot::malic_acid),
                                  takes(lot::lactic_acid),
                                  takes(lot::citric_acid),
                                  takes(lot::succinic_acid),
                                  takes(lot::volatile_acidity),
                                  takes(lot::free_so2),
                                  takes(lot::potassium),
                                  takes(lot::sodium),
                                  takes(lot::colour),
                                  takes(lot::stage),
                                  takes(lot::endpoint, lot::to_7),
                                  takes(most_calcium)};
inline constexpr const ResultInfo* results[] = {&saturation_ratio};
inline constexpr Source sources[] = {
    awri_calcium,
    {.title = "ECHA registration dossier 19371, calcium tartrate, OECD 105",
     .place = "412 mg/L in water at pH 7 and 20 °C",
     .standing = "seen; taken as the tetrahydrate"},
    {.title = "OENO One, article 1127, calcium tartrate in white, pink and red wine", .place = "abstract"}};
inline constexpr std::string_view example[] = {"calcium=72 mg/L", "tartaric acid=1.9 g/L", "pH=3.31",
                                               "ethanol=12.4 % vol", "colour=pink"};

Outcome run(const Inputs& in);

inline constexpr Calculation calculation{.name = "calcium",
                                         .help = "the risk of calcium tartrate from calcium, tartaric acid and pH",
                                         .inputs = inputs,
                                         .results = results,
                                         .models = models,
                                         .sources = sources,
                                         .example = example,
                                         .run = run,
                                         .label = "Is there a risk of calcium tartrate?"};

}  // namespace vatwright::cold::calcium
