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

// Whether a figure may have been grouped so: "2.000", "2.000 L".
bool may_be_grouped(std::string_view text);

}  // namespace vatwright
