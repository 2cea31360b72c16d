// Curves through readings: parameters by least squares, with their covariance. Levenberg and
// Marquardt's method as Eigen has it (after MINPACK).
#pragma once

#include <cstddef>
#include <functional>
#include <span>
#include <utility>
#include <vector>

namespace vatwright::chemistry::kernel {

// The curve's value at x; `slopes` takes its derivatives by each parameter.
using Curve = std::function<double(double x, std::span<const double> parameters, std::span<double> slopes)>;

struct Fit {
  std::vector<double> parameters;
  std::vector<std::vector<double>> covariance;  // of the parameters; empty when `freedom` is 0
  double residual_sum = 0;                      // of squares
  std::size_t freedom = 0;                      // readings less parameters
  bool found = false;                           // the search settled, and the readings tell all parameters apart
};

// All readings count alike; the covariance comes from their scatter about the curve. At least as many
// readings as parameters (throws std::logic_error). Where the search does not settle, `found` is false
// and the rest says where it stopped.
Fit least_squares(const Curve& curve, std::span<const std::pair<double, double>> readings, std::vector<double> start);

// The variance of a figure that has these slopes by the parameters, to first order (JCGM 100, 5.2).
double variance(const Fit& fit, std::span<const double> slopes);

}  // namespace vatwright::chemistry::kernel
