#include "plugins/chemistry/statistics/samples.hpp"

#include "plugins/chemistry/statistics/distributions.hpp"

#include <algorithm>
#include <cmath>

namespace vatwright::statistics {
namespace {

// About the first reading: readings that agree in many digits lose none.
long double exact_mean(std::span<const double> readings) {
  long double sum = 0;
  for (const double x : readings) sum += static_cast<long double>(x) - static_cast<long double>(readings.front());
  return static_cast<long double>(readings.front()) + sum / static_cast<long double>(readings.size());
}

long double squares_about(std::span<const double> readings, long double centre) {
  long double sum = 0;
  for (const double x : readings)
    sum += (static_cast<long double>(x) - centre) * (static_cast<long double>(x) - centre);
  return sum;
}

}  // namespace

double mean(std::span<const double> readings) { return static_cast<double>(exact_mean(readings)); }

double scatter(std::span<const double> readings) {
  return static_cast<double>(
      std::sqrt(squares_about(readings, exact_mean(readings)) / static_cast<long double>(readings.size() - 1)));
}

double median(std::vector<double> readings) {
  std::sort(readings.begin(), readings.end());
  const std::size_t n = readings.size();
  return n % 2 == 1 ? readings[n / 2] : (readings[n / 2 - 1] + readings[n / 2]) / 2;
}

double range(std::span<const double> readings) {
  const auto [least, most] = std::minmax_element(readings.begin(), readings.end());
  return *most - *least;
}

Groups analyse(std::span<const std::vector<double>> groups) {
  std::vector<double> all;
  for (const auto& group : groups) all.insert(all.end(), group.begin(), group.end());
  const long double centre = exact_mean(all);
  long double within = 0, between = 0;
  for (const auto& group : groups) {
    const long double here = exact_mean(group);
    within += squares_about(group, here);
    between += static_cast<long double>(group.size()) * (here - centre) * (here - centre);
  }
  return {static_cast<double>(within), static_cast<double>(between), all.size() - groups.size(), groups.size() - 1};
}

Precision precision_of(const Groups& groups, std::size_t n) {
  Precision out;
  out.repeatability = groups.variance_within();
  out.laboratories = std::max(0.0, (groups.variance_between() - out.repeatability) / static_cast<double>(n));
  out.reproducibility = out.repeatability + out.laboratories;
  return out;
}

double scatter_of_pairs(std::span<const std::pair<double, double>> pairs) {
  double sum = 0;
  for (const auto& [a, b] : pairs) sum += (a - b) * (a - b);
  return std::sqrt(sum / (2 * static_cast<double>(pairs.size())));
}

std::optional<std::size_t> outlier(std::span<const double> readings, double error) {
  constexpr std::size_t least = 3;
  if (readings.size() < least) return std::nullopt;
  const double centre = mean(readings), s = scatter(readings);
  const auto farthest = std::max_element(readings.begin(), readings.end(), [&](double a, double b) {
    return std::abs(a - centre) < std::abs(b - centre);
  });
  if (!(s > 0) || std::abs(*farthest - centre) / s <= grubbs_critical(readings.size(), error)) return std::nullopt;
  return static_cast<std::size_t>(farthest - readings.begin());
}

std::optional<std::size_t> wild_pair(std::span<const std::pair<double, double>> pairs, double error) {
  if (pairs.size() < 2) return std::nullopt;
  const auto square = [](const std::pair<double, double>& p) { return (p.first - p.second) * (p.first - p.second); };
  double sum = 0;
  for (const auto& pair : pairs) sum += square(pair);
  const auto widest =
      std::max_element(pairs.begin(), pairs.end(), [&](const auto& a, const auto& b) { return square(a) < square(b); });
  if (!(sum > 0) || square(*widest) / sum <= cochran_critical(pairs.size(), 2, error)) return std::nullopt;
  return static_cast<std::size_t>(widest - pairs.begin());
}

}  // namespace vatwright::statistics
