// A quantity that was read against the one that is due.
#pragma once

#include "units/basis.hpp"
#include "units/parse.hpp"

#include <string_view>

namespace vatwright {

struct Expected {
  Dimension dimension{};
  std::string_view counted{};
  std::string_view unit{};            // the one that is shown, for the message's example
  const Basis* acid_basis = nullptr;  // the recipe's, for an acidity that names none
};

// The same quantity, made to fit what is expected; throws InputError for a bare number where a
// unit is due, a wrong dimension, a missing or a wrong basis. `text` is quoted in the message.
Measured expect(const Measured& measured, const Expected& expected, std::string_view text);

}  // namespace vatwright
