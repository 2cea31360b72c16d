// One calculation without a file: its arguments as a recipe of one lot and one step.
#pragma once

#include "host/recipe/recipe.hpp"

#include <string>
#include <vector>

namespace vatwright {

// `arguments`: "NAME=VALUE" each; lot keys and further inputs alike. Throws BadInput, which names
// the argument by its number.
Recipe recipe_of_arguments(const std::string& calculation, const std::vector<std::string>& arguments,
                           const std::vector<std::string>& rules);

// The same from the text that a sheet of such a recipe carries.
Recipe recipe_of_text(const std::string& text);

}  // namespace vatwright
