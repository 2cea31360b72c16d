// The text of a unit: "mg/L", "lb/1000 gal", "g/L as tartaric acid".
#pragma once

#include "units/catalogue.hpp"

#include <cstddef>
#include <string_view>

namespace vatwright {

// Molarity is what a reaction is reckoned with; a normality leans on the reaction that was in mind. One iodine, I2,
// takes two electrons.
inline constexpr std::string_view of_a_titrant =
    "write a titrant in mol/L (0.1 N sodium hydroxide is 0.1 mol/L, 0.02 N iodine is 0.01 mol/L of I2), and an "
    "acidity in eq/L";

// `offset`: where the unit stands in the whole text, for the column of an error. Throws InputError for what is no unit.
Unit read_unit(std::string_view text, std::size_t offset);

[[noreturn]] void unknown_unit(std::string_view term, std::size_t offset);

}  // namespace vatwright
