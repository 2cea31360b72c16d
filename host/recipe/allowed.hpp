// What an input can be: its range and its words.
#pragma once

#include "host/plugin/description.hpp"

#include <string>
#include <string_view>

namespace vatwright {

// Within the valid range of the input, to the last bits of a conversion; what has none can be all.
bool can_be(const Input& input, double coherent);

// That range in words: "0 to 500 mg/L".
std::string range_of(const Input& input);

// Its words: "one of: red, white, pink"; empty when it has none.
std::string choices_of(const Input& input);

// Throws InputError when `coherent`, written as `text`, is outside what the input can be.
void refuse_out_of_range(const Input& input, double coherent, std::string_view text);

// The first column of a series, as an input of its own: its unit, dimension and range.
Input first_column(const Input& series);

// The same for a word that is none of the input's.
void refuse_unknown_word(const Input& input, const std::string& word);

}  // namespace vatwright
