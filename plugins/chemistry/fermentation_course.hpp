// The course of a fermentation: density falls along a logistic curve, fitted to the lot's own readings.
//   d(t) = end + (start - end) / (1 + exp(k (t - middle)))
// Slow while the yeast grows, quickest in the middle, slower towards the end (common practice, no source: no
// published set of constants holds for another must, so that all of them are fitted).
#pragma once

#include "plugins/chemistry/least_squares.hpp"
#include "units/constants.hpp"

#include <optional>
#include <utility>
#include <vector>

namespace vatwright::chemistry {

using DensityReadings = std::vector<std::pair<Time, Density>>;  // by rising time, at 20 °C

inline constexpr Time day = 24.0 * hour;

struct FermentationCourse {
  Density start, end;  // that the curve comes from and goes to
  double rate;         // k, per day
  Time middle;         // half of the way

  Density at(Time time) const;
  // When the density is `above` the end. Nothing for one that the curve does not pass.
  std::optional<Time> when_above_end(Density above) const;
};

struct CourseFit {
  FermentationCourse course;
  Density scatter;      // residual standard deviation
  std::size_t freedom;  // readings less fitted parameters, at least 1
  bool end_fitted;
  kernel::Fit fit;  // start (kg/m³), rate (1/d), middle (d), and the end (kg/m³) when it was fitted

  Density end_uncertainty() const;             // standard; none when it was held
  Density uncertainty_of_at(Time time) const;  // standard, of the curve
  // Standard uncertainty of `course.when_above_end(above)`, to first order. Throws std::logic_error where that has no
  // answer.
  Time uncertainty_of_when(Density above) const;
};

// Least readings for a fit that also says how sure it is: one more than there are parameters.
constexpr std::size_t least_readings_of_course(bool end_known) { return end_known ? 4 : 5; }

// `end`: the density of the dry wine, when it is held; else it is fitted. Throws InputError when the readings are too
// few, do not fall, or do not tell the course.
CourseFit fit_course(const DensityReadings& readings, std::optional<Density> end = std::nullopt);

// With its end fitted where the readings tell it: past the middle, and to a tenth of the fall. Else held at `dry`.
CourseFit fit_course_as_told(const DensityReadings& readings, Density dry);

// The last reading against the course of those before it.
struct Departure {
  Density expected, found;
  Density most;  // upper end of the 95 % interval of one more reading there
  bool slower() const { return found > most; }
};

// Nothing where the readings before it do not tell a course. `resolution`: scatter that any reading has.
std::optional<Departure> departure_of_last(const DensityReadings& readings, Density dry, Density resolution);

}  // namespace vatwright::chemistry
