// What a lot may be called, wherever it is named first: in a recipe, in a table of lots, or by the step that makes it.
#pragma once

#include <string_view>

namespace vatwright {

// Throws InputError for a name that a spreadsheet would run as a formula, or that has a control character in it: a lot
// is known by its name, so that no writer may alter it.
void check_lot_name(std::string_view lot);

}  // namespace vatwright
