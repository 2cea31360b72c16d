#include "host/recipe/lot_name.hpp"

#include "host/files/spreadsheet.hpp"
#include "units/error.hpp"
#include "units/nearest.hpp"

#include <algorithm>

namespace vatwright {

void check_lot_name(std::string_view lot) {
  constexpr unsigned char last_control = 0x1F, del = 0x7F;
  if (std::any_of(lot.begin(), lot.end(), [](unsigned char c) { return c <= last_control || c == del; }))
    throw InputError("a lot's name has a tab, a line's end or another control character in it",
                     "write the name on one line, with spaces");
  if (as_text(lot) != lot)
    throw InputError("a spreadsheet would run the lot's name " + in_quotes(lot) + " as a formula",
                     "begin the name with a letter or a digit, and write no ';' before a sign");
}

}  // namespace vatwright
