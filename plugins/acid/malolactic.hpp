// acid.malolactic: what the malolactic conversion does to pH and acidity.
#pragma once

#include "plugins/acid/wine.hpp"
#include "plugins/lab/gas.hpp"

namespace vatwright::acid::malolactic {

inline constexpr Source reaction{.title = "one malic acid gives one lactic acid and one carbon dioxide",
                                 .standing = "derived"};
inline constexpr Key<Fraction> converted{{.name = "converted",
                                          .help = "share of the malic acid that is converted",
                                          .unit = "%",
                                          .valid = Range{0, 100},
                                          .source = reaction}};

inline constexpr Result<MassConcentration> malic_after{
    {.name = "malic acid", .help = "left", .unit = "g/L", .decimals = 2}};
inline constexpr Result<MassConcentration> lactic_after{
    {.name = "lactic acid", .help = "what there was and what is formed", .unit = "g/L", .decimals = 2}};
inline constexpr Result<MassConcentration> carbon_dioxide{
    {.name = "carbon dioxide", .help = "given off", .unit = "g/L", .decimals = 2}};

// The inputs of the wine, but that malic acid is needed, and no lactic acid means none.
inline constexpr std::array own_inputs{needs(lot::malic_acid), takes(lot::lactic_acid, "0 g/L"), takes(lot::volume),
                                       takes(converted, "100 %")};
inline constexpr auto inputs = [] {
  std::array<Need, own_inputs.size() + wine_inputs.size() - 2 + law_inputs.size()> all{};
  std::size_t at = 0;
  for (const Need& need : own_inputs) all[at++] = need;
  for (const Need& need : wine_inputs)
    if (need.input->name != lot::malic_acid.name && need.input->name != lot::lactic_acid.name) all[at++] = need;
  for (const Need& need : law_inputs) all[at++] = need;
  return all;
}();
inline constexpr const ResultInfo* results[] = {&ph_after,    &titratable_after, &capacity_after,
                                                &malic_after, &lactic_after,     &carbon_dioxide};
inline constexpr std::array<const Input*, 4> reckoned{&lot::ph, &lot::titratable_acidity, &lot::malic_acid,
                                                      &lot::lactic_acid};
// What bacteria, gas and crystals move besides; turbidity says nothing any more.
inline constexpr std::array<const Input*, 7> moved_besides{
    &lot::volatile_acidity, &lot::citric_acid,   &lot::acetaldehyde, &lot::free_so2,
    &lot::potassium,        &lot::tartaric_acid, &lot::absorbance};
inline constexpr auto changes =
    joined(reckoned, moved_besides, std::array<const Input*, 2>{&lot::turbidity, &lot::conductivity});
inline constexpr const LimitInfo* limits[] = {&total_limit};
inline constexpr Source sources[] = {model_source, ethanol_source, reaction, handbook};
inline constexpr std::string_view example[] = {"pH=3.28",
                                               "titratable acidity=7.4 g/L as tartaric acid",
                                               "malic acid=3.0 g/L",
                                               "tartaric acid=2.6 g/L",
                                               "ethanol=12.2 % vol",
                                               "stage=wine"};

Outcome run(const Inputs& in);

inline constexpr Calculation calculation{.name = "malolactic",
                                         .help = "pH and acidity after malic acid has become lactic acid",
                                         .inputs = inputs,
                                         .results = results,
                                         .changes = changes,
                                         .limits = limits,
                                         .reagents = lab::gives_off_gas,
                                         .models = wine_models,
                                         .sources = sources,
                                         .example = example,
                                         .run = run,
                                         .label = "What will malolactic fermentation change?"};

}  // namespace vatwright::acid::malolactic
