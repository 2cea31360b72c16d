// What happens to the rest of a lot when something without any of it is poured in.
#pragma once

#include "host/plugin/plugin.hpp"

#include <array>

namespace vatwright::sugar {

// Amounts per volume that only the volume changes: what was measured, and what was put in so far. The
// acidity is one of them here, where a blend reckons it from its pH; 'volume gained' is none, for it is
// a share of the volume that there was; and a step decides for itself what becomes of 'strength gained'.
inline constexpr auto diluted =
    joined(std::array<const Input*, 1>{&lot::titratable_acidity}, lot::amounts_per_volume,
           std::array<const Input*, 4>{&lot::acid_added, &lot::acid_removed, &lot::water_added, &lot::treated_with});

// `own` and then the ones above, each taken where it is known.
template <std::size_t N>
constexpr auto with_diluted(const std::array<Need, N>& own) {
  return joined(own, takes_each(diluted));
}
template <std::size_t N>
constexpr auto with_diluted(const std::array<const Input*, N>& own) {
  return joined(own, diluted);
}

// Each of them that is known, in a volume that has grown from `before` to `after`.
inline void dilute(const Inputs& in, Volume before, Volume after, Outcome& out) {
  const double thinner = (before / after).value();
  for (const Input* key : diluted) {
    const Value* known = in.find(*key);
    if (known == nullptr) continue;
    Value value;
    value.number = known->number * thinner;
    value.amounts = known->amounts;
    for (auto& [substance, amount] : value.amounts) amount *= thinner;
    out.changes.push_back({key, std::move(value)});
  }
}

}  // namespace vatwright::sugar
