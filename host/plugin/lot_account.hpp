// What was done to a lot so far: the law counts it, and steps add to it.
#pragma once

#include "host/plugin/lot_behaviour.hpp"

#include <algorithm>

namespace vatwright::lot {

inline constexpr Key<Acidity> acid_added{{.name = "acid added",
                                          .help = "acidity added to this must or wine so far; the law counts it",
                                          .unit = "g/L as tartaric acid",
                                          .valid = Range{0, 20},
                                          .usual = Range{0, 4},
                                          .source = guard,
                                          .behaves = counted}};
inline constexpr Key<Acidity> acid_removed{{.name = "acid removed",
                                            .help = "acidity taken away by carbonates so far; the law counts it",
                                            .unit = "g/L as tartaric acid",
                                            .valid = Range{0, 20},
                                            .usual = Range{0, 2},
                                            .source = guard,
                                            .behaves = counted}};
// By the names of the catalogue (host/substances/substances.yaml).
inline constexpr std::string_view diammonium_phosphate = "diammonium phosphate", ammonium_sulfate = "ammonium sulfate";
// As pure acid. It counts where the lot does not state its content, and where a rule is on what was added.
inline constexpr std::string_view added_citric_acid = "citric acid";
// Seed leaves the wine again, as fining agents do; the rows limit what is used all the same.
inline constexpr std::string_view bitartrate_seed = "potassium bitartrate", calcium_seed = "calcium tartrate";
inline constexpr std::string_view plant_proteins[] = {"pea protein", "potato protein"};
inline constexpr std::string_view counted_treatments[] = {diammonium_phosphate,
                                                          ammonium_sulfate,
                                                          "thiamine hydrochloride",
                                                          "yeast autolysate",
                                                          "yeast hulls",
                                                          "PVPP",
                                                          "activated carbon",
                                                          "chitosan",
                                                          "silica sol",
                                                          plant_proteins[0],
                                                          plant_proteins[1],
                                                          "lysozyme",
                                                          "copper sulfate pentahydrate",
                                                          "copper citrate",
                                                          "tannin",
                                                          "egg albumin",
                                                          added_citric_acid,
                                                          bitartrate_seed,
                                                          calcium_seed,
                                                          "metatartaric acid",
                                                          "carboxymethylcellulose",
                                                          "potassium polyaspartate",
                                                          "gum arabic",
                                                          "ascorbic acid",
                                                          "potassium sorbate",
                                                          "dimethyl dicarbonate",
                                                          "fumaric acid",
                                                          "PVI/PVP"};
constexpr bool is_counted(std::string_view substance) {
  return std::find(std::begin(counted_treatments), std::end(counted_treatments), substance) !=
         std::end(counted_treatments);
}
inline constexpr AmountsKey<MassConcentration> treated_with{
    {.name = "treated with",
     .help = "how much of a substance was added so far, for those whose additions the law counts together",
     .unit = "mg/L",
     .valid = Range{0, 100000},
     .choices = counted_treatments,
     .source = guard,
     .behaves = counted}};
inline constexpr Key<Fraction> water_added{{.name = "water added",
                                            .help = "with treatments so far, of the volume; some rules count it",
                                            .unit = "%",
                                            .valid = Range{0, 100},
                                            .usual = Range{0, 1},
                                            .source = guard,
                                            .behaves = counted}};
inline constexpr Key<Strength> strength_gained{{.name = "strength gained",
                                                .help = "potential strength from all enrichments so far; the law "
                                                        "counts it",
                                                .unit = "% vol",
                                                .valid = Range{0, 20},
                                                .usual = Range{0, 3},
                                                .source = guard,
                                                .behaves = counted}};
inline constexpr Key<Strength> tirage_gained{{.name = "tirage gained",
                                              .help = "potential strength from all tirage liqueur so far; the law "
                                                      "counts it by itself",
                                              .unit = "% vol",
                                              .valid = Range{0, 20},
                                              .usual = Range{0, 1.5},
                                              .source = guard,
                                              .behaves = counted}};
inline constexpr Key<Strength> dosage_gained{{.name = "dosage gained",
                                              .help = "actual strength from all expedition liqueur so far; the law "
                                                      "counts it",
                                              .unit = "% vol",
                                              .valid = Range{0, 20},
                                              .usual = Range{0, 0.5},
                                              .source = guard,
                                              .behaves = counted}};
inline constexpr Key<Fraction> liqueur_added{{.name = "liqueur added",
                                              .help = "expedition liqueur so far, of the volume; some rules count it",
                                              .unit = "%",
                                              .valid = Range{0, 100},
                                              .usual = Range{0, 10},
                                              .source = guard,
                                              .behaves = counted}};
inline constexpr Key<Fraction> volume_gained{{.name = "volume gained",
                                              .help = "from concentrated must so far, of the volume before it; the law "
                                                      "counts it",
                                              .unit = "%",
                                              .valid = Range{0, 100},
                                              .usual = Range{0, 11},
                                              .source = guard,
                                              .behaves = counted_of_before}};
inline constexpr Key<Fraction> volume_lost{{.name = "volume lost",
                                            .help = "water taken off by concentration so far, of the volume before it; "
                                                    "the law counts it",
                                            .unit = "%",
                                            .valid = Range{0, 90},
                                            .usual = Range{0, 20},
                                            .source = guard,
                                            .behaves = counted_of_before}};
inline constexpr Key<Strength> sweetening_gained{{.name = "sweetening gained",
                                                  .help = "potential strength from what sweetened this wine so far; "
                                                          "the law counts it",
                                                  .unit = "% vol",
                                                  .valid = Range{0, 20},
                                                  .usual = Range{0, 4},
                                                  .source = guard,
                                                  .behaves = counted}};
inline constexpr Key<Fraction> amelioration{{.name = "amelioration",
                                             .help = "water that a sour must was stretched with so far, of the volume "
                                                     "since; the law counts it apart from that of treatments",
                                             .unit = "%",
                                             .valid = Range{0, 90},
                                             .usual = Range{0, 35},
                                             .source = guard,
                                             .behaves = counted}};
// Of lots that are joined: near enough what their musts together had.
inline constexpr Key<MassFraction> must_solids{
    {.name = "must solids",
     .help = "soluble solids of the must that it was, before water or "
             "sugar went in",
     .unit = "°Brix",
     .valid = Range{0, 80},
     .usual = Range{14, 35},
     .source = guard,
     .behaves = {.joins = Joins::as_mean, .thins = Thins::no, .kept = Kept::book}}};

}  // namespace vatwright::lot
