// cold.tartrate: whether potassium bitartrate falls out in the cold, and what is left when it has.
#pragma once

#include "plugins/chemistry/tartrate.hpp"
#include "plugins/cold/criterion.hpp"
#include "plugins/cold/wine.hpp"
#include "plugins/lab/unmeasured.hpp"

namespace vatwright::cold::tartrate {

using chemistry::SolubilityProduct;

inline constexpr Key<Temperature> hold_at{{.name = "hold at",
                                           .help = "coldest that the wine will be held",
                                           .unit = "°C",
                                           .valid = Range{-10, 20},
                                           .usual = Range{-5, 5},
                                           .source = awri_cold}};
inline constexpr std::string_view stay = "stay in solution";
inline constexpr std::string_view fall_out = "fall out";
inline constexpr std::string_view fates[] = {stay, fall_out};
inline constexpr Choice crystals{
    {.name = "crystals",
     .help = "whether the lot stays as it is, or is held cold until the predicted crystals are out and racked off",
     .choices = fates}};
inline constexpr std::string_view in_wine = "wine";
inline constexpr std::string_view in_solution = "pure solution";
inline constexpr std::string_view models_help[] = {
    "holds as much back as a wine does that practice calls stable at -4 °C, by colour",
    "ethanol, water and the acids alone: the most that can fall out"};
inline constexpr std::string_view model_names[] = {in_wine, in_solution};
inline constexpr Choice holds_back{{.name = "model",
                                    .help = "what the deposit is reckoned for",
                                    .choices_help = models_help,
                                    .choices = model_names,
                                    .source = saturation_by_colour}};
inline constexpr Model<TemperatureInterval> saturation_of_wine{
    {.name = "the saturation temperature of a wine",
     .help = "what a wine holds back, by its colour, and what of potassium and tartrate is bound in it",
     .unit = "K",
     .standard = 3.5,
     .source = {.title = "178 finished red wines (Forina et al., Vitis 25 (1986) 189)",
                .place = "spread within one kind of wine, 2.3 to 3.6 K, part of it real",
                .standing = "derived"},
     .measure = "the saturation temperature by conductivity (cold.conductivity)"}};
inline constexpr Model<TemperatureInterval> saturation_of_solution{
    {.name = "the solubility of bitartrate",
     .help = "of the pure solution of ethanol and water",
     .unit = "K",
     .standard = 1.3,
     .source = {.title = "table of Berg and Keefer, Am. J. Enol. Vitic. 9 (1958) 180",
                .place = "9 % at most from 0 to 20 °C and 0 to 14 % vol, at 4 % a kelvin",
                .standing = "from memory"},
     .measure = "the saturation temperature by conductivity (cold.conductivity)"}};
inline constexpr const ModelInfo* models[] = {&saturation_of_wine, &saturation_of_solution, &lab::unmeasured_acids};
inline constexpr Key<SolubilityProduct> safe_product{
    {.name = "safe concentration product",
     .help = "limit to hold the concentration product against; 100 mmol²/L² are 10 in units of 1e-5 mol²/L²",
     .unit = "mmol²/L²",
     .valid = Range{1, 1000},
     .usual = Range{40, 400},
     .source = {.title = "published limits disagree: give one with its source",
                .standing = "none is built in, and none is known for pink wine"}}};
inline constexpr NameKey safe_product_source{
    {.name = "safe product source", .help = "where the safe concentration product comes from"}};
inline constexpr Result<SolubilityProduct> concentration_product{
    {.name = "concentration product",
     .help = "potassium x tartaric acid x share of bitartrate; divide by 10 for units of 1e-5 mol²/L²",
     .unit = "mmol²/L²",
     .decimals = 1}};
inline constexpr Result<Fraction> saturation_ratio{
    {.name = "saturation ratio",
     .help = "ion product over the solubility product at the holding temperature; above 1 crystals can grow",
     .unit = "1",
     .decimals = 2}};
inline constexpr Result<Temperature> saturation_temperature{
    {.name = "saturation temperature", .help = "where the saturation ratio is 1", .unit = "°C", .decimals = 1}};
inline constexpr Result<MassConcentration> precipitate{
    {.name = "precipitate", .help = "potassium bitartrate that could fall out", .unit = "g/L", .decimals = 2}};
inline constexpr Result<MassConcentration> potassium_after{
    {.name = "potassium", .help = "if it falls out", .unit = "mg/L", .decimals = 0}};
inline constexpr Result<MassConcentration> tartaric_after{
    {.name = "tartaric acid", .help = "if it falls out", .unit = "g/L", .decimals = 2}};
inline constexpr Result<Ph> ph_after{
    {.name = "pH", .help = "if it falls out, at room temperature", .unit = "pH", .decimals = 2}};
inline constexpr Result<Acidity> acidity_after{{.name = "titratable acidity",
                                                .help = "if it falls out, to the end point of the reading",
                                                .unit = "g/L as tartaric acid",
                                                .decimals = 2}};

inline constexpr Need inputs[] = {takes(hold_at, "-4 °C"),
                                  needs(lot::ph),
                                  needs(lot::titratable_acidity),
                                  needs(lot::ethanol),
                                  needs(lot::potassium),
                                  needs(lot::tartaric_acid),
                                  takes(lot::malic_acid),
                                  takes(lot::lactic_acid),
                                  takes(lot::citric_acid),
                                  takes(lot::succinic_acid),
                                  takes(lot::volatile_acidity),
                                  takes(lot::free_so2),
                                  takes(lot::sodium),
                                  takes(lot::calcium),
                                  takes(lot::colour),
                                  takes(lot::stage),
                                  takes(lot::wine_class),
                                  takes(lot::endpoint, lot::to_7),
                                  takes(crystals, stay),
                                  takes(holds_back, in_wine),
                                  takes(most_saturation),
                                  takes(safe_product),
                                  takes(safe_product_source)};
inline constexpr const ResultInfo* results[] = {
    &concentration_product, &saturation_ratio, &saturation_temperature, &precipitate, &potassium_after,
    &tartaric_after,        &ph_after,         &acidity_after};
inline constexpr const Input* changes[] = {&lot::potassium, &lot::tartaric_acid, &lot::ph, &lot::titratable_acidity};
inline constexpr Source sources[] = {
    {.title = "saturated potassium hydrogen tartrate in water at 25 °C, 0.0341 mol/kg, pH 3.557: Buck et al., Pure "
              "Appl. Chem. 74 (2002) 2169",
     .standing = "pH seen in copies; molality from memory"},
    {.title = "solubility 2.9 g/L at 10 % vol and 20 °C; in water 4 g/L at 10 °C, 5.7 at 20, 45 at 80, 61 at 100",
     .place = "general encyclopaedias and data collections",
     .standing = "secondary"},
    handbook,
    saturation_by_colour,
    awri_cold};
inline constexpr std::string_view example[] = {
    "hold at=-4 °C",         "pH=3.28",     "titratable acidity=5.6 g/L as tartaric acid",
    "ethanol=12.2 % vol",    "colour=pink", "potassium=540 mg/L",
    "tartaric acid=1.3 g/L", "class=still", "malic acid=1.9 g/L"};

Outcome run(const Inputs& in);

inline constexpr Calculation calculation{.name = "tartrate",
                                         .help = "whether potassium bitartrate falls out in the cold, and what is left",
                                         .inputs = inputs,
                                         .results = results,
                                         .changes = changes,
                                         .models = models,
                                         .sources = sources,
                                         .example = example,
                                         .run = run,
                                         .label = "Will it drop crystals in the cold?"};

}  // namespace vatwright::cold::tartrate
