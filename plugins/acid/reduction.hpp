// acid.reduction: how much of a carbonate to add for a wanted titratable acidity or pH.
#pragma once

#include "plugins/acid/wine.hpp"
#include "plugins/lab/agree.hpp"

namespace vatwright::acid::reduction {

inline constexpr std::string_view double_salt = "double-salt treatment";
inline constexpr std::string_view potassium_carbonate = "potassium carbonate";
inline constexpr std::string_view calcium_carbonate = "calcium carbonate";
inline constexpr std::string_view substances[] = {calcium_carbonate, "potassium bicarbonate", potassium_carbonate,
                                                  double_salt, "potassium tartrate"};
inline constexpr SubstanceChoice substance{
    {.name = "substance",
     .help = "what is added; the double-salt treatment takes calcium carbonate to a part of the lot",
     .choices = substances,
     .source = oiv_deacidification}};
inline constexpr Key<Fraction> falling_out{
    {.name = "falling out",
     .help = "share of the potassium or calcium brought in that leaves as tartrate crystals",
     .unit = "%",
     .valid = Range{0, 100},
     .source = {.title = "stoichiometry, between no crystals and all", .standing = "derived"}}};
inline constexpr Key<Acidity> acidity_left{
    {.name = "acidity left",
     .help = "titratable acidity left in the treated part; at most, and by default, what it has at pH 5.1",
     .unit = "g/L as tartaric acid",
     .valid = Range{0, 20},
     .usual = Range{0, 3},
     .source = {.title = "double-salt practice", .standing = "from memory"}}};
inline constexpr Result<MassConcentration> dose{{.name = "dose",
                                                 .help = "substance per volume of the lot, with the rounded amount",
                                                 .unit = "g/L",
                                                 .decimals = 3,
                                                 .decided = true}};
inline constexpr Result<Volume> treated_volume{{.name = "treated volume",
                                                .help = "part of the lot that the carbonate goes into",
                                                .unit = "L",
                                                .decimals = 1,
                                                .decided = true}};

inline constexpr auto inputs = joined(
    std::array{needs(lot::volume), takes(lot::temperature), takes(target_titratable), takes(target_ph), takes(stated),
               takes(substance, "potassium bicarbonate"), takes(falling_out, "100 %"), takes(acidity_left)},
    wine_inputs, law_inputs, history_inputs);
inline constexpr OneOf one_of[] = {targets};
inline constexpr const ResultInfo* results[] = {&dose, &ph_after, &titratable_after, &capacity_after, &treated_volume};
inline constexpr const Input* changes[] = {&lot::ph,          &lot::titratable_acidity, &lot::tartaric_acid,
                                           &lot::malic_acid,  &lot::potassium,          &lot::calcium,
                                           &lot::acid_removed};
inline constexpr const LimitInfo* limits[] = {&removed_limit, &added_first, &total_limit, &fixed_least,
                                              &tartaric_limit};
inline constexpr Source sources[] = {
    model_source,
    ethanol_source,
    oiv_deacidification,
    handbook,
    {.title = "Mattick, Plane and Weirs, Am. J. Enol. Vitic. 31(4)", .place = "350-355 (1980), abstract"},
    {.title = "stoichiometry of carbonates, bitartrate, calcium tartrate and calcium tartrate-malate",
     .standing = "derived"},
    {.title = "0.67 g of calcium carbonate, 0.9 g of potassium bicarbonate or 0.62 g of potassium carbonate a litre "
              "for 1 g/L of acidity",
     .standing = "from memory"}};
inline constexpr std::string_view example[] = {"volume=1000 L",
                                               "pH=3.05",
                                               "titratable acidity=12.0 g/L as tartaric acid",
                                               "tartaric acid=6.0 g/L",
                                               "malic acid=6.5 g/L",
                                               "potassium=1300 mg/L",
                                               "stage=must",
                                               "substance=double-salt treatment",
                                               "target titratable acidity=9.0 g/L as tartaric acid"};

Outcome run(const Inputs& in);

inline constexpr Calculation calculation{
    .name = "reduction",
    .help = "what carbonate to add for a wanted titratable acidity or pH, or for a stated amount",
    .inputs = inputs,
    .one_of = one_of,
    .results = results,
    .changes = changes,
    .limits = limits,
    .models = wine_models,
    .sources = sources,
    .example = example,
    .agree = lab::disagreements,
    .run = run,
    .label = "How much carbonate takes the acidity down?"};

}  // namespace vatwright::acid::reduction
