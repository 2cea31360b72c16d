// "2.000 L": two litres here, two thousand in the hand of whoever groups thousands with a point.
#pragma once

#include "host/plugin/inputs.hpp"

#include <string_view>

namespace vatwright {

// Throws InputError, with both ways to write it, where the text may be read either way and both figures can be of
// the input: "1.200 L", but not a pH of "3.420" nor a density of "1.093". `text` begins with the figure.
void refuse_doubtful_thousands(const Input& input, double coherent, std::string_view text);

}  // namespace vatwright
