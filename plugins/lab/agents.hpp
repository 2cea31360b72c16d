// Whether the rule sets let a substance be taken for a purpose: what they know for it is a list, and
// silence is no permission.
#pragma once

#include "host/plugin/inputs.hpp"
#include "host/plugin/outcome.hpp"

#include <string_view>

namespace vatwright::lab {

// False where a rule set does not know `substance` for `purpose` (host/plugin/law.hpp): a failing check
// then says which ones it knows, and nothing is to be dosed. Of a lot that leaves open which row holds,
// each that might must know it. Says what needs an authorisation first.
bool may_take(const Inputs& in, std::string_view purpose, std::string_view substance, Outcome& out);

}  // namespace vatwright::lab
