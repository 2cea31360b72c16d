// What the calculations of this plugin share.
#pragma once

#include "host/plugin/plugin.hpp"

namespace vatwright::control {

inline constexpr Source slip_guard = lot::guard;
inline constexpr std::string_view bench_group = "at the laboratory bench";
inline constexpr Source precision{
    .title = "ISO 5725-6, precision in practice", .place = "5.2", .standing = "from memory"};

// Results are plain numbers here, all in one unit of the person's own, which stands on the sheet.
inline constexpr NameKey unit{{.name = "in", .help = "the unit of all these numbers, for the sheet, such as 'mg/L'"}};

}  // namespace vatwright::control
