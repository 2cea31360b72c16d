// What cellar.dose asks: a substance, and how much of it, in whichever way its label says so.
#pragma once

#include "plugins/cellar/keys.hpp"
#include "plugins/lab/substances.hpp"

namespace vatwright::cellar::plain_dose {

inline constexpr SubstanceChoice substance{
    {.name = "substance",
     .help = "what is added; acids, carbonates, sulfites, sugars and spirit go on to the calculation that reckons them",
     .choices = lab::dosing_substances,
     .source = practice}};

inline constexpr Key<MassConcentration> per_volume{
    {.name = "dose",
     .help = "mass for a volume of the lot, as its label says: g/hL, mg/L, lb/1000 gal",
     .unit = "g/hL",
     .valid = Range{0.0001, 2000},
     .usual = Range{0.05, 200},
     .source = slip_guard}};
inline constexpr Key<Fraction> liquid{{.name = "liquid dose",
                                       .help = "volume of the product for a volume of the lot",
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
inline constexpr Key<Fraction> acts{
    {.name = "share that acts",
     .help = "of the product, where the dose is of what acts in it; else the dose is of the product",
     .unit = "%",
     .valid = Range{0.5, 100},
     .source = slip_guard}};

inline constexpr Key<MassConcentration> strength{{.name = "strength",
                                                  .help = "of a liquid: what acts in it, by which the law counts it",
                                                  .unit = "g/L",
                                                  .valid = Range{0.1, 1500},
                                                  .source = slip_guard}};

// Enzymes go by units where the label does; both figures are in the units of that label.
using Activity = decltype(Amount() / Time());
using ActivityPerVolume = decltype(Activity() / Volume());
using ActivityPerMass = decltype(Activity() / Mass());
inline constexpr Key<ActivityPerVolume> by_units{{.name = "dose in units",
                                                  .help = "enzyme units for a volume of the lot, as the label says",
                                                  .unit = "U/hL",
                                                  .valid = Range{0.01, 1e9},
                                                  .source = slip_guard}};
inline constexpr Key<ActivityPerMass> activity{{.name = "activity",
                                                .help = "enzyme units in a gram of the product, on its label",
                                                .unit = "U/g",
                                                .valid = Range{0.01, 1e9},
                                                .source = slip_guard}};
inline constexpr Key<ActivityPerVolume> liquid_activity{{.name = "liquid activity",
                                                         .help = "enzyme units in a millilitre of a liquid product",
                                                         .unit = "U/mL",
                                                         .valid = Range{0.01, 1e9},
                                                         .source = slip_guard}};

}  // namespace vatwright::cellar::plain_dose
