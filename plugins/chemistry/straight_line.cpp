#include "plugins/chemistry/straight_line.hpp"

#include "plugins/chemistry/extraction.hpp"

#include <array>
#include <cmath>
#include <stdexcept>

namespace vatwright::chemistry::kernel {

double StraightLine::half_width(double x) const {
  const std::array slopes{1.0, x};
  return coverage_95(fit.freedom) * std::sqrt(variance(fit, slopes));
}

double StraightLine::half_width_of_reading(double x) const {
  const std::array slopes{1.0, x};
  return coverage_95(fit.freedom) * std::sqrt(scatter * scatter + variance(fit, slopes));
}

std::optional<StraightLine> fit_line(std::span<const std::pair<double, double>> readings) {
  if (readings.size() < least_readings_of_line) throw std::logic_error("too few readings for a line");
  const Curve curve = [](double x, std::span<const double> p, std::span<double> slopes) {
    slopes[0] = 1;
    slopes[1] = x;
    return p[0] + p[1] * x;
  };
  auto fit = least_squares(curve, readings, {readings.front().second, 0.0});
  if (!fit.found) return std::nullopt;
  const double scatter = std::sqrt(fit.residual_sum / static_cast<double>(fit.freedom));
  return StraightLine{fit.parameters[0], fit.parameters[1], scatter, std::move(fit)};
}

}  // namespace vatwright::chemistry::kernel
