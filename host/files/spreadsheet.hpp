// Words in a cell that a spreadsheet program would run as a formula (common practice, no source).
#pragma once

#include <string>
#include <string_view>

namespace vatwright {

// The same words with a ' before each that would be run: those that begin with = + - @, also of full width, at the
// start of the cell, or after a ';', a tab or a line's end in it, where the spreadsheet of a country that writes a
// decimal comma begins a new cell. A plain number, -0.3, is no formula, and stands as it is.
std::string as_text(std::string_view words);

}  // namespace vatwright
