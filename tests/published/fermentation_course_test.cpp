// The course of a fermentation against another program, and what it tells early.
#include "plugins/chemistry/fermentation_course.hpp"
#include "plugins/chemistry/extraction.hpp"
#include "tests/folder.hpp"
#include "tests/published/other_program.hpp"
#include "units/error.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <iomanip>
#include <random>
#include <sstream>
#include <string>
#include <vector>

namespace vatwright::chemistry {
namespace fermentation_course_test {

constexpr Density above = 1.6 * kilogram_per_cubic_metre;  // about 4 g/L of sugar

struct Made {
  double start, rate, middle, end;  // of the course that the readings were made from
  bool held;
  std::vector<std::pair<double, double>> points;

  DensityReadings readings() const {
    DensityReadings all;
    for (const auto& [t, d] : points) all.emplace_back(t * day, d * kilogram_per_cubic_metre);
    return all;
  }
  std::optional<Density> known_end() const {
    return held ? std::optional(end * kilogram_per_cubic_metre) : std::nullopt;
  }
};

class Cellar {
 public:
  explicit Cellar(unsigned seed) : random_(seed) {}
  double between(double low, double high) { return std::uniform_real_distribution(low, high)(random_); }
  double scatter(double sd) { return std::normal_distribution(0.0, sd)(random_); }

  // Readings once a day, to `ripe` times the middle.
  Made ferment(bool held, double ripe, double sd) {
    Made one{between(1075, 1105), between(0.5, 1.4), between(4, 7), between(989, 996), held, {}};
    for (double t = 0; t <= ripe * one.middle; t += 1)
      one.points.emplace_back(
          t, one.end + (one.start - one.end) / (1 + std::exp(one.rate * (t - one.middle))) + scatter(sd));
    return one;
  }

 private:
  std::mt19937 random_;
};

std::istringstream fits_of_r(const std::vector<Made>& courses) {
  std::ostringstream out;
  out << std::setprecision(17);
  for (const auto& one : courses) {
    out << one.start << ' ' << one.rate << ' ' << one.middle << ' ' << one.end << ' ' << one.held << ' '
        << above.value();
    for (const auto& [t, d] : one.points) out << ' ' << t << ' ' << d;
    out << '\n';
  }
  const test::Folder folder;
  const std::string file = folder.write("courses.txt", out.str()).string();
  return std::istringstream(published::output_of(
      "Rscript --vanilla " + published::shell_word(VATWRIGHT_SOURCE_DIR "/tests/published/fermentation_course.R") +
      " " + published::shell_word(file)));
}

// Half of them with a known end, once the middle is past; half with the end fitted.
// Outside check of ferment.course, ferment.round: 300 values within 1e-6 of each, another program.
// Source: nls of R.
TEST(FermentationCourse, AsRFitsIt) {
  Cellar cellar(11);
  std::vector<Made> courses;
  for (int i = 0; i < 50; ++i) courses.push_back(cellar.ferment(i % 2 == 0, i % 2 == 0 ? 1.4 : 2.2, 0.6));
  auto theirs = fits_of_r(courses);
  for (const auto& one : courses) {
    const auto fit = fit_course(one.readings(), one.known_end());
    const auto when = fit.course.when_above_end(above);
    ASSERT_TRUE(when);
    const double ours[] = {
        fit.course.start.value(), fit.course.rate, fit.course.middle / day,
        fit.course.end.value(),   *when / day,     fit.uncertainty_of_when(above) / day * coverage_95(fit.freedom)};
    for (const double figure : ours) {
      double expected = 0;
      ASSERT_TRUE(theirs >> expected) << theirs.str();
      EXPECT_NEAR(figure, expected, 1e-6 * std::abs(expected));
    }
  }
}

// The curve by itself: half of the way at its middle, and at ln 9 / k later a tenth of it is left.
TEST(FermentationCourse, HalfOfTheWayAtItsMiddle) {
  const FermentationCourse course{1090.0 * kilogram_per_cubic_metre, 992.0 * kilogram_per_cubic_metre, 0.8, 5.0 * day};
  EXPECT_NEAR(course.at(5.0 * day).value(), 1041, 1e-9);
  EXPECT_NEAR(course.at((5 + std::log(9) / 0.8) * day).value(), 992 + 9.8, 1e-9);
  EXPECT_NEAR(course.when_above_end(9.8 * kilogram_per_cubic_metre).value_or(Time{}) / day, 5 + std::log(9) / 0.8,
              1e-9);
  EXPECT_FALSE(course.when_above_end(98.0 * kilogram_per_cubic_metre));
  EXPECT_FALSE(course.when_above_end(Density{}));
}

// Of courses that scatter as a hydrometer does, the 95 % interval of the day of dry holds the true one about so often.
TEST(FermentationCourse, TheIntervalHoldsTheTrueDay) {
  Cellar cellar(23);
  int held = 0;
  constexpr int courses = 300;
  for (int i = 0; i < courses; ++i) {
    const auto one = cellar.ferment(true, 1.5, 0.5);
    const auto fit = fit_course(one.readings(), one.known_end());
    const double truth = one.middle + std::log((one.start - one.end - above.value()) / above.value()) / one.rate;
    const double found = fit.course.when_above_end(above).value_or(Time{}) / day;
    if (std::abs(found - truth) <= fit.uncertainty_of_when(above) / day * coverage_95(fit.freedom)) ++held;
  }
  EXPECT_GT(held, 0.91 * courses);
  EXPECT_LT(held, 0.99 * courses);
}

constexpr Density resolution = 0.3 * kilogram_per_cubic_metre;

// A course that keeps to itself gives an alarm in about one reading of forty.
TEST(FermentationCourse, ACourseThatKeepsToItselfSeldomGivesAnAlarm) {
  Cellar cellar(5);
  int alarms = 0, told = 0;
  for (int i = 0; i < 400; ++i) {
    const auto one = cellar.ferment(true, cellar.between(0.9, 2), 0.5);
    const auto last = departure_of_last(one.readings(), one.end * kilogram_per_cubic_metre, resolution);
    if (!last) continue;
    ++told;
    if (last->slower()) ++alarms;
  }
  EXPECT_GT(told, 250);
  EXPECT_LT(alarms, 0.06 * told);
}

// One that stops two days past its middle is told by the second day after, at the latest.
TEST(FermentationCourse, ACourseThatStopsIsToldEarly) {
  Cellar cellar(6);
  int told = 0;
  constexpr int courses = 100;
  for (int i = 0; i < courses; ++i) {
    auto one = cellar.ferment(true, 1.0, 0.5);
    const double stop = one.points.back().first;
    const double level = one.points.back().second;
    bool found = false;
    for (double t = stop + 1; t <= stop + 2; t += 1) {
      one.points.emplace_back(t, level + cellar.scatter(0.5));
      const auto last = departure_of_last(one.readings(), one.end * kilogram_per_cubic_metre, resolution);
      found = found || (last && last->slower());
    }
    if (found) ++told;
  }
  EXPECT_GT(told, 0.85 * courses);
}

TEST(FermentationCourse, RefusesWhatTellsNoCourse) {
  const auto at = [](double t, double d) { return std::pair(t * day, d * kilogram_per_cubic_metre); };
  EXPECT_THROW(fit_course({at(0, 1090), at(1, 1088), at(2, 1080)}, 992.0 * kilogram_per_cubic_metre), InputError);
  EXPECT_THROW(fit_course({at(0, 1090), at(1, 1090), at(1, 1089), at(1, 1088), at(1, 1087)}), InputError);
  EXPECT_THROW(fit_course({at(0, 1000), at(1, 1020), at(2, 1050), at(3, 1080), at(4, 1090)}), InputError);
}

}  // namespace fermentation_course_test
}  // namespace vatwright::chemistry
