// The range in which something is known, as an error names it.
#pragma once

#include "units/parse.hpp"
#include "units/print.hpp"

#include <string>
#include <string_view>

namespace vatwright::chemistry {

// A unit conversion must not push an edge out of its range.
inline constexpr double slack = 1e-9;

// Not the negation of what is refused: not-a-number is refused too.
inline bool within(double value, double least, double most) { return value >= least - slack && value <= most + slack; }

// "-20 to 40 °C".
template <class Quantity>
std::string from_to(Quantity least, Quantity most, std::string_view unit) {
  return print_number(parse_unit(unit).number(least.value()), 0) + " to " + print(most, unit, 0);
}

}  // namespace vatwright::chemistry
