// Lists of a description put end to end, so that what several calculations ask for stands once.
#pragma once

#include "host/plugin/description.hpp"

#include <array>
#include <cstddef>

namespace vatwright {

template <class T, std::size_t... N>
constexpr auto joined(const std::array<T, N>&... parts) {
  std::array<T, (N + ...)> all{};
  std::size_t at = 0;
  const auto put = [&](const auto& part) {
    for (const T& one : part) all[at++] = one;
  };
  (put(parts), ...);
  return all;
}

// A claim on each key, taken where it is known.
template <std::size_t N>
constexpr auto takes_each(const std::array<const Input*, N>& keys) {
  std::array<Need, N> taken{};
  for (std::size_t i = 0; i < N; ++i) taken[i] = takes(*keys[i]);
  return taken;
}

}  // namespace vatwright
