// Text -> quantity: "48.0 hL", "3.42 ± 0.02", "14 ± 4 (k=2) mg/L", "7.1 g/L as tartaric acid".
#pragma once

#include "units/catalogue.hpp"
#include "units/error.hpp"

#include <string_view>

namespace vatwright {

struct Measured {
  double value = 0;        // coherent
  double uncertainty = 0;  // standard uncertainty (JCGM 100), coherent; 0 when none was given
  Dimension dimension{};
  std::string_view counted{};  // "nitrogen" after 'as ammonium' and its like
  double interval = 0;         // a temperature's number read as a difference, coherent
  bool bare = false;           // a number with no unit
};

inline constexpr std::size_t longest_quantity = 200;  // bytes; a longer text is not a quantity

// Throws InputError: no number, a decimal comma, an infinity, an unknown unit (the nearest is
// named), a negative or zero uncertainty. Never throws for a dimension: see `expect`.
Measured parse(std::string_view text);

// The unit in the text of a quantity, as it was written: "g/L as tartaric acid" of "7.1 ± 0.2 g/L as tartaric acid";
// empty when there is none. Throws InputError as `parse` does for the number before it.
std::string_view unit_of(std::string_view quantity);

// A unit alone: "g/L as tartaric acid", "mL/100 mL", "1" for a plain number.
Unit parse_unit(std::string_view text);

}  // namespace vatwright
