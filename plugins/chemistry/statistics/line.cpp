#include "plugins/chemistry/statistics/line.hpp"

#include "plugins/chemistry/statistics/distributions.hpp"
#include "plugins/chemistry/statistics/regression.hpp"

#include <algorithm>
#include <cmath>

namespace vatwright::statistics {
namespace {

constexpr std::size_t least_standards = 3;

// The part of a variance that comes from where x stands, in squares of the scatter.
double leverage(const Line& line, double x) {
  const double away = x - line.mean_x;
  return (line.weights > 0 ? 1 / line.weights : 0) + away * away / line.sum_x;
}

}  // namespace

double Line::standard_at(double x) const { return scatter * std::sqrt(leverage(*this, x)); }

double Line::standard_of_reading(double x, double repeats, double weight) const {
  return scatter * std::sqrt(1 / (repeats * weight) + leverage(*this, x));
}

double Line::standard_of_found(double y, double repeats, double weight) const {
  return standard_of_reading(find(y), repeats, weight) / std::abs(slope);
}

std::optional<Line> fit(std::span<const Standard> standards, bool through_zero) {
  const std::size_t least = through_zero ? least_standards - 1 : least_standards;
  if (standards.size() < least) return std::nullopt;
  Line line;
  std::vector<double> y, weights, ones(standards.size(), 1.0), away;
  for (const auto& one : standards) line.weights += one.weight;
  if (!through_zero)
    for (const auto& one : standards) line.mean_x += one.weight * one.x / line.weights;
  for (const auto& one : standards) {
    y.push_back(one.y);
    weights.push_back(one.weight);
    away.push_back(one.x - line.mean_x);
    line.sum_x += one.weight * away.back() * away.back();
  }
  std::vector<std::vector<double>> columns;
  if (!through_zero) columns.push_back(ones);
  columns.push_back(away);
  const auto found = regress(columns, y, weights);
  if (!found || found->freedom == 0 || !(found->coefficients.back() != 0)) return std::nullopt;
  const auto [lowest, highest] = std::minmax_element(standards.begin(), standards.end(),
                                                     [](const Standard& a, const Standard& b) { return a.x < b.x; });
  line.low = lowest->x;
  line.high = highest->x;
  line.slope = found->coefficients.back();
  line.scatter = found->residual_sd;
  line.freedom = found->freedom;
  line.r_squared = r_squared(*found, y, through_zero);
  line.slope_standard = found->standard(through_zero ? 0 : 1);
  if (through_zero) {
    line.weights = 0;
    return line;
  }
  line.start = found->coefficients.front() - line.slope * line.mean_x;
  line.start_standard = line.standard_at(0);
  line.correlation = -line.mean_x / std::sqrt(line.mean_x * line.mean_x + line.sum_x / line.weights);
  return line;
}

LineLimits limits_of(const Line& line, double error, double repeats) {
  const auto width = [&](double x) { return line.standard_of_reading(x, repeats) / std::abs(line.slope); };
  LineLimits out;
  out.decision = student_one_sided(error, line.freedom) * width(0);
  out.detection = 2 * out.decision;
  // x = k t width(x): rises to its answer from below.
  constexpr double to_a_third = 3;
  constexpr int most_turns = 200;
  const double t = student_two_sided(error, line.freedom);
  out.quantification = out.detection;
  for (int i = 0; i < most_turns; ++i) out.quantification = to_a_third * t * width(out.quantification);
  return out;
}

}  // namespace vatwright::statistics
