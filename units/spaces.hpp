// The letters of a quantity's text that carry no meaning, and those that begin a number.
#pragma once

#include <string>
#include <string_view>

namespace vatwright {

inline bool is_digit(char c) { return c >= '0' && c <= '9'; }

// Plain ones alone.
std::string_view without_outer_spaces(std::string_view text);

// Spaces that a spreadsheet or a word processor puts before a unit, and that nobody sees: no-break, narrow, thin.
bool has_other_space(std::string_view text);
// With plain spaces in their place.
std::string with_plain_spaces(std::string_view text);

}  // namespace vatwright
