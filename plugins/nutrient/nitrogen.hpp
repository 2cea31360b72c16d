// nutrient.nitrogen: what the yeast has of nitrogen, what it needs, and how much to add in portions.
#pragma once

#include "host/plugin/plugin.hpp"
#include "plugins/lab/agree.hpp"
#include "plugins/lab/dosed_limits.hpp"
#include "plugins/lab/gas.hpp"

namespace vatwright::nutrient::nitrogen {

inline constexpr Source slip_guard = lot::guard;
inline constexpr Source practice{.title = "common practice in the cellar", .standing = "common practice, no source"};
inline constexpr Source formulas{.title = "shares of nitrogen from formulas and atomic weights", .standing = "derived"};
inline constexpr Source formol_source{.title = "Virginia Tech, Enology Extension", .place = "formol titration"};

// --- what was measured

inline constexpr Key<MassConcentration> amino_nitrogen{{.name = "amino nitrogen",
                                                        .help = "primary amino nitrogen by OPA, without ammonium",
                                                        .unit = "mg/L as nitrogen",
                                                        .valid = Range{0, 1500},
                                                        .usual = Range{30, 350},
                                                        .source = slip_guard},
                                                       "nitrogen"};
inline constexpr Key<MassConcentration> ammonium{{.name = "ammonium",
                                                  .help = "goes with amino nitrogen; say what it is counted as",
                                                  .unit = "mg/L",
                                                  .valid = Range{0, 1000},
                                                  .usual = Range{5, 200},
                                                  .source = slip_guard}};
inline constexpr std::string_view as_ammonium = "NH4";
inline constexpr std::string_view as_ammonia = "NH3";
inline constexpr std::string_view as_nitrogen = "N";
inline constexpr std::string_view counted[] = {as_ammonium, as_ammonia, as_nitrogen};
inline constexpr Choice ammonium_as{{.name = "ammonium as",
                                     .help = "what the laboratory counts ammonium as; the lab slip says it",
                                     .choices = counted,
                                     .source = formulas}};
inline constexpr Key<Volume> titrant{{.name = "titrant",
                                      .help = "sodium hydroxide used after the formaldehyde (formol titration)",
                                      .unit = "mL",
                                      .valid = Range{0, 100},
                                      .usual = Range{0.2, 25},
                                      .source = formol_source}};
inline constexpr Key<AmountConcentration> titrant_concentration{{.name = "titrant concentration",
                                                                 .help = "of the sodium hydroxide",
                                                                 .unit = "mol/L",
                                                                 .valid = Range{0.001, 1},
                                                                 .usual = Range{0.02, 0.2},
                                                                 .source = formol_source}};
inline constexpr Key<Volume> sample{
    {.name = "sample",
     .help = "must in the portion that was titrated: 10 mL made up to 25 mL, of which 10 mL, is 4 mL",
     .unit = "mL",
     .valid = Range{0.5, 200},
     .usual = Range{2, 100},
     .source = formol_source}};

// --- what is wanted

inline constexpr Key<MassConcentration> target{{.name = "target nitrogen",
                                                .help = "assimilable nitrogen wanted; overrides the need by sugar",
                                                .unit = "mg/L as nitrogen",
                                                .valid = Range{20, 600},
                                                .usual = Range{120, 350},
                                                .source = slip_guard},
                                               "nitrogen"};
inline constexpr std::string_view low = "low";
inline constexpr std::string_view medium = "medium";
inline constexpr std::string_view high = "high";
inline constexpr std::string_view needs_of_strains[] = {low, medium, high};
inline constexpr Choice strain_need{{.name = "strain need",
                                     .help = "how much nitrogen the strain of yeast asks for, for each gram of sugar",
                                     .choices = needs_of_strains,
                                     .source = practice}};

// --- what is added

inline constexpr std::string_view phosphate = lot::diammonium_phosphate;
inline constexpr std::string_view sulfate = lot::ammonium_sulfate;
inline constexpr std::string_view autolysate = "yeast autolysate";
inline constexpr std::string_view substances[] = {phosphate, sulfate, autolysate};
inline constexpr SubstanceChoice substance{
    {.name = "substance", .help = "what is added", .choices = substances, .source = formulas}};
inline constexpr Key<Fraction> nitrogen_share{{.name = "nitrogen share",
                                               .help = "assimilable nitrogen in the yeast autolysate, from its label",
                                               .unit = "%",
                                               .valid = Range{0.5, 15},
                                               .usual = Range{2, 10},
                                               .source = slip_guard}};
inline constexpr std::string_view one_portion = "one";
inline constexpr std::string_view two_portions = "two";
inline constexpr std::string_view portion_words[] = {one_portion, two_portions};
inline constexpr Choice portions{{.name = "portions",
                                  .help = "in how many portions; a second fermentation takes one",
                                  .choices = portion_words,
                                  .source = practice}};
inline constexpr Key<MassConcentration> thiamine{{.name = "thiamine",
                                                  .help = "thiamine hydrochloride, if it is to be added too",
                                                  .unit = "mg/L",
                                                  .valid = Range{0.05, 2},
                                                  .usual = Range{0.2, 0.6},
                                                  .source = slip_guard}};

inline constexpr const auto& thiamine_limit = lab::thiamine;

inline constexpr Result<MassConcentration> found{
    {.name = "nitrogen found", .help = "assimilable nitrogen as measured", .unit = "mg/L as nitrogen", .decimals = 0}};
inline constexpr Result<MassConcentration> needed{{.name = "nitrogen needed",
                                                   .help = "by sugar and strain, or the target",
                                                   .unit = "mg/L as nitrogen",
                                                   .decimals = 0}};
inline constexpr Result<MassConcentration> dose{{.name = "dose",
                                                 .help = "of the substance, all portions together",
                                                 .unit = "g/hL",
                                                 .decimals = 1,
                                                 .decided = true}};
inline constexpr Result<MassConcentration> after{{.name = "nitrogen after",
                                                  .help = "if the yeast had used none of it so far",
                                                  .unit = "mg/L as nitrogen",
                                                  .decimals = 0}};

inline constexpr Need inputs[] = {needs(lot::volume),
                                  takes(lot::assimilable_nitrogen),
                                  takes(amino_nitrogen),
                                  takes(ammonium),
                                  takes(ammonium_as),
                                  takes(titrant),
                                  takes(titrant_concentration),
                                  takes(sample),
                                  takes(lot::sugar),
                                  takes(lot::soluble_solids),
                                  takes(lot::ethanol),
                                  takes(target),
                                  takes(strain_need, medium),
                                  takes(substance, phosphate),
                                  takes(nitrogen_share),
                                  takes(lot::treated_with),
                                  takes(portions, two_portions),
                                  takes(thiamine),
                                  takes(lot::stage),
                                  takes(lot::wine_class),
                                  takes(lot::colour)};
inline constexpr const Input* ways[] = {&lot::assimilable_nitrogen, &amino_nitrogen, &titrant};
inline constexpr OneOf one_of[] = {ways};
inline constexpr const ResultInfo* results[] = {&found, &needed, &dose, &after};
inline constexpr const Input* changes[] = {&lot::assimilable_nitrogen, &lot::treated_with};
inline constexpr const LimitInfo* limits[] = {&lab::phosphate, &lab::sulfate, &lab::ammonium_salts, &lab::autolysate,
                                              &thiamine_limit};
inline constexpr std::string_view reagents[] = {"formaldehyde solution", "sodium hydroxide solution",
                                                thiamine_limit.name, lab::gas_of_fermentation};
inline constexpr Source sources[] = {
    formulas,
    formol_source,
    {.title = "need of nitrogen for 1 g of sugar, by strain", .standing = "common practice, no source"},
    {.title = "Bisson and Butzke 2000, need of nitrogen by soluble solids", .standing = "from memory"},
    {.title = "two portions: when fermentation has begun, and when a third of the sugar is gone; none after the middle",
     .standing = "common practice, no source"}};
inline constexpr std::string_view example[] = {
    "volume=32 hL",     "stage=must",     "soluble solids=21.0 °Brix", "amino nitrogen=84 mg/L as nitrogen",
    "ammonium=46 mg/L", "ammonium as=NH4"};

Outcome run(const Inputs& in);

inline constexpr Model<Fraction> need_of_yeast{{.name = "what the yeast needs",
                                                .help = "nitrogen that a strain of its class needs for so much sugar",
                                                .unit = "%",
                                                .standard = 15,
                                                .source = {.standing = "common practice, no source"}}};
inline constexpr const ModelInfo* models[] = {&need_of_yeast};

inline constexpr Calculation calculation{
    .name = "nitrogen",
    .help = "assimilable nitrogen from its parts, what the yeast needs, and what to add in which portions",
    .inputs = inputs,
    .one_of = one_of,
    .results = results,
    .changes = changes,
    .limits = limits,
    .reagents = reagents,
    .models = models,
    .sources = sources,
    .example = example,
    .agree = lab::disagreements,
    .run = run,
    .label = "How much nutrient does the yeast need, and when?"};

}  // namespace vatwright::nutrient::nitrogen
