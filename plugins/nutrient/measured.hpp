// What the must has of assimilable nitrogen, and what the yeast needs of it.
#pragma once

#include "plugins/nutrient/course.hpp"

namespace vatwright::nutrient::nitrogen {

// From amino nitrogen and ammonium, from the formol titration, or as the lot gives it. Throws
// InputError where parts are missing, or would be counted twice.
MassConcentration measured_nitrogen(const Inputs& in, Outcome& out);

// The target, or the need by sugar and strain. Throws InputError when neither target nor sugar is known.
MassConcentration wanted_nitrogen(const Inputs& in, const Course& course, Outcome& out);

}  // namespace vatwright::nutrient::nitrogen
