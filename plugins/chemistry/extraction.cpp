#include "plugins/chemistry/extraction.hpp"

#include "units/error.hpp"

#include <fmt/format.h>

#include <boost/math/distributions/students_t.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numbers>
#include <stdexcept>

namespace vatwright::chemistry {
namespace {

enum Parameter : std::size_t { plateau, rate, start };  // as the fit orders them; rate in 1/h

using Readings = std::vector<std::pair<double, double>>;  // h, AU

// With the start in `known`, or as the third parameter.
kernel::Curve curve_with(std::optional<double> known) {
  return [known](double t, std::span<const double> p, std::span<double> slopes) {
    const double from = known ? *known : p[start];
    const double to_come = std::exp(-p[rate] * t);
    slopes[plateau] = 1 - to_come;
    slopes[rate] = (p[plateau] - from) * t * to_come;
    if (!known) slopes[start] = to_come;
    return p[plateau] - (p[plateau] - from) * to_come;
  };
}

// --- where to begin: at a given rate the course is a straight line in (1 - exp(-k t)), whose best
// intercept and slope are known at once; so only the rate is searched, over all that can be seen.

struct Trial {
  double rate, start, plateau, residual_sum;
};

Trial at_rate(const Readings& readings, std::optional<double> known, double k) {
  double n = 0, sx = 0, sy = 0, sxx = 0, sxy = 0;
  for (const auto& [t, colour] : readings) {
    const double x = -std::expm1(-k * t);
    n += 1;
    sx += x;
    sy += colour;
    sxx += x * x;
    sxy += x * colour;
  }
  const double rise = known ? (sxy - *known * sx) / sxx : (n * sxy - sx * sy) / (n * sxx - sx * sx);
  const double from = known ? *known : (sy - rise * sx) / n;
  Trial trial{k, from, from + rise, 0};
  for (const auto& [t, colour] : readings) {
    const double off = from - rise * std::expm1(-k * t) - colour;
    trial.residual_sum += off * off;
  }
  return trial;
}

// Rates that readings can tell: slower, and the course is a straight line over all of them; faster, and
// it is over before the second one.
struct Visible {
  double slowest, fastest;
};
Visible visible_rates(const Readings& readings, bool known) {
  const double span = readings.back().first - readings.front().first;
  const double origin = known ? 0 : readings.front().first;
  const auto next = std::find_if(readings.begin(), readings.end(), [&](const auto& r) { return r.first > origin; });
  return {0.02 / span, 15 / (next->first - origin)};
}

Trial best_trial(const Readings& readings, std::optional<double> known, const Visible& visible) {
  constexpr int trials = 200;
  Trial best{0, 0, 0, std::numeric_limits<double>::infinity()};
  for (int i = 0; i <= trials; ++i) {
    const double k = visible.slowest * std::pow(visible.fastest / visible.slowest, static_cast<double>(i) / trials);
    const Trial trial = at_rate(readings, known, k);
    if (trial.residual_sum < best.residual_sum) best = trial;
  }
  return best;
}

// --- what cannot be fitted

std::size_t different_times(const Readings& readings) {
  std::size_t count = readings.empty() ? 0 : 1;
  for (std::size_t i = 1; i < readings.size(); ++i) count += readings[i].first > readings[i - 1].first ? 1 : 0;
  return count;
}

void refuse_too_few(const Readings& readings, bool known) {
  const std::size_t given = different_times(readings);
  const std::size_t least = least_readings(known);
  if (given >= least) return;
  throw InputError(fmt::format("readings of colour at {} different times are too few: the course has {} unknowns, and "
                               "it takes {} to say how "
                               "sure its hours are",
                               given, least - 1, least),
                   "read on, at least once in every hour or two");
}

[[noreturn]] void refuse_straight() {
  throw InputError("the colour still climbs in a straight line: no plateau can be told from these readings",
                   "read on until the climb slows down, then fit again");
}

// A rate that is as unsure as it is large.
[[noreturn]] void refuse_unsure() {
  throw InputError("these readings do not tell how fast the colour comes",
                   "read earlier and more often, while the colour climbs; where it has stopped, it will hardly rise");
}

void refuse_what_is_no_extraction(const Trial& best, const Visible& visible) {
  if (!(best.plateau > best.start))
    throw InputError("the colour does not rise with time on the skins",
                     "look at the order of the readings, and whether sulfite was added between them");
  if (best.rate <= visible.slowest * 1.0001) refuse_straight();
}

Absorbance au(double number) { return coherent<Absorbance>(number); }

}  // namespace

Absorbance Extraction::at(Time time) const {
  return plateau - (plateau - start) * std::exp2(-static_cast<double>(time / half_time));
}

std::optional<Time> Extraction::when(Absorbance colour) const {
  if (colour >= plateau || colour < start) return std::nullopt;
  return half_time * std::log2(static_cast<double>((plateau - start) / (plateau - colour)));
}

Absorbance ExtractionFit::plateau_uncertainty() const { return au(std::sqrt(fit.covariance.at(0).at(0))); }

Time ExtractionFit::uncertainty_of_when(Absorbance colour) const {
  const auto time = course.when(colour);
  if (!time) throw std::logic_error("a colour that the course does not reach");
  // t = ln((P - S) / (P - C)) / k by P, k and S.
  const double k = fit.parameters[rate];
  const double rise = (course.plateau - course.start).value();
  const double left = (course.plateau - colour).value();
  const std::array<double, 3> slopes{(1 / rise - 1 / left) / k, -static_cast<double>(*time / hour) / k,
                                     -1 / (rise * k)};
  return std::sqrt(kernel::variance(fit, std::span(slopes).first(start_fitted ? 3 : 2))) * hour;
}

ExtractionFit fit_extraction(const ColourReadings& readings, std::optional<Absorbance> known_start) {
  Readings numbers;
  for (const auto& [time, colour] : readings) numbers.emplace_back(time / hour, colour.value());
  const auto known = known_start ? std::optional(known_start->value()) : std::nullopt;
  refuse_too_few(numbers, known.has_value());
  const Visible visible = visible_rates(numbers, known.has_value());
  const Trial best = best_trial(numbers, known, visible);
  refuse_what_is_no_extraction(best, visible);

  std::vector<double> begin{best.plateau, best.rate};
  if (!known) begin.push_back(best.start);
  auto fit = kernel::least_squares(curve_with(known), numbers, std::move(begin));
  if (!fit.found) refuse_unsure();
  if (!(fit.parameters[rate] > visible.slowest)) refuse_straight();
  if (!(std::sqrt(fit.covariance.at(rate).at(rate)) < fit.parameters[rate])) refuse_unsure();

  const Extraction course{known_start ? *known_start : au(fit.parameters[start]), au(fit.parameters[plateau]),
                          std::numbers::ln2 / fit.parameters[rate] * hour};
  const Absorbance scatter = au(std::sqrt(fit.residual_sum / static_cast<double>(fit.freedom)));
  const std::size_t freedom = fit.freedom;
  return {course, scatter, freedom, !known, std::move(fit)};
}

double coverage_95(std::size_t freedom) {
  return boost::math::quantile(boost::math::students_t(static_cast<double>(freedom)), 0.975);
}

}  // namespace vatwright::chemistry
