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

// The same for a default or a worked example, which are written in the plugin.
Value read_default(std::string_view text, const Input& input);

}  // namespace vatwright
