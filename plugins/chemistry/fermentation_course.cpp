#include "plugins/chemistry/fermentation_course.hpp"

#include "plugins/chemistry/extraction.hpp"
#include "units/error.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <stdexcept>

namespace vatwright::chemistry {
namespace {

using CourseReadings = std::vector<std::pair<double, double>>;  // d, kg/m³

// Places of the parameters.
constexpr std::size_t at_start = 0, pace = 1, at_half = 2, at_end = 3;

double still_to_fall(double k, double m, double t) { return 1 / (1 + std::exp(k * (t - m))); }

kernel::Curve falling_to(std::optional<double> held) {
  return [held](double t, std::span<const double> p, std::span<double> slopes) {
    const double end = held ? *held : p[at_end];
    const double left = still_to_fall(p[pace], p[at_half], t);
    const double steep = (p[at_start] - end) * left * (1 - left);
    slopes[at_start] = left;
    slopes[pace] = -steep * (t - p[at_half]);
    slopes[at_half] = steep * p[pace];
    if (!held) slopes[at_end] = 1 - left;
    return end + (p[at_start] - end) * left;
  };
}

// --- where to begin the search: of many rates and middles the best, its start and end by a straight line

struct Guess {
  double start = 0, rate = 0, middle = 0, end = 0;
  double residual_sum = std::numeric_limits<double>::infinity();
};

Guess guess_at(const CourseReadings& readings, std::optional<double> held, double k, double m) {
  double n = 0, x = 0, y = 0, xx = 0, xy = 0;
  for (const auto& [t, d] : readings) {
    const double left = still_to_fall(k, m, t), above = d - held.value_or(0);
    n += 1, x += left, y += above, xx += left * left, xy += left * above;
  }
  double fall = 0, end = 0;
  if (held) {
    if (!(xx > 0)) return {};
    fall = xy / xx;
    end = *held;
  } else {
    const double spread = n * xx - x * x;
    if (!(spread > 1e-12)) return {};
    fall = (n * xy - x * y) / spread;
    end = (y - fall * x) / n;
  }
  Guess guess{end + fall, k, m, end, 0};
  for (const auto& [t, d] : readings) guess.residual_sum += std::pow(end + fall * still_to_fall(k, m, t) - d, 2);
  return guess;
}

Guess best_guess(const CourseReadings& readings, std::optional<double> held) {
  constexpr int rates = 40, middles = 60;
  const double first = readings.front().first, span = readings.back().first - first;
  const double slowest = 0.5 / span, fastest = 40 / span;
  Guess best;
  for (int i = 0; i <= rates; ++i)
    for (int j = 0; j <= middles; ++j) {
      const double k = slowest * std::pow(fastest / slowest, static_cast<double>(i) / rates);
      const Guess guess = guess_at(readings, held, k, first + span * (-0.5 + 2.5 * j / middles));
      if (guess.start > guess.end && guess.residual_sum < best.residual_sum) best = guess;
    }
  return best;
}

// --- what cannot be fitted

std::size_t different_times_of(const CourseReadings& readings) {
  std::size_t count = readings.empty() ? 0 : 1;
  for (std::size_t i = 1; i < readings.size(); ++i) count += readings[i].first > readings[i - 1].first ? 1 : 0;
  return count;
}

void refuse_too_few_for_course(const CourseReadings& readings, bool known) {
  const std::size_t given = different_times_of(readings), least = least_readings_of_course(known);
  if (given < least)
    throw InputError(fmt::format("readings of density at {} different times are too few: the course has {} unknowns, "
                                 "and takes {} to say how sure it is",
                                 given, least - 1, least),
                     "read on, every day");
}

[[noreturn]] void refuse_untold() {
  throw InputError("these readings do not tell the course of the fermentation yet",
                   "read on, every day; a course shows once the density falls by more than readings scatter");
}

constexpr Density density_of(double number) { return coherent<Density>(number); }

std::array<double, 4> slopes_of_at(const CourseFit& f, double t) {
  std::array<double, 4> slopes{};
  falling_to(f.end_fitted ? std::nullopt : std::optional(f.course.end.value()))(t, f.fit.parameters, slopes);
  return slopes;
}

std::size_t parameters_of_fit(const CourseFit& f) { return f.end_fitted ? 4 : 3; }

}  // namespace

Density FermentationCourse::at(Time time) const {
  return end + (start - end) * still_to_fall(rate, middle / day, time / day);
}

std::optional<Time> FermentationCourse::when_above_end(Density above) const {
  if (above <= Density{} || above >= start - end) return std::nullopt;
  return middle + std::log(static_cast<double>((start - end - above) / above)) / rate * day;
}

Density CourseFit::end_uncertainty() const {
  return end_fitted ? density_of(std::sqrt(fit.covariance.at(at_end).at(at_end))) : Density{};
}

Density CourseFit::uncertainty_of_at(Time time) const {
  const auto slopes = slopes_of_at(*this, time / day);
  return density_of(std::sqrt(kernel::variance(fit, std::span(slopes).first(parameters_of_fit(*this)))));
}

Time CourseFit::uncertainty_of_when(Density above) const {
  const auto time = course.when_above_end(above);
  if (!time) throw std::logic_error("a density that the course does not pass");
  // t = m + ln((S - E - a) / a) / k by S, k, m and E.
  const double by_start = 1 / ((course.start - course.end - above).value() * course.rate);
  const std::array<double, 4> slopes{by_start, -static_cast<double>((*time - course.middle) / day) / course.rate, 1,
                                     -by_start};
  return std::sqrt(kernel::variance(fit, std::span(slopes).first(parameters_of_fit(*this)))) * day;
}

CourseFit fit_course(const DensityReadings& readings, std::optional<Density> end) {
  CourseReadings numbers;
  for (const auto& [time, density] : readings) numbers.emplace_back(time / day, density.value());
  const auto held = end ? std::optional(end->value()) : std::nullopt;
  refuse_too_few_for_course(numbers, held.has_value());
  const Guess best = best_guess(numbers, held);
  if (!std::isfinite(best.residual_sum)) refuse_untold();

  std::vector<double> begin{best.start, best.rate, best.middle};
  if (!held) begin.push_back(best.end);
  auto fit = kernel::least_squares(falling_to(held), numbers, std::move(begin));
  if (!fit.found || fit.covariance.empty()) refuse_untold();
  const FermentationCourse course{density_of(fit.parameters[at_start]),
                                  density_of(held ? *held : fit.parameters[at_end]), fit.parameters[pace],
                                  fit.parameters[at_half] * day};
  // A rate that is as unsure as it is large tells nothing.
  if (!(course.rate > 0) || !(course.start > course.end) ||
      !(std::sqrt(fit.covariance.at(pace).at(pace)) < course.rate))
    refuse_untold();
  const Density scatter = density_of(std::sqrt(fit.residual_sum / static_cast<double>(fit.freedom)));
  const std::size_t freedom = fit.freedom;
  return {course, scatter, freedom, !held, std::move(fit)};
}

CourseFit fit_course_as_told(const DensityReadings& readings, Density dry) {
  try {
    auto free = fit_course(readings);
    const bool past_the_middle = readings.back().first > free.course.middle;
    if (past_the_middle && free.end_uncertainty() * 10.0 < free.course.start - free.course.end) return free;
  } catch (const InputError&) {  // the end is held then
  }
  return fit_course(readings, dry);
}

std::optional<Departure> departure_of_last(const DensityReadings& readings, Density dry, Density resolution) {
  if (readings.empty()) return std::nullopt;
  const auto& [time, found] = readings.back();
  try {
    const auto before = fit_course_as_told({readings.begin(), readings.end() - 1}, dry);
    const Density own = std::max(before.scatter, resolution);
    const double one = std::hypot(own.value(), before.uncertainty_of_at(time).value());
    const Density expected = before.course.at(time);
    return Departure{expected, found, expected + density_of(one * coverage_95(before.freedom))};
  } catch (const InputError&) {
    return std::nullopt;
  }
}

}  // namespace vatwright::chemistry
