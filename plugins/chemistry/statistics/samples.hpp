// Readings of one thing, and of several: means, scatter within and between groups, readings that lie apart.
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <utility>
#include <vector>

namespace vatwright::statistics {

double mean(std::span<const double> readings);
// Standard deviation; two readings and more.
double scatter(std::span<const double> readings);
double median(std::vector<double> readings);
double range(std::span<const double> readings);

// One-way analysis of variance.
struct Groups {
  double within = 0, between = 0;  // sums of squares
  std::size_t freedom_within = 0, freedom_between = 0;

  double variance_within() const { return within / static_cast<double>(freedom_within); }
  double variance_between() const { return between / static_cast<double>(freedom_between); }
  double f() const { return variance_between() / variance_within(); }
  double r_squared() const { return between / (between + within); }
};
Groups analyse(std::span<const std::vector<double>> groups);

// A study of one sample by laboratories with n readings each (ISO 5725-2): repeatability, between laboratories,
// reproducibility, as variances.
struct Precision {
  double repeatability = 0, laboratories = 0, reproducibility = 0;
};
Precision precision_of(const Groups& groups, std::size_t n);

// The standard deviation of repeats from pairs: the root of the mean of half the squared differences.
double scatter_of_pairs(std::span<const std::pair<double, double>> pairs);

// The reading that lies too far off (Grubbs, two-sided); three readings and more. Nothing when none does.
std::optional<std::size_t> outlier(std::span<const double> readings, double error = 0.05);

// The pair whose variance is too large among the others (Cochran); nothing when none is.
std::optional<std::size_t> wild_pair(std::span<const std::pair<double, double>> pairs, double error = 0.05);

}  // namespace vatwright::statistics
