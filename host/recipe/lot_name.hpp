// What a lot may be called, wherever it is named first: in a recipe, in a table of lots, or by the step that makes it.
#pragma once

#include <string>
#include <string_view>

namespace vatwright {

// Throws InputError for a name that a spreadsheet would run as a formula, or that has a character in it that is not
// printed: a lot is known by its name, so that no writer may alter it.
void check_lot_name(std::string_view lot);

// The same for two names that a person in a cellar cannot tell apart: 'P1' and 'p1', with a space or a no-break space,
// with a Latin, Greek or Cyrillic letter of one shape. Two lots of one recipe or table may not look alike.
std::string likeness(std::string_view lot);

}  // namespace vatwright
