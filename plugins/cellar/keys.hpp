// What the calculations of the cellar share.
#pragma once

#include "host/plugin/plugin.hpp"

namespace vatwright::cellar {

inline constexpr Source slip_guard = lot::guard;
inline constexpr Source practice{.title = "cellar work", .standing = "common practice, no source"};
inline constexpr std::string_view vessels_and_moves = "tanks, moves and gas";

// Of a gas, taken as an ideal one: within 1 % near the pressure of the air.
inline constexpr double gas_constant = 8.314462618;  // J/(mol K), CODATA 2018
inline constexpr double atmosphere = 101325;         // Pa, the standard atmosphere

}  // namespace vatwright::cellar
