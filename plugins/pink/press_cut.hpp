// Where the juice of a press is to be parted, by readings taken as it runs.
#pragma once

#include "plugins/pink/press.hpp"

#include <optional>

namespace vatwright::pink::press {

// The juice that has run off where the first of the given rises is passed, in a straight line between
// two readings; nothing when there are no readings, or none is passed. Adds notes and charts. Throws
// InputError for readings that do not rise in volume, and for readings or a rise without the other.
std::optional<Volume> find_cut(const Inputs& in, Outcome& out);

}  // namespace vatwright::pink::press
