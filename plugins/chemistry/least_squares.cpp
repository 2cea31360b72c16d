#include "plugins/chemistry/least_squares.hpp"

#include <Eigen/Dense>
#include <unsupported/Eigen/NonLinearOptimization>

#include <cmath>
#include <limits>
#include <stdexcept>

namespace vatwright::chemistry::kernel {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

std::span<const double> parameters_of(const VectorXd& x) { return {x.data(), static_cast<std::size_t>(x.size())}; }

// What Eigen asks of a problem: the residuals and their slopes.
struct Problem {
  using Scalar = double;
  using InputType = VectorXd;
  using ValueType = VectorXd;
  using JacobianType = MatrixXd;
  enum { InputsAtCompileTime = Eigen::Dynamic, ValuesAtCompileTime = Eigen::Dynamic };

  const Curve& curve;
  std::span<const std::pair<double, double>> readings;
  Index parameters;

  int inputs() const { return static_cast<int>(parameters); }
  int values() const { return static_cast<int>(readings.size()); }

  int operator()(const VectorXd& x, VectorXd& residuals) const {
    std::vector<double> unused(static_cast<std::size_t>(parameters));
    for (std::size_t i = 0; i < readings.size(); ++i)
      residuals[static_cast<Index>(i)] = curve(readings[i].first, parameters_of(x), unused) - readings[i].second;
    return 0;
  }
  int df(const VectorXd& x, MatrixXd& slopes) const {
    std::vector<double> row(static_cast<std::size_t>(parameters));
    for (std::size_t i = 0; i < readings.size(); ++i) {
      curve(readings[i].first, parameters_of(x), row);
      slopes.row(static_cast<Index>(i)) = Eigen::Map<const VectorXd>(row.data(), parameters);
    }
    return 0;
  }
};

bool settled(Eigen::LevenbergMarquardtSpace::Status status) {
  using namespace Eigen::LevenbergMarquardtSpace;
  switch (status) {
    case RelativeReductionTooSmall:
    case RelativeErrorTooSmall:
    case RelativeErrorAndReductionTooSmall:
    case CosinusTooSmall:
    case FtolTooSmall:  // as close as the digits of a double go
    case XtolTooSmall:
    case GtolTooSmall:
      return true;
    default:
      return false;
  }
}

// The inverse of the normal matrix, by the slopes scaled to one length each, so that parameters of
// very different size do no harm. Empty when the readings do not tell the parameters apart.
MatrixXd inverse_normal(const MatrixXd& slopes) {
  const VectorXd lengths = slopes.colwise().norm();
  if (!(lengths.minCoeff() > 0) || !lengths.allFinite()) return {};
  const Eigen::ColPivHouseholderQR<MatrixXd> qr(slopes * lengths.cwiseInverse().asDiagonal());
  if (qr.rank() < slopes.cols()) return {};
  const Index n = slopes.cols();
  const MatrixXd r_inverse =
      qr.matrixR().topLeftCorner(n, n).triangularView<Eigen::Upper>().solve(MatrixXd::Identity(n, n));
  const MatrixXd mixed = lengths.cwiseInverse().asDiagonal() * (qr.colsPermutation() * r_inverse);
  return mixed * mixed.transpose();
}

}  // namespace

Fit least_squares(const Curve& curve, std::span<const std::pair<double, double>> readings, std::vector<double> start) {
  if (readings.size() < start.size() || start.empty()) throw std::logic_error("fewer readings than parameters");
  Problem problem{curve, readings, static_cast<Index>(start.size())};
  VectorXd x = Eigen::Map<const VectorXd>(start.data(), problem.parameters);
  Eigen::LevenbergMarquardt<Problem> search(problem);
  search.parameters.xtol = search.parameters.ftol = 4 * std::numeric_limits<double>::epsilon();
  search.parameters.maxfev = 2000;
  search.parameters.factor = 1;  // short first steps: a long one can land where every slope is nought
  const auto status = search.minimize(x);

  Fit fit;
  fit.parameters.assign(x.data(), x.data() + x.size());
  fit.freedom = readings.size() - start.size();
  VectorXd residuals(problem.values());
  MatrixXd slopes(problem.values(), problem.parameters);
  problem(x, residuals);
  problem.df(x, slopes);
  fit.residual_sum = residuals.squaredNorm();
  const MatrixXd inverse = inverse_normal(slopes);
  fit.found = settled(status) && x.allFinite() && std::isfinite(fit.residual_sum) && inverse.size() > 0;
  if (!fit.found || fit.freedom == 0) return fit;

  const MatrixXd covariance = inverse * (fit.residual_sum / static_cast<double>(fit.freedom));
  for (const auto& row : covariance.rowwise()) fit.covariance.emplace_back(row.begin(), row.end());
  return fit;
}

double variance(const Fit& fit, std::span<const double> slopes) {
  double sum = 0;
  for (std::size_t i = 0; i < slopes.size(); ++i)
    for (std::size_t k = 0; k < slopes.size(); ++k) sum += slopes[i] * fit.covariance.at(i).at(k) * slopes[k];
  return sum;
}

}  // namespace vatwright::chemistry::kernel
