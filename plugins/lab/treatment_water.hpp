// The water that treatments bring. Some rules count it, all treatments together.
#pragma once

#include "host/plugin/plugin.hpp"

namespace vatwright::lab {

inline constexpr Limit<Fraction> water_limit{{.name = "treatment water",
                                              .help = "most water brought by treatments, share of the wine",
                                              .unit = "%",
                                              .beside = true}};

// What brings it, as the person may make it stronger.
struct Watered {
  std::string_view name;       // "slurry"
  MassConcentration strength;  // of the substance
  std::string_view refused;    // how the step says that it gives nothing: "nothing was dosed"
};

// `share` more of the volume of the wine goes in: it counts with that of earlier treatments (a lot that states nothing
// has had none). For a step that changes lot::water_added.
void count_water(const Inputs& in, Fraction share, Outcome& out);

// That, and it thins what is known of the lot. For a step that changes lot::water_added.
void pour_water(const Inputs& in, Fraction share, Outcome& out);

// Whether `share` more passes what the rule set allows.
bool too_much_water(const Inputs& in, Fraction share);

// Holds `share` more of water against the rule set; false where that forbids it.
bool water_allows(const Inputs& in, Fraction share, const Watered& by, Outcome& out);

}  // namespace vatwright::lab
