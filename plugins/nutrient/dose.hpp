// From nitrogen that is missing to portions that a balance shows.
#pragma once

#include "plugins/nutrient/course.hpp"

namespace vatwright::nutrient::nitrogen {

// Assimilable nitrogen in one mass of the substance: by formula, or from the label. Throws InputError
// for a yeast autolysate without its share, and for a share of anything else.
Fraction nitrogen_of(const Inputs& in);

// The additions, a portion each, the table of when, and what the substance brings beside nitrogen.
void write_portions(const Inputs& in, Mass portion, const std::vector<Moment>& moments, Outcome& out);

// Thiamine hydrochloride as it is weighed; nothing if it was not asked for, the law does not allow so
// much, or the balance does not show it.
std::optional<Mass> thiamine_mass(const Inputs& in);

// That, with its checks.
void add_thiamine(const Inputs& in, const Course& course, Outcome& out);
// That which is in the must by now, against its limit.
void hold_thiamine(const Inputs& in, Outcome& out);

}  // namespace vatwright::nutrient::nitrogen
