// What may stand in a name. A control character moves the cursor, rings a bell, or hides what stands
// before it.
#pragma once

#include <algorithm>
#include <string_view>

namespace vatwright {

// `laid_out`: tabs and line ends may stand there, since a person's own words may be quoted.
inline bool is_printable(std::string_view text, bool laid_out = false) {
  return std::none_of(text.begin(), text.end(), [laid_out](char letter) {
    const auto byte = static_cast<unsigned char>(letter);
    constexpr unsigned char first_printed = 0x20, del = 0x7F;
    if (laid_out && (letter == '\t' || letter == '\n')) return false;
    return byte < first_printed || byte == del;
  });
}

}  // namespace vatwright
