// A polynomial from its coefficients, the constant first.
#pragma once

#include <array>
#include <cstddef>

namespace vatwright::chemistry::kernel {

template <std::size_t N>
constexpr double polynomial(const std::array<double, N>& coefficients, double x) {
  double sum = 0;
  for (std::size_t i = N; i-- > 0;) sum = sum * x + coefficients[i];
  return sum;
}

}  // namespace vatwright::chemistry::kernel
