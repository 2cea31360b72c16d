// A reagent as it is handled: its name, and the strength by which its hazards are picked.
#pragma once

#include "units/print.hpp"

#include <string>
#include <string_view>

namespace vatwright::lab {

inline std::string reagent_of(std::string_view name, AmountConcentration strength) {
  constexpr int digits = 5;
  return std::string(name) + ", " + print(strength, "mol/L", digits);
}

inline std::string reagent_of(std::string_view name, MassFraction strength) {
  return std::string(name) + ", " + print(strength, "% mass", 1);
}

}  // namespace vatwright::lab
