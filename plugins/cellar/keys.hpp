// What the calculations of the cellar share.
#pragma once

#include "host/plugin/plugin.hpp"
#include "plugins/chemistry/constants.hpp"

namespace vatwright::cellar {

inline constexpr Source slip_guard = lot::guard;
inline constexpr Source practice{.title = "cellar work", .standing = "common practice, no source"};
inline constexpr std::string_view vessels_and_moves = "tanks, moves and gas";

// Gases are taken as ideal ones: within 1 % near the pressure of the air.
using chemistry::kernel::atmosphere, chemistry::kernel::gas_constant;

}  // namespace vatwright::cellar
