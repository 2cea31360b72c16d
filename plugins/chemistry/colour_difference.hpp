// How far two colours lie apart as the eye sees it: CIEDE2000 (ISO/CIE 11664-6; Sharma, Wu, Dalal,
// Color Research and Application 30 (2005) 21), with its three weights at 1.
#pragma once

#include "plugins/chemistry/colour.hpp"

namespace vatwright::chemistry {

double ciede2000(const Lab& one, const Lab& other);

}  // namespace vatwright::chemistry
