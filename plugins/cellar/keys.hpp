// What the calculations of the cellar share.
#pragma once

#include "host/plugin/plugin.hpp"

namespace vatwright::cellar {

inline constexpr Source slip_guard{.title = "guard against slips of the pen", .standing = "common practice, no source"};
inline constexpr Source practice{.title = "cellar work", .standing = "common practice, no source"};
inline constexpr std::string_view vessels_and_moves = "tanks, moves and gas";

}  // namespace vatwright::cellar
