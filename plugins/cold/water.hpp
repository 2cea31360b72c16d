// The water that treatments bring. Some rules count it, all treatments together.
#pragma once

#include "host/plugin/plugin.hpp"

namespace vatwright::cold {

inline constexpr Limit<Fraction> water_limit{
    {.name = "treatment water", .help = "most water brought by treatments, share of the wine", .unit = "%"}};

// Of the volume of the wine, with earlier treatments; a lot that states nothing has had none.
Fraction water_before(const Inputs& in);

// The same after `share` more.
Fraction water_with(const Inputs& in, Fraction share);

// Whether `share` more passes what the rule set allows.
bool too_much_water(const Inputs& in, Fraction share);

// Holds `share` more of water, which something of `strength` brings, against the rule set; false where
// that forbids it. `what` names what could be made stronger.
bool water_allows(const Inputs& in, Fraction share, MassConcentration strength, std::string_view what, Outcome& out);

}  // namespace vatwright::cold
