// What was read of a must is no reading of the wine that it has become.
#pragma once

#include "host/plugin/plugin.hpp"

#include <array>

namespace vatwright::lab {

// Yeast, its lees and the crystals move them, but by little enough to go on with until they are measured.
inline constexpr std::array<const Input*, 13> near_enough_of_wine{&lot::ph,
                                                                  &lot::titratable_acidity,
                                                                  &lot::volatile_acidity,
                                                                  &lot::tartaric_acid,
                                                                  &lot::malic_acid,
                                                                  &lot::lactic_acid,
                                                                  &lot::citric_acid,
                                                                  &lot::succinic_acid,
                                                                  &lot::potassium,
                                                                  &lot::calcium,
                                                                  &lot::sodium,
                                                                  &lot::copper,
                                                                  &lot::total_so2};
// These say nothing of the wine.
inline constexpr std::array<const Input*, 7> unknown_of_wine{
    &lot::assimilable_nitrogen, &lot::free_so2,  &lot::acetaldehyde, &lot::glycerol, &lot::turbidity,
    &lot::conductivity,         &lot::absorbance};
inline constexpr auto read_of_must = joined(near_enough_of_wine, unknown_of_wine);

// For a step that finds the sugar of a lot fermented away; `changes` of its calculation holds read_of_must. A lot that
// is called a wine was read as one.
void leave_must(const Inputs& in, Outcome& out);

}  // namespace vatwright::lab
