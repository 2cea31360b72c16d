// From an exact amount to one that a balance or a measuring cylinder shows, never past a limit.
#pragma once

#include <cstdint>

namespace vatwright::chemistry {

enum class Rounding : std::uint8_t { nearest, down };

// `shown_as` rounds to the nearest figure that can be shown: to_balance() or to_measure().
template <class Quantity>
Quantity rounded(Quantity exact, Rounding rounding, Quantity (*shown_as)(Quantity)) {
  const Quantity shown = shown_as(exact);
  if (rounding == Rounding::nearest || shown <= exact) return shown;
  // Step back until the rounding falls on the step below. The first leap is at most half a step and
  // doubles, so that it lands on the next step down and no farther.
  Quantity leap = shown - exact;
  while (exact > leap && shown_as(exact - leap) >= shown) leap *= 2.0;
  return exact > leap ? shown_as(exact - leap) : Quantity{};
}

}  // namespace vatwright::chemistry
