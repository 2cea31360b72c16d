// What is read of a lot on most days: it stands first where readings are entered.
#pragma once

#include "host/plugin/lot.hpp"

#include <array>

namespace vatwright::lot {

inline constexpr std::array<const Input*, 7> often_read{&volume,   &temperature, &ph,     &titratable_acidity,
                                                        &free_so2, &total_so2,   &ethanol};

}  // namespace vatwright::lot
