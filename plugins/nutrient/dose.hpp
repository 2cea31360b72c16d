// From nitrogen that is missing to portions that a balance shows.
#pragma once

#include "host/plugin/plugin.hpp"

namespace vatwright::nutrient::nitrogen {

// Figures this near are equal; the arithmetic is not exact.
inline constexpr double slack = 1e-9;

// The most that one balance reading may weigh; nothing when no rule says.
using MostMass = std::optional<Mass>;

// Assimilable nitrogen in one mass of the substance: by formula, or from the label. Throws InputError
// for a yeast autolysate without its share, and for a share of anything else.
Fraction nitrogen_of(const Inputs& in);

int portion_count(const Inputs& in);

// What the balance shows of `exact`; a little less where rounding up would pass `most`.
Mass weighed(Mass exact, MostMass most);

// The additions, a portion each, the table of when, and what the substance brings beside nitrogen.
void write_portions(const Inputs& in, Mass portion, Outcome& out);

// Thiamine hydrochloride, if it was asked for and the law allows so much.
void add_thiamine(const Inputs& in, Outcome& out);

}  // namespace vatwright::nutrient::nitrogen
