#include "plugins/chemistry/statistics/regression.hpp"

#include <Eigen/Dense>

#include <cmath>
#include <stdexcept>

namespace vatwright::statistics {
namespace {

using Number = long double;
using Matrix = Eigen::Matrix<Number, Eigen::Dynamic, Eigen::Dynamic>;
using Vector = Eigen::Matrix<Number, Eigen::Dynamic, 1>;

Eigen::Index index(std::size_t i) { return static_cast<Eigen::Index>(i); }

Number root_weight(std::span<const double> weights, std::size_t reading) {
  return weights.empty() ? Number(1) : std::sqrt(static_cast<Number>(weights[reading]));
}

void refuse_unlike(std::span<const std::vector<double>> columns, std::span<const double> y,
                   std::span<const double> weights) {
  if (columns.empty() || y.size() < columns.size()) throw std::logic_error("fewer readings than columns");
  for (const auto& column : columns)
    if (column.size() != y.size()) throw std::logic_error("columns of unlike length");
  if (!weights.empty() && weights.size() != y.size()) throw std::logic_error("weights of another length");
}

}  // namespace

double Regression::standard(std::size_t coefficient) const {
  return covariance.empty() ? 0 : std::sqrt(covariance.at(coefficient).at(coefficient));
}

std::optional<Regression> regress(std::span<const std::vector<double>> columns, std::span<const double> y,
                                  std::span<const double> weights) {
  refuse_unlike(columns, y, weights);
  Matrix a(index(y.size()), index(columns.size()));
  Vector b(index(y.size()));
  for (std::size_t i = 0; i < y.size(); ++i) {
    const Number root = root_weight(weights, i);
    b[index(i)] = root * static_cast<Number>(y[i]);
    for (std::size_t k = 0; k < columns.size(); ++k) a(index(i), index(k)) = root * static_cast<Number>(columns[k][i]);
  }
  const Vector lengths = a.colwise().norm();
  if (!(lengths.minCoeff() > 0)) return std::nullopt;
  const Matrix scaled = a * lengths.cwiseInverse().asDiagonal();
  const Eigen::ColPivHouseholderQR<Matrix> qr(scaled);
  if (qr.rank() < scaled.cols()) return std::nullopt;
  const Vector x = lengths.cwiseInverse().asDiagonal() * qr.solve(b);

  Regression fit;
  for (const Number coefficient : x) fit.coefficients.push_back(static_cast<double>(coefficient));
  fit.freedom = y.size() - columns.size();
  const Number sum = (b - a * x).squaredNorm();
  fit.residual_sum = static_cast<double>(sum);
  if (fit.freedom == 0) return fit;
  const Number variance = sum / static_cast<Number>(fit.freedom);
  fit.residual_sd = static_cast<double>(std::sqrt(variance));
  const auto n = scaled.cols();
  const Matrix r = qr.matrixR().topLeftCorner(n, n);
  const Matrix inverse = r.triangularView<Eigen::Upper>().solve(Matrix::Identity(n, n));
  const Matrix mixed = lengths.cwiseInverse().asDiagonal() * (qr.colsPermutation() * inverse);
  const Matrix covariance = variance * (mixed * mixed.transpose());
  for (Eigen::Index i = 0; i < n; ++i) {
    auto& row = fit.covariance.emplace_back();
    for (Eigen::Index k = 0; k < n; ++k) row.push_back(static_cast<double>(covariance(i, k)));
  }
  return fit;
}

double r_squared(const Regression& fit, std::span<const double> y, bool through_zero) {
  Number mean = 0, squares = 0;
  if (!through_zero)
    for (const double reading : y) mean += static_cast<Number>(reading) / static_cast<Number>(y.size());
  for (const double reading : y)
    squares += (static_cast<Number>(reading) - mean) * (static_cast<Number>(reading) - mean);
  return static_cast<double>(1 - static_cast<Number>(fit.residual_sum) / squares);
}

}  // namespace vatwright::statistics
