// A figure on a page: no line ends between a number and its unit, between ± and what stands behind it, or in a date.
#pragma once

#include <string>
#include <string_view>

namespace vatwright {

// The same text with no-break spaces there: "263.0 g/L", "12.6 % vol", "21.3 ± 2.9 mg/L". A line may still end before
// the ±, and before the words that follow a unit ("as tartaric acid"). After each hyphen of a date stands a word
// joiner, which is not seen (Unicode Standard Annex 14, class WJ, from memory).
std::string held_together(std::string_view text);

}  // namespace vatwright
