// cold.treatment: what to add against crystals, with its limit and its cautions.
#pragma once

#include "plugins/cold/sources.hpp"
#include "plugins/lab/agree.hpp"
#include "plugins/lab/treatment_water.hpp"

namespace vatwright::cold::treatment {

using lot::bitartrate_seed;
using lot::calcium_seed;
inline constexpr std::string_view cellulose = "carboxymethylcellulose";
inline constexpr std::string_view metatartaric = "metatartaric acid";
inline constexpr std::string_view polyaspartate = "potassium polyaspartate";
inline constexpr std::string_view mannoprotein = "mannoproteins";
inline constexpr std::string_view gum = "gum arabic";
inline constexpr std::string_view substances[] = {bitartrate_seed, calcium_seed, cellulose, metatartaric,
                                                  polyaspartate,   mannoprotein, gum};
inline constexpr SubstanceChoice substance{
    {.name = "substance",
     .help = "seed crystals for the cold tank, or what keeps crystals (gum arabic: colour) afloat in the bottle",
     .choices = substances,
     .source = {.title = "OIV Code of Oenological Practices", .place = "tartrate stabilisation"}}};
inline constexpr Key<MassConcentration> wanted{
    {.name = "wanted dose",
     .help = "of the active substance, from the bench series or the label; seed of bitartrate: 4 g/L unless given",
     .unit = "mg/L",
     .valid = Range{1, 20000},
     .usual = Range{20, 4200},
     .source = {.title = handbook.title, .place = "section 1.6: seed 4 g/L at -4 °C for some hours"}}};
inline constexpr Key<MassConcentration> strength{{.name = "strength",
                                                  .help = "active substance in a solution, mass per volume",
                                                  .unit = "g/L",
                                                  .valid = Range{1, 500},
                                                  .usual = Range{20, 200},
                                                  .source = slip_guard}};
inline constexpr std::string_view yes = "yes";
inline constexpr std::string_view no = "no";
inline constexpr std::string_view untested = "not tested";
inline constexpr std::string_view answers[] = {yes, no, untested};
inline constexpr Choice protein_stable{{.name = "protein stable",
                                        .help = "what the heat test said (cold.protein); before it nothing is dosed",
                                        .choices = answers,
                                        .source = {.title = "OIV-OENO 543-2016, potassium polyaspartate"}}};

inline constexpr Result<MassConcentration> dose{{.name = "dose",
                                                 .help = "active substance, with the rounded amount",
                                                 .unit = "mg/L",
                                                 .decimals = 1,
                                                 .decided = true}};

inline constexpr Limit<MassConcentration> seed_limit{
    {.name = "potassium bitartrate seed", .help = "most seed of potassium bitartrate", .unit = "g/L"}};
inline constexpr Limit<MassConcentration> calcium_seed_limit{
    {.name = "calcium tartrate seed", .help = "most seed of calcium tartrate", .unit = "g/L"}};
inline constexpr Limit<MassConcentration> cellulose_limit{
    {.name = "carboxymethylcellulose", .help = "most carboxymethylcellulose", .unit = "mg/L"}};
inline constexpr Limit<MassConcentration> metatartaric_limit{
    {.name = "metatartaric acid", .help = "most metatartaric acid", .unit = "mg/L"}};
inline constexpr Limit<MassConcentration> polyaspartate_limit{
    {.name = "potassium polyaspartate", .help = "most potassium polyaspartate", .unit = "mg/L"}};

inline constexpr Limit<MassConcentration> gum_limit{{.name = "gum arabic", .help = "most gum arabic", .unit = "mg/L"}};

inline constexpr Need inputs[] = {needs(lot::volume),
                                  needs(substance),
                                  takes(wanted),
                                  takes(strength),
                                  takes(protein_stable, untested),
                                  takes(lot::treated_with),
                                  takes(lot::water_added),
                                  takes(lot::ethanol),
                                  takes(lot::sugar),
                                  takes(lot::colour),
                                  takes(lot::wine_class),
                                  takes(lot::stage)};
inline constexpr const ResultInfo* results[] = {&dose};
inline constexpr const LimitInfo* limits[] = {&seed_limit,         &calcium_seed_limit,  &cellulose_limit,
                                              &metatartaric_limit, &polyaspartate_limit, &gum_limit,
                                              &lab::water_limit};
// What crystals take along; how much, cold.tartrate foretells.
inline constexpr auto changes = joined(std::array<const Input*, 2>{&lot::treated_with, &lot::water_added}, lab::fallen);
inline constexpr Source sources[] = {
    handbook,
    {.title = "OIV-OENO 2/2008, cellulose gum", .place = "white and sparkling wine"},
    {.title = "OIV-OENO 543-2016, potassium polyaspartate", .place = "more than 10 g/hL gains nothing and may cloud"},
    {.title = "water of a solution, at most a half percent of the wine", .standing = "common practice, no source"},
    {.title = "a wine freezes near -(% vol) / 2 °C", .standing = "common practice, no source"}};
inline constexpr std::string_view example[] = {"volume=48 hL",        "substance=potassium polyaspartate",
                                               "wanted dose=80 mg/L", "strength=100 g/L",
                                               "protein stable=yes",  "colour=pink",
                                               "stage=wine"};

Outcome run(const Inputs& in);

inline constexpr Calculation calculation{.name = "treatment",
                                         .help = "what to add against tartrate crystals, with its limit",
                                         .inputs = inputs,
                                         .results = results,
                                         .changes = changes,
                                         .limits = limits,
                                         .sources = sources,
                                         .example = example,
                                         .agree = lab::disagreements,
                                         .run = run,
                                         .label = "What do I add against crystals?"};

}  // namespace vatwright::cold::treatment
