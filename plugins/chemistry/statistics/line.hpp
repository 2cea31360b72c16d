// A calibration line, what it says of a sample that was read, and the least that it can tell from nothing. Formulas:
// the line turned round with weights as in Massart et al., Handbook of Chemometrics and Qualimetrics A (1997), 8.26,
// and DIN 32645 (both seen in the documentation and tests of the R package chemCal).
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace vatwright::statistics {

struct Standard {
  double x = 0, y = 0;
  double weight = 1;  // counts as so many
};

struct Line {
  double start = 0, slope = 0;
  double start_standard = 0, slope_standard = 0;
  double correlation = 0;  // of start and slope
  double scatter = 0;      // residual standard deviation, for a weight of 1
  double mean_x = 0;       // weighted; 0 where the line goes through zero
  double sum_x = 0;        // of squares about mean_x, weighted
  double weights = 0;      // their sum; 0 where the line goes through zero
  std::size_t freedom = 0;
  double r_squared = 0;
  double low = 0, high = 0;  // x of the standards

  double at(double x) const { return start + slope * x; }
  // Standard uncertainty of the line itself at x, and of the mean of `repeats` new readings there.
  double standard_at(double x) const;
  double standard_of_reading(double x, double repeats = 1, double weight = 1) const;

  // The x of a sample from the mean of its `repeats` readings, and its standard uncertainty.
  double find(double y) const { return (y - start) / slope; }
  double standard_of_found(double y, double repeats = 1, double weight = 1) const;
};

// Nothing when all standards are at one x, or there are fewer than three (two through zero), or the line is flat.
std::optional<Line> fit(std::span<const Standard> standards, bool through_zero = false);

// What the line can tell from nothing, for standards that count alike; `error` is the chance of a wrong "it is there",
// and as much of a wrong "it is not". In x.
struct LineLimits {
  double decision = 0;        // above it there is something
  double detection = 0;       // so much is found with that chance
  double quantification = 0;  // told to a third (k = 3)
};
LineLimits limits_of(const Line& line, double error, double repeats = 1);

}  // namespace vatwright::statistics
