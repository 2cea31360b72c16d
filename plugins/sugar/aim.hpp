// The strength that a dose is to reach.
#pragma once

#include "host/plugin/plugin.hpp"
#include "plugins/lab/dose.hpp"

namespace vatwright::sugar {

// `left`: the most that the rounding of earlier doses can have left of it.
inline lab::Aim<Strength> strength_aim(const Key<Strength>& target, Strength wanted, Strength left) {
  constexpr Strength close = 0.05 * percent_vol;    // rounding that moves it by more is too coarse
  constexpr Strength hidden = 0.005 * percent_vol;  // half of the last figure that a sheet shows
  return {target.name, target.unit, 2, wanted, close, std::max<Strength>(hidden, left)};
}

// What a stated amount brings the lot to, from what it has `now`: given as long as rounding leaves it near enough.
template <class Quantity>
lab::Aim<Quantity> aim_of_stated(const char* name, std::string_view unit, int decimals, Quantity now, Quantity meant) {
  const Quantity moved = meant - now;
  return {name, unit, decimals, meant, lab::coarse * (moved < Quantity{} ? Quantity(-moved) : moved), {}};
}

}  // namespace vatwright::sugar
