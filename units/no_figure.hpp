// What laboratories write in place of one figure, and what can be written for it: '<5 mg/L', '5-7 mg/L', 'n.d.'.
#pragma once

#include <cstddef>
#include <string_view>

namespace vatwright {

// What to write for a result that is only a word. Half the limit: common practice, no source.
inline constexpr std::string_view below_detection =
    "for what was not found write half the detection limit ('2.5 ± 1.4' where it is 5; common practice, no source)";

// Throws InputError: no number stands in `text` at byte `at`, where one is due.
[[noreturn]] void refuse_no_number(std::string_view text, std::size_t at);

// Throws InputError when a second figure follows the first, `low`: "-7 mg/L" after the 5 of "5-7 mg/L".
void refuse_range(double low, std::string_view rest, std::string_view text);

}  // namespace vatwright
