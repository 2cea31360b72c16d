#include "plugins/chemistry/straight_line.hpp"

#include "plugins/chemistry/extraction.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <stdexcept>

namespace vatwright::chemistry::kernel {

// Of one reading alone: by the scatter of these few, or by what the instrument is known to be off.
double StraightLine::half_width_at_once() const {
  constexpr double normal_95 = 1.959964;
  return std::max(coverage_95(fit.freedom) * scatter, normal_95 * resolution);
}

double StraightLine::leverage(double x) const {
  return 1 / static_cast<double>(fit.freedom + fit.parameters.size()) + (x - centre) * (x - centre) / spread;
}

double StraightLine::half_width(double x) const { return half_width_at_once() * std::sqrt(leverage(x)); }

double StraightLine::half_width_of_reading(double x) const { return half_width_at_once() * std::sqrt(1 + leverage(x)); }

std::optional<StraightLine> fit_line(std::span<const std::pair<double, double>> readings, double resolution) {
  if (readings.size() < least_readings_of_line) throw std::logic_error("too few readings for a line");
  const Curve curve = [](double x, std::span<const double> p, std::span<double> slopes) {
    slopes[0] = 1;
    slopes[1] = x;
    return p[0] + p[1] * x;
  };
  auto fit = least_squares(curve, readings, {readings.front().second, 0.0});
  if (!fit.found) return std::nullopt;
  const double scatter = std::sqrt(fit.residual_sum / static_cast<double>(fit.freedom));
  double centre = 0, spread = 0;
  for (const auto& [x, y] : readings) centre += x / static_cast<double>(readings.size());
  for (const auto& [x, y] : readings) spread += (x - centre) * (x - centre);
  StraightLine line;
  line.start = fit.parameters[0];
  line.slope = fit.parameters[1];
  line.scatter = scatter;
  line.resolution = resolution;
  line.centre = centre;
  line.spread = spread;
  line.fit = std::move(fit);
  return line;
}

}  // namespace vatwright::chemistry::kernel
