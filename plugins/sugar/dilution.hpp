// What happens to the rest of a lot when something without any of it is poured in.
#pragma once

#include "host/plugin/plugin.hpp"

#include <array>

namespace vatwright::sugar {

// Amounts per litre that only the volume changes.
inline constexpr std::array<const Input*, 14> diluted{&lot::titratable_acidity,
                                                      &lot::volatile_acidity,
                                                      &lot::tartaric_acid,
                                                      &lot::malic_acid,
                                                      &lot::lactic_acid,
                                                      &lot::citric_acid,
                                                      &lot::succinic_acid,
                                                      &lot::potassium,
                                                      &lot::calcium,
                                                      &lot::sodium,
                                                      &lot::free_so2,
                                                      &lot::total_so2,
                                                      &lot::acetaldehyde,
                                                      &lot::assimilable_nitrogen};

// `own` and then the ones above, each taken where it is known.
template <std::size_t N>
constexpr std::array<Need, N + diluted.size()> with_diluted(const std::array<Need, N>& own) {
  std::array<Need, N + diluted.size()> all{};
  for (std::size_t i = 0; i < N; ++i) all[i] = own[i];
  for (std::size_t i = 0; i < diluted.size(); ++i) all[N + i] = takes(*diluted[i]);
  return all;
}
template <std::size_t N>
constexpr std::array<const Input*, N + diluted.size()> with_diluted(const std::array<const Input*, N>& own) {
  std::array<const Input*, N + diluted.size()> all{};
  for (std::size_t i = 0; i < N; ++i) all[i] = own[i];
  for (std::size_t i = 0; i < diluted.size(); ++i) all[N + i] = diluted[i];
  return all;
}

// Each of them that is known, in a volume that has grown from `before` to `after`.
inline void dilute(const Inputs& in, Volume before, Volume after, Outcome& out) {
  for (const Input* key : diluted) {
    const Value* known = in.find(*key);
    if (known == nullptr) continue;
    Value value;
    value.number = known->number * (before / after).value();
    out.changes.push_back({key, std::move(value)});
  }
}

}  // namespace vatwright::sugar
