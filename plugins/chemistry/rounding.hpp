// From an exact amount to one that a balance or a measuring cylinder shows, never past a limit.
#pragma once

#include <cmath>
#include <cstdint>

namespace vatwright::chemistry {

enum class Rounding : std::uint8_t { nearest, down, none };

// `shown_as` rounds to the nearest figure that can be shown: to_balance() or to_measure().
template <class Quantity>
Quantity rounded(Quantity exact, Rounding rounding, Quantity (*shown_as)(Quantity)) {
  if (rounding == Rounding::none) return exact;
  const Quantity shown = shown_as(exact);
  if (rounding == Rounding::nearest || shown <= exact) return shown;
  // Step back until the rounding falls on the step below. The first leap is at most half a step and
  // doubles, so that it lands on the next step down and no farther.
  Quantity leap = shown - exact;
  while (exact > leap && shown_as(exact - leap) >= shown) leap *= 2.0;
  return exact > leap ? shown_as(exact - leap) : Quantity{};
}

// Rounding that moves a dose, or what it is to reach, by more than this is too coarse to dose by (common
// practice, no source).
inline constexpr double coarse = 0.05;

template <class Quantity>
bool near_enough(Quantity shown, Quantity exact) {
  return std::abs((shown - exact).value()) <= coarse * exact.value();
}

// As it is printed to steps of `step`, and never more than it is: what is named as allowed is allowed.
template <class Quantity>
Quantity down_to_step(Quantity exact, Quantity step) {
  constexpr double hair = 1e-9;
  const double steps = exact / step;
  return std::floor(steps + hair) * step;
}

}  // namespace vatwright::chemistry
