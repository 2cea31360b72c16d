// A quantity as the value of an input, from its text in a recipe or in a table of lots.
#pragma once

#include "host/plugin/inputs.hpp"
#include "units/basis.hpp"

#include <string>

namespace vatwright {

// `acid_basis`: the recipe's, for an acidity that names none. Throws InputError: what `parse` and `expect`
// refuse, and what is outside the range of the input.
Value quantity_of(const std::string& text, const Input& input, const Basis* acid_basis);

}  // namespace vatwright
