// One value of a recipe, read against the description of the input that it is for.
#pragma once

#include "host/plugin/inputs.hpp"
#include "host/yaml/document.hpp"
#include "units/basis.hpp"

#include <string>
#include <string_view>

namespace vatwright {

// Throws BadInput, with line and column: wrong kind, unknown word (the nearest is named), wrong
// dimension, missing unit or basis, out of range, shares that do not make a whole.
Value read_value(const Document& doc, const Node& node, const Input& input, const Basis* acid_basis);

// Within the valid range of the input, to the last bits of a conversion; what has none can be all.
bool can_be(const Input& input, double coherent);

// That range in words: "0 to 500 mg/L".
std::string range_of(const Input& input);

// Throws InputError when `coherent`, written as `text`, is outside what the input can be.
void refuse_out_of_range(const Input& input, double coherent, std::string_view text);

// The same for a word that is none of the input's.
void refuse_unknown_word(const Input& input, const std::string& word);

// The same for a default or a worked example, which are written in the plugin.
Value read_default(std::string_view text, const Input& input);

}  // namespace vatwright
