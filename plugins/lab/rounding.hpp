// From an exact amount to one that a balance or a measuring cylinder shows, never past a limit.
#pragma once

#include <cmath>
#include <cstdint>

namespace vatwright::lab {

enum class Rounding : std::uint8_t { nearest, down, none };

// Figures this near are equal; the arithmetic is not exact.
inline constexpr double hair = 1e-9;

// `shown_as` rounds to the nearest figure that can be shown: to_balance() or to_measure(). An amount that
// arithmetic leaves a hair below a figure stands on it.
template <class Quantity>
Quantity rounded(Quantity exact, Rounding rounding, Quantity (*shown_as)(Quantity)) {
  if (rounding == Rounding::none) return exact;
  const Quantity shown = shown_as(exact);
  if (rounding == Rounding::nearest || shown <= exact * (1 + hair)) return shown;
  // Step back until the rounding falls on the step below. The first leap is at most half a step and
  // doubles, so that it lands on the next step down and no farther.
  Quantity leap = shown - exact;
  while (exact > leap && shown_as(exact - leap) >= shown) leap *= 2.0;
  return exact > leap ? shown_as(exact - leap) : Quantity{};
}

// To the nearest figure, or to the one below where the nearest is not `allowed`: rounding alone must not carry
// a lot over a limit that the exact dose keeps. `measure_out` makes of a way of rounding what is given.
template <class MeasureOut, class Allowed>
auto nearest_else_down(MeasureOut measure_out, Allowed allowed) {
  auto nearest = measure_out(Rounding::nearest);
  return allowed(nearest) ? nearest : measure_out(Rounding::down);
}

// The most from nothing to `most` that is not forbidden, where more of it only makes it worse.
template <class Quantity, class Forbids>
Quantity most_allowed(Quantity most, Forbids forbids) {
  if (!forbids(most)) return most;
  Quantity low{}, high = most;
  constexpr int halvings = 50;
  for (int i = 0; i < halvings; ++i) {
    const Quantity middle = (low + high) / 2.0;
    (forbids(middle) ? high : low) = middle;
  }
  return low;
}

// As it is printed to steps of `step`, and never more than it is: what is named as allowed is allowed.
template <class Quantity>
Quantity down_to_step(Quantity exact, Quantity step) {
  const double steps = exact / step;
  return std::floor(steps + hair) * step;
}

}  // namespace vatwright::lab
