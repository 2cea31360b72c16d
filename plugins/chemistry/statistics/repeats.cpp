#include "plugins/chemistry/statistics/repeats.hpp"

#include "plugins/chemistry/statistics/distributions.hpp"
#include "plugins/chemistry/statistics/samples.hpp"

#include <array>
#include <cmath>
#include <numbers>

namespace vatwright::statistics {
namespace {

// The allowed range of n readings over that of two. Few are ever read, and the quantile is dear.
double range_over_pair(std::size_t n) {
  constexpr std::size_t kept = 12;
  static const auto table = [] {
    std::array<double, kept + 1> out{};
    const double pair = range_at_most(2);
    for (std::size_t i = 2; i <= kept; ++i) out.at(i) = range_at_most(i) / pair;
    return out;
  }();
  return n <= kept ? table.at(n) : range_at_most(n) / range_at_most(2);
}

// A hair more than allowed is the rounding of what was written.
constexpr double hair = 1e-9;

}  // namespace

double standard_of_limit(double limit) {
  constexpr double two_sided_95 = 1.959963984540054;
  return limit / (two_sided_95 * std::numbers::sqrt2);
}

Judged judge(std::span<const double> readings, double limit) {
  const auto n = static_cast<double>(readings.size());
  Judged out;
  out.value = mean(readings);
  if (readings.size() == 1) {
    out.standard = limit > 0 ? standard_of_limit(limit) : 0;
    return out;
  }
  out.range = range(readings);
  out.verdict = Verdict::agree;
  if (!(limit > 0)) {
    out.standard = scatter(readings) / std::sqrt(n);
    return out;
  }
  out.allowed = limit * range_over_pair(readings.size());
  out.standard = standard_of_limit(limit) / std::sqrt(n);
  if (out.range <= out.allowed * (1 + hair)) return out;
  if (readings.size() == 2) {
    out.verdict = Verdict::another_due;
    return out;
  }
  out.verdict = Verdict::median_taken;
  out.value = median({readings.begin(), readings.end()});
  out.standard *= std::sqrt(std::numbers::pi / 2);  // of a median, to the first order
  return out;
}

}  // namespace vatwright::statistics
