// The root of a function between two bounds, by the method of Alefeld, Potra and Shi
// (ACM Transactions on Mathematical Software 21 (1995) 327, from memory), as Boost.Math has it.
#pragma once

#include <boost/math/tools/toms748_solve.hpp>

#include <cmath>
#include <cstdint>
#include <utility>

namespace vatwright::chemistry::kernel {

// Where `f`, of one sign at `low` and of the other at `high`, is zero: to 1e-12 of x. A root that
// rounding has pushed just past a bound is that bound.
// `at_low` and `at_high` are f there, which the caller may know already.
template <class Function>
double bracketed_root(Function f, double low, double high, double at_low, double at_high) {
  if (at_low == 0 || at_high == 0 || (at_low > 0) == (at_high > 0))
    return std::abs(at_low) < std::abs(at_high) ? low : high;
  std::uintmax_t steps = 60;
  const auto close = [](double a, double b) { return b - a < 1e-12; };
  const auto [a, b] = boost::math::tools::toms748_solve(f, low, high, at_low, at_high, close, steps);
  return (a + b) / 2;
}

// Where `f`, which is nearly straight, is zero between `low` and `high`, found sooner from f at two places; where that
// leaves the bounds, as bracketed_root finds it.
template <class Function>
double nearly_straight_root(Function f, double low, double high, std::pair<double, double> last,
                            std::pair<double, double> now) {
  constexpr int most_secants = 12;
  constexpr double near = 1e-9;  // a step so much shorter than the whole leaves an error that is far smaller
  for (int turn = 0; turn < most_secants; ++turn) {
    if (now.second == 0) return now.first;
    const double next = now.first - now.second * (now.first - last.first) / (now.second - last.second);
    if (!(next >= low && next <= high)) break;
    if (std::abs(next - now.first) <= near * (high - low)) return next;
    last = std::exchange(now, {next, f(next)});
  }
  return bracketed_root(f, low, high, f(low), f(high));
}

template <class Function>
double bracketed_root(Function f, double low, double high) {
  return bracketed_root(f, low, high, f(low), f(high));
}

}  // namespace vatwright::chemistry::kernel
