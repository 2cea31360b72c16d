#include "plugins/chemistry/screen.hpp"

#include <algorithm>
#include <cmath>

namespace vatwright::chemistry {
namespace {

// D65 as the 2° observer sees it.
constexpr Tristimulus screen_white{95.047, 100, 108.883};

double encoded(double linear) {
  return linear <= 0.0031308 ? 12.92 * linear : 1.055 * std::pow(linear, 1 / 2.4) - 0.055;
}

// A channel in steps of 1/255, before it is clipped.
double channel(const Tristimulus& c, double x, double y, double z) {
  return 255 * encoded((x * c.x + y * c.y + z * c.z) / 100);
}

// White itself may come out a hair above 255, for the matrix has four digits.
bool outside(double level) { return level < -0.5 || level > 255.5; }

std::uint8_t shown(double level) { return static_cast<std::uint8_t>(std::lround(std::clamp(level, 0.0, 255.0))); }

}  // namespace

ScreenColour on_screen(const Lab& colour) {
  const Tristimulus c = tristimulus_of(colour, screen_white);
  const double red = channel(c, 3.2406, -1.5372, -0.4986);
  const double green = channel(c, -0.9689, 1.8758, 0.0415);
  const double blue = channel(c, 0.0557, -0.2040, 1.0570);
  return {shown(red), shown(green), shown(blue), outside(red) || outside(green) || outside(blue)};
}

}  // namespace vatwright::chemistry
