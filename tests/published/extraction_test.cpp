// Least squares and the course of extraction against certified values and another program.
#include "plugins/chemistry/extraction.hpp"

#include "tests/folder.hpp"
#include "tests/published/other_program.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <iomanip>
#include <random>
#include <sstream>
#include <string>
#include <vector>

namespace vatwright::chemistry {
namespace extraction_test {

using Points = std::vector<std::pair<double, double>>;

// y = b1 (1 - exp(-b2 x))
double rise_from_zero(double x, std::span<const double> b, std::span<double> slopes) {
  const double left = std::exp(-b[1] * x);
  slopes[0] = 1 - left;
  slopes[1] = b[0] * x * left;
  return b[0] * (1 - left);
}

struct Certified {
  const char* name;
  Points points;
  std::vector<std::vector<double>> starts;
  double b1, b2, sd1, sd2, residual_sum, residual_sd;
};

// NIST Statistical Reference Datasets, nonlinear regression: Misra1a (lower difficulty) and BoxBOD
// (higher difficulty), data, starts and certified values to 11 digits (from memory: a slip in any of
// them would show, for the certified values follow from the data).
const Certified certified[] = {{"Misra1a",
                                {{77.6, 10.07},
                                 {114.9, 14.73},
                                 {141.1, 17.94},
                                 {190.8, 23.93},
                                 {239.9, 29.61},
                                 {289.0, 35.18},
                                 {332.8, 40.02},
                                 {378.4, 44.82},
                                 {434.8, 50.76},
                                 {477.3, 55.05},
                                 {536.8, 61.01},
                                 {593.1, 66.40},
                                 {689.1, 75.47},
                                 {760.0, 81.78}},
                                {{500, 0.0001}, {250, 0.0005}},
                                2.3894212918e+02,
                                5.5015643181e-04,
                                2.7070075241e+00,
                                7.2668688436e-06,
                                1.2455138894e-01,
                                1.0187876330e-01},
                               {"BoxBOD",
                                {{1, 109}, {2, 149}, {3, 149}, {5, 191}, {7, 213}, {10, 224}},
                                {{1, 1}, {100, 0.75}},
                                2.1380940889e+02,
                                5.4723748542e-01,
                                1.2354515176e+01,
                                1.0455993237e-01,
                                1.1680088766e+03,
                                1.7088072423e+01}};

void expect_digits(double found, double expected, double digits, const char* what) {
  EXPECT_NEAR(found, expected, std::abs(expected) * std::pow(10, -digits)) << what;
}

// Outside check of pink.contact: 10 values within 6 to 9 digits, from two starts each, from memory.
// Source: NIST StRD, nonlinear regression, Misra1a and BoxBOD.
TEST(LeastSquares, NistReferenceDatasets) {
  for (const auto& set : certified)
    for (std::size_t i = 0; i < set.starts.size(); ++i) {
      SCOPED_TRACE(std::string(set.name) + ", start " + std::to_string(i + 1));
      const auto fit = kernel::least_squares(rise_from_zero, set.points, set.starts[i]);
      ASSERT_TRUE(fit.found);
      expect_digits(fit.parameters[0], set.b1, 7, "b1");
      expect_digits(fit.parameters[1], set.b2, 7, "b2");
      expect_digits(std::sqrt(fit.covariance[0][0]), set.sd1, 6, "standard deviation of b1");
      expect_digits(std::sqrt(fit.covariance[1][1]), set.sd2, 6, "standard deviation of b2");
      expect_digits(fit.residual_sum, set.residual_sum, 9, "residual sum of squares");
    }
}

// The same sets as colours over hours: extraction from a juice without colour is that very curve. No
// start is given, for the fit looks for its own.
// Outside check of pink.contact: 10 values within 6 to 8 digits, from memory.
// Source: NIST StRD, nonlinear regression, Misra1a and BoxBOD.
TEST(ExtractionFit, NistReferenceDatasets) {
  for (const auto& set : certified) {
    SCOPED_TRACE(set.name);
    ColourReadings readings;
    for (const auto& [x, y] : set.points) readings.emplace_back(x * hour, coherent<Absorbance>(y));
    const auto fit = fit_extraction(readings, Absorbance{});
    expect_digits(fit.course.plateau.value(), set.b1, 7, "b1");
    expect_digits(std::log(2) / (fit.course.half_time / hour), set.b2, 7, "b2");
    expect_digits(fit.plateau_uncertainty().value(), set.sd1, 6, "standard deviation of b1");
    expect_digits(std::sqrt(fit.fit.covariance[1][1]), set.sd2, 6, "standard deviation of b2");
    expect_digits(fit.scatter.value(), set.residual_sd, 8, "residual standard deviation");
    EXPECT_EQ(fit.freedom, set.points.size() - 2);
  }
}

// --- R's nls, by the PORT library

struct Case {
  double plateau, rate, start;  // of the course that the readings were made from
  Points points;

  double wanted() const { return start + 0.7 * (plateau - start); }
};

std::vector<Case> random_cases(int count) {
  std::mt19937_64 random(7);
  const auto draw = [&](double low, double high) {
    return low + (high - low) * static_cast<double>(random() >> 11) / 9007199254740992.0;
  };
  std::vector<Case> cases;
  while (count-- > 0) {
    auto& one = cases.emplace_back(Case{draw(1, 6), draw(0.08, 0.5), draw(0, 0.3), {}});
    for (double t = draw(0.2, 1); t < 14 && one.points.size() < 9; t += draw(0.7, 2.5))
      one.points.emplace_back(t, one.plateau - (one.plateau - one.start) * std::exp(-one.rate * t) + draw(-0.02, 0.02));
  }
  return cases;
}

std::istringstream r_fits(const std::vector<Case>& cases) {
  std::ostringstream out;
  out << std::setprecision(17);
  for (const auto& one : cases) {
    out << one.plateau << ' ' << one.rate << ' ' << one.start << ' ' << one.wanted();
    for (const auto& [t, colour] : one.points) out << ' ' << t << ' ' << colour;
    out << '\n';
  }
  const test::Folder folder;
  const std::string file = folder.write("cases.txt", out.str()).string();
  return std::istringstream(published::output_of(
      "Rscript --vanilla " + published::shell_word(VATWRIGHT_SOURCE_DIR "/tests/published/extraction.R") + " " +
      published::shell_word(file)));
}

// Outside check of pink.contact: 320 values within 6 digits, another program.
// Source: nls of R.
TEST(ExtractionFit, AsRFitsIt) {
  const auto cases = random_cases(40);
  auto theirs = r_fits(cases);
  constexpr double digits = 6;
  for (const auto& one : cases) {
    SCOPED_TRACE(one.plateau);
    ColourReadings readings;
    for (const auto& [t, colour] : one.points) readings.emplace_back(t * hour, coherent<Absorbance>(colour));
    const auto fit = fit_extraction(readings);
    const auto& covariance = fit.fit.covariance;
    const auto colour = coherent<Absorbance>(one.wanted());
    const double ours[] = {fit.course.plateau.value(),
                           std::log(2) / (fit.course.half_time / hour),
                           fit.course.start.value(),
                           fit.plateau_uncertainty().value(),
                           std::sqrt(covariance.at(1).at(1)),
                           std::sqrt(covariance.at(2).at(2)),
                           fit.course.when(colour).value_or(Time{}) / hour,
                           fit.uncertainty_of_when(colour) / hour};
    for (const double figure : ours) {
      double expected = 0;
      ASSERT_TRUE(theirs >> expected) << theirs.str();
      expect_digits(figure, expected, digits, "plateau, rate, start, their uncertainties, hour, its uncertainty");
    }
  }
}

// --- the course itself

// A rate of 0.25 per hour has given 39.3469 % after 2 h, 63.2121 % after 4 h, 86.4665 % after 8 h and
// 99.7521 % after 24 h, and 30 % after 1.426700 h: 1 - exp(-k t).
// Outside check of pink.contact: 5 values within 5e-7, derived.
// Source: 1 - exp(-k t), worked out apart from this program.
TEST(Extraction, SharesByTheHour) {
  const Extraction course{Absorbance{}, coherent<Absorbance>(1), std::log(2) / 0.25 * hour};
  constexpr std::pair<double, double> shares[] = {{2, 0.393469}, {4, 0.632121}, {8, 0.864665}, {24, 0.997521}};
  for (const auto& [t, share] : shares) EXPECT_NEAR(course.at(t * hour).value(), share, 5e-7);
  EXPECT_NEAR(course.when(coherent<Absorbance>(0.3)).value_or(Time{}) / hour, 1.426700, 5e-7);
  EXPECT_FALSE(course.when(coherent<Absorbance>(1)));
  EXPECT_FALSE(course.when(coherent<Absorbance>(1.2)));
}

// Student's t, two-sided 95 %: the printed tables of every textbook.
// Outside check of pink.contact, pink.harvest: 6 values within 5.1e-4, from memory.
// Source: printed tables of Student's t.
TEST(Extraction, CoverageFactors) {
  constexpr std::pair<std::size_t, double> table[] = {{1, 12.706}, {2, 4.303},  {3, 3.182},
                                                      {5, 2.571},  {10, 2.228}, {30, 2.042}};
  for (const auto& [freedom, factor] : table) EXPECT_NEAR(coverage_95(freedom), factor, 5.1e-4);
}

}  // namespace extraction_test
}  // namespace vatwright::chemistry
