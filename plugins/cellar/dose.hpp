// cellar.dose: a plain dose of what needs no chemistry: so much for each hectolitre, or for each 100 kg of fruit.
#pragma once

#include "plugins/cellar/keys.hpp"
#include "plugins/lab/agree.hpp"
#include "plugins/lab/dosed_limits.hpp"
#include "plugins/lab/treatment_water.hpp"

namespace vatwright::cellar::plain_dose {

// Acids, carbonates, sulfites, sugar and spirit have calculations of their own, which also say what becomes of the
// wine.
inline constexpr std::string_view substances[] = {"bentonite",
                                                  "gelatine",
                                                  "isinglass",
                                                  "casein",
                                                  "egg albumin",
                                                  "PVPP",
                                                  "activated carbon",
                                                  "silica sol",
                                                  "tannin",
                                                  "chitosan",
                                                  "pea protein",
                                                  "potato protein",
                                                  "yeast hulls",
                                                  "yeast autolysate",
                                                  "diammonium phosphate",
                                                  "ammonium sulfate",
                                                  "thiamine hydrochloride",
                                                  "ascorbic acid",
                                                  "potassium sorbate",
                                                  "fumaric acid",
                                                  "lysozyme",
                                                  "dimethyl dicarbonate",
                                                  "copper sulfate pentahydrate",
                                                  "copper citrate",
                                                  "potassium bitartrate",
                                                  "calcium tartrate",
                                                  "carboxymethylcellulose",
                                                  "metatartaric acid",
                                                  "potassium polyaspartate",
                                                  "mannoproteins",
                                                  "gum arabic",
                                                  "active dry yeast",
                                                  "lactic acid bacteria",
                                                  "pectolytic enzyme",
                                                  "liquid pectolytic enzyme"};
inline constexpr SubstanceChoice substance{
    {.name = "substance", .help = "what is added", .choices = substances, .source = practice}};

inline constexpr Key<MassConcentration> per_volume{{.name = "dose",
                                                    .help = "mass for a volume of the lot, as its label says",
                                                    .unit = "g/hL",
                                                    .valid = Range{0.0001, 2000},
                                                    .usual = Range{0.05, 200},
                                                    .source = slip_guard}};
inline constexpr Key<Fraction> liquid{{.name = "liquid dose",
                                       .help = "volume for a volume of the lot",
                                       .unit = "mL/hL",
                                       .valid = Range{0.001, 5000},
                                       .usual = Range{0.2, 300},
                                       .source = slip_guard}};
inline constexpr Key<Fraction> per_fruit{{.name = "dose on fruit",
                                          .help = "mass for a mass of grapes: write it as g/100 kg",
                                          .unit = "g/100 kg",
                                          .valid = Range{0.0001, 500},
                                          .usual = Range{0.5, 50},
                                          .source = slip_guard}};
inline constexpr Key<Mass> fruit{
    {.name = "fruit", .help = "mass of grapes", .unit = "kg", .valid = Range{1, 1e6}, .source = slip_guard}};
inline constexpr Key<Fraction> acts{{.name = "share that acts",
                                     .help = "of the product, where the dose is of what acts in it",
                                     .unit = "%",
                                     .valid = Range{0.5, 100},
                                     .source = slip_guard}};

inline constexpr Result<Mass> mass{
    {.name = "mass", .help = "of the product, as the balance shows it", .unit = "g", .decimals = 2, .decided = true}};
inline constexpr Result<Volume> volume{
    {.name = "product volume", .help = "as the cylinder shows it", .unit = "mL", .decimals = 1, .decided = true}};
inline constexpr Result<MassConcentration> given{
    {.name = "dose given", .help = "of what acts, with the rounded mass", .unit = "g/hL", .decimals = 2}};

inline constexpr Need inputs[] = {needs(substance),  takes(lot::volume), takes(per_volume),    takes(liquid),
                                  takes(per_fruit),  takes(fruit),       takes(acts, "100 %"), takes(lot::treated_with),
                                  takes(lot::stage), takes(lot::colour)};
inline constexpr const Input* doses[] = {&per_volume, &liquid, &per_fruit};
inline constexpr OneOf one_of[] = {doses};
inline constexpr const ResultInfo* results[] = {&mass, &volume, &given};
inline constexpr const Input* changes[] = {&lot::treated_with};
inline constexpr Source sources[] = {{.title = "dose times volume or mass", .standing = "derived"}, practice};
inline constexpr std::string_view example[] = {"substance=pectolytic enzyme", "volume=48 hL", "dose=1.5 g/hL"};

// Every topic that some substance of the list meets, each once.
inline constexpr auto limits = lab::topics_of<substances>();

Outcome run(const Inputs& in);

inline constexpr Calculation calculation{.name = "dose",
                                         .help = "what to weigh for a dose that its label or the winemaker says",
                                         .inputs = inputs,
                                         .one_of = one_of,
                                         .results = results,
                                         .changes = changes,
                                         .limits = limits,
                                         .reagents = substances,
                                         .sources = sources,
                                         .example = example,
                                         .agree = lab::disagreements,
                                         .run = run,
                                         .label = "How much do I weigh for a dose that I know?",
                                         .group = "treatments"};

}  // namespace vatwright::cellar::plain_dose
