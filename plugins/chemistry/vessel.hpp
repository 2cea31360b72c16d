// How much a vessel holds up to a dip: the depth of the wine over the lowest point inside.
//
// Volumes of cylinders, cones, ellipsoids and boxes are closed integrals (derived). A dished bottom and a lying barrel
// are integrated over their height or length by Gauss and Kronrod's rule (Boost.Math), to better than 1e-9 of the
// whole.
#pragma once

#include "units/constants.hpp"

#include <variant>

namespace vatwright::chemistry {

enum class Bottom { flat, cone, ellipsoid, shallow_dish, deep_dish };

// Standing, round. `bottom_depth`: of a cone or an ellipsoid, from the lowest point to where the wall begins; a flat
// bottom has none, and that of a dish follows from the diameter. Shallow: crown as wide as the vessel, knuckle a tenth
// of it (DIN 28011, from memory). Deep: crown 0.8, knuckle 0.154 of it (DIN 28013, from memory).
struct Upright {
  Length diameter, wall;
  Bottom bottom = Bottom::flat;
  Length bottom_depth{};
};
// On its side: an ellipse so wide and so high (a circle where both are one), with ends that are flat or half an
// ellipsoid so deep.
struct Lying {
  Length width, height, length, end_depth{};
};
// Straight walls; the floor rises evenly by `slope` from one end to the other.
struct Box {
  Length length, width, height, slope{};
};
// On its side, bung up; staves are parabolas. All inside.
struct Barrel {
  Length bulge, head, length;
};

using Vessel = std::variant<Upright, Lying, Box, Barrel>;

// From the lowest to the highest point inside.
Length depth(const Vessel& vessel);
// `dip` is taken into 0 .. depth.
Volume volume_to(const Vessel& vessel, Length dip);
inline Volume capacity(const Vessel& vessel) { return volume_to(vessel, depth(vessel)); }

}  // namespace vatwright::chemistry
