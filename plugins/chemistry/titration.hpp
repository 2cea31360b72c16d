// What every titration has in common.
#pragma once

#include "units/constants.hpp"

namespace vatwright::chemistry {

// The titrant that the sample itself used: the reading less that of a blank without sample. Throws
// InputError when the blank used more.
Volume net_titrant(Volume titrant, Volume blank);

}  // namespace vatwright::chemistry
