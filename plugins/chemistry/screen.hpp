// A colour as a screen shows it (sRGB, IEC 61966-2-1, matrix and curve from memory).
#pragma once

#include "plugins/chemistry/colour.hpp"

#include <cstdint>

namespace vatwright::chemistry {

struct ScreenColour {
  std::uint8_t red, green, blue;
  bool clipped;  // the screen cannot show it; what it shows is the nearest on each channel
};

// Of a colour under D65 seen by the 10° observer. A screen is made for the 2° observer: the colour is
// carried over white to white, so that water is white. An approximation, to tell samples apart.
ScreenColour on_screen(const Lab& colour);

}  // namespace vatwright::chemistry
