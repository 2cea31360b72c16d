#include "plugins/chemistry/colour_difference.hpp"

#include <cmath>
#include <numbers>

namespace vatwright::chemistry {
namespace {

double radians(double degrees) { return degrees * std::numbers::pi / 180; }
double cosine(double degrees) { return std::cos(radians(degrees)); }
double seventh(double c) { return std::pow(c, 7); }
// How strongly the corrections near grey, and of blue, act at this chroma.
double saturation(double c) { return std::sqrt(seventh(c) / (seventh(c) + seventh(25))); }

struct Polar {
  double chroma, hue;  // degrees; 0 for a colour without chroma
};

Polar stretched(const Lab& colour, double stretch) {
  const Lab seen{colour.lightness, colour.a * stretch, colour.b};
  return {chroma(seen), hue_angle(seen).value_or(0)};
}

// The difference and the mean of two hues, on the shorter way round.
double hue_difference(const Polar& one, const Polar& other) {
  if (one.chroma * other.chroma == 0) return 0;
  const double d = other.hue - one.hue;
  if (d > 180) return d - 360;
  return d < -180 ? d + 360 : d;
}
double hue_mean(const Polar& one, const Polar& other) {
  const double sum = one.hue + other.hue;
  if (one.chroma * other.chroma == 0) return sum;
  if (std::abs(one.hue - other.hue) <= 180) return sum / 2;
  return sum < 360 ? (sum + 360) / 2 : (sum - 360) / 2;
}

// The hue weight T, and the turn of the blue region.
double hue_weight(double h) {
  return 1 - 0.17 * cosine(h - 30) + 0.24 * cosine(2 * h) + 0.32 * cosine(3 * h + 6) - 0.20 * cosine(4 * h - 63);
}
double rotation(double h, double c) {
  const double turn = 30 * std::exp(-std::pow((h - 275) / 25, 2));
  return -std::sin(radians(2 * turn)) * 2 * saturation(c);
}

}  // namespace

double ciede2000(const Lab& one, const Lab& other) {
  const double stretch = 1 + 0.5 * (1 - saturation((chroma(one) + chroma(other)) / 2));
  const Polar p = stretched(one, stretch);
  const Polar q = stretched(other, stretch);
  const double lightness = (one.lightness + other.lightness) / 2 - 50;
  const double c = (p.chroma + q.chroma) / 2;
  const double h = hue_mean(p, q);

  const double dl =
      (other.lightness - one.lightness) / (1 + 0.015 * lightness * lightness / std::sqrt(20 + lightness * lightness));
  const double dc = (q.chroma - p.chroma) / (1 + 0.045 * c);
  const double dh = 2 * std::sqrt(p.chroma * q.chroma) * std::sin(radians(hue_difference(p, q) / 2)) /
                    (1 + 0.015 * c * hue_weight(h));
  return std::sqrt(dl * dl + dc * dc + dh * dh + rotation(h, c) * dc * dh);
}

}  // namespace vatwright::chemistry
