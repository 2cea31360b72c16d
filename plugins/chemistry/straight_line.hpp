// A straight line through readings, with what it says of further readings.
#pragma once

#include "plugins/chemistry/least_squares.hpp"

#include <optional>

namespace vatwright::chemistry::kernel {

// y = start + slope x. Intervals are two-sided 95 % ones (Student's t).
struct StraightLine {
  double start = 0, slope = 0;
  double scatter = 0;     // residual standard deviation
  double resolution = 0;  // standard uncertainty that a reading has at the least, however straight three of them lie
  double centre = 0, spread = 0;  // of the readings' x: mean, and sum of the squares about it
  Fit fit;

  double at(double x) const { return start + slope * x; }
  // Half of the interval of the line itself at x, and of one more reading there.
  double half_width(double x) const;
  double half_width_of_reading(double x) const;

 private:
  double half_width_at_once() const;
  double leverage(double x) const;
};

// Least readings for a line that also says how sure it is.
inline constexpr std::size_t least_readings_of_line = 3;

// Nothing when all readings are at one x. Fewer readings than three: std::logic_error. `resolution`: see above.
std::optional<StraightLine> fit_line(std::span<const std::pair<double, double>> readings, double resolution = 0);

}  // namespace vatwright::chemistry::kernel
