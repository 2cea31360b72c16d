// Linear regression: figures as sums of columns, by least squares, with their covariance. By Householder's QR (Eigen)
// on columns of one length, in extended precision, since calibration readings often agree in their first digits.
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace vatwright::statistics {

struct Regression {
  std::vector<double> coefficients;             // one a column
  std::vector<std::vector<double>> covariance;  // of them; empty when `freedom` is 0
  double residual_sum = 0;                      // of squares, weighted
  double residual_sd = 0;                       // by the freedom; 0 when there is none
  std::size_t freedom = 0;                      // readings less columns

  double standard(std::size_t coefficient) const;
};

// `columns` hold a figure for each reading in `y`; without `weights` all count alike, else each counts as so many.
// Nothing when the readings do not tell the columns apart. Throws std::logic_error for columns of unlike length, or
// fewer readings than columns.
std::optional<Regression> regress(std::span<const std::vector<double>> columns, std::span<const double> y,
                                  std::span<const double> weights = {});

// The share of the squares that the regression explains: about the mean, or about nought where it goes through zero.
double r_squared(const Regression& fit, std::span<const double> y, bool through_zero);

}  // namespace vatwright::statistics
