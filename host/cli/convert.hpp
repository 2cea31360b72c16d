// `vatwright convert`: one quantity in another unit, in another basis, on another scale of sugar; and what was assumed.
#pragma once

#include "host/cli/house.hpp"

#include <string>

namespace vatwright {

// `unit` empty: in all units that fit. Throws InputError, with the way to mend it; PluginError where a scale of sugar
// is asked for and the calculation that knows it is not there.
std::string converted(House& house, const std::string& quantity, const std::string& unit);

}  // namespace vatwright
