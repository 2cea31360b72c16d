// "2.000 L": two litres here, two thousand in the hand of whoever groups thousands with a point.
#pragma once

#include "host/bench/worksheet.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace vatwright {

// A note for each volume among the inputs that may be read so; those of a calculation's own
// defaults are left out.
std::vector<std::string> doubtful_thousands(const std::vector<UsedInput>& inputs);

// How to write a figure that may have been grouped so, "2.000" or "24.125", as either; empty for any other.
std::string either_way(std::string_view figure);

}  // namespace vatwright
