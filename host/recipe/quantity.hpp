// A quantity as the value of an input, from its text in a recipe or in a table of lots.
#pragma once

#include "host/plugin/inputs.hpp"
#include "units/basis.hpp"
#include "units/expect.hpp"

#include <string>

namespace vatwright {

// The acid that an acidity is counted as when it names none: the input's own, else the recipe's; nullptr for neither.
const Basis* basis_of(const Input& input, const Basis* of_recipe);

// What a figure of the input must be. `acid_basis`: the recipe's.
Expected expected_of(const Input& input, const Basis* acid_basis);

// `acid_basis`: the recipe's, for an acidity that names none. Throws InputError: what `parse` and `expect`
// refuse, and what is outside the range of the input.
Value quantity_of(const std::string& text, const Input& input, const Basis* acid_basis);

}  // namespace vatwright
