// Lines and groups against the certified values of NIST, other programs and printed examples.
#include "plugins/chemistry/statistics/regression.hpp"
#include "plugins/chemistry/statistics/distributions.hpp"
#include "plugins/chemistry/statistics/line.hpp"
#include "plugins/chemistry/statistics/samples.hpp"
#include "tests/folder.hpp"
#include "tests/published/other_program.hpp"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <cmath>
#include <fstream>
#include <iomanip>
#include <random>
#include <sstream>

namespace regression_test {

using namespace vatwright;
using namespace vatwright::statistics;
using Json = nlohmann::json;

const Json& nist() {
  static const Json all = [] {
    std::ifstream file(VATWRIGHT_SOURCE_DIR "/tests/laboratory/nist_strd.json");
    return Json::parse(file);
  }();
  return all;
}

void expect_digits(double found, double certified, double digits, const std::string& what) {
  EXPECT_NEAR(found, certified, std::abs(certified) * std::pow(10, -digits)) << what;
}

void expect_certified(const std::string& name, const std::vector<std::vector<double>>& columns, bool through_zero) {
  SCOPED_TRACE(name);
  const auto& set = nist()["linear"][name];
  const std::vector<double> y = set["data"]["y"];
  const auto fit = regress(columns, y);
  ASSERT_TRUE(fit);
  const auto& certified = set["certified"];
  constexpr double digits = 9;
  for (std::size_t i = 0; i < columns.size(); ++i) {
    expect_digits(fit->coefficients[i], certified["estimates"][i], digits, "estimate");
    expect_digits(fit->standard(i), certified["standard_deviations"][i], digits, "its standard deviation");
  }
  expect_digits(fit->residual_sd, certified["residual_sd"], digits, "residual standard deviation");
  expect_digits(r_squared(*fit, y, through_zero), certified["r_squared"], digits, "R squared");
}

// Outside check of assay.calibration: 34 values within 9 digits, seen.
// Source: NIST StRD, linear regression: Norris, Pontius, NoInt1, NoInt2, Longley.
TEST(Regression, NistReferenceDatasets) {
  for (const auto* name : {"Norris", "NoInt1", "NoInt2", "Pontius", "Longley"}) {
    const auto& data = nist()["linear"][name]["data"];
    const bool forced = std::string(name).starts_with("NoInt");
    std::vector<std::vector<double>> columns;
    if (!forced) columns.emplace_back(data["y"].size(), 1.0);
    for (const auto& [key, values] : data.items())
      if (key != "y") columns.push_back(values);
    if (std::string(name) == "Pontius") {
      columns.push_back(columns.back());
      for (double& x : columns.back()) x *= x;
    }
    expect_certified(name, columns, forced);
  }
}

// Of the last, 13 digits are the same in all readings, and what is left of them in a double tells 4 digits: it is read
// less what all have in common, to the one decimal that it has.
// Outside check of control.duplicates: 15 values within 9 digits, seen.
// Source: NIST StRD, analysis of variance: SiRstv, SmLs01, SmLs04, AtmWtAg, SmLs07.
TEST(Groups, NistReferenceDatasets) {
  std::size_t sets = 0;
  for (const auto& [name, set] : nist()["groups"].items()) {
    SCOPED_TRACE(name);
    std::vector<std::vector<double>> groups = set["data"];
    constexpr double in_common = 1e12;
    for (auto& group : groups)
      for (double& reading : group)
        if (reading > in_common) reading = std::round((reading - in_common) * 10) / 10;
    const Groups found = analyse(groups);
    constexpr double digits = 9;
    expect_digits(found.f(), set["certified"]["f"], digits, "F");
    expect_digits(found.r_squared(), set["certified"]["r_squared"], digits, "R squared");
    expect_digits(std::sqrt(found.variance_within()), set["certified"]["residual_sd"], digits, "residual");
    ++sets;
  }
  EXPECT_EQ(sets, 5U);
}

Line line_of(std::initializer_list<double> x, std::initializer_list<double> y) {
  std::vector<Standard> standards;
  for (std::size_t i = 0; i < x.size(); ++i) standards.push_back({x.begin()[i], y.begin()[i], 1});
  return fit(standards).value();
}

// Outside check of assay.calibration: 7 values within their last printed digit, seen.
// Source: EURACHEM/CITAC Guide (2012), example A5, as recomputed by the Measurement Standards Laboratory (GTC
// documentation).
TEST(CalibrationLine, CadmiumByAtomicAbsorption) {
  const auto line = line_of(
      {0.1, 0.1, 0.1, 0.3, 0.3, 0.3, 0.5, 0.5, 0.5, 0.7, 0.7, 0.7, 0.9, 0.9, 0.9},
      {0.028, 0.029, 0.029, 0.084, 0.083, 0.081, 0.135, 0.131, 0.133, 0.180, 0.181, 0.183, 0.215, 0.230, 0.216});
  EXPECT_NEAR(line.start, 0.0087, 5e-5);
  EXPECT_NEAR(line.start_standard, 0.0029, 5e-5);
  EXPECT_NEAR(line.slope, 0.2410, 5e-5);
  EXPECT_NEAR(line.slope_standard, 0.0050, 5e-5);
  EXPECT_NEAR(line.correlation, -0.87038, 1e-5);
  EXPECT_NEAR(line.find((0.0712 + 0.0716) / 2), 0.260, 5e-4);
  EXPECT_NEAR(line.standard_of_found((0.0712 + 0.0716) / 2, 2), 0.018, 5e-4);
}

// The release of cadmium: what the line finds, in the litres of the leach, over the surface of the vessel.
// Outside check of assay.calibration: 12 values within their last printed digit, seen.
// Source: EURACHEM/CITAC Guide (2012), example A5, as recomputed by the Measurement Standards Laboratory (GTC
// documentation).
TEST(CalibrationLine, CadmiumReleasedByAVessel) {
  const auto line = line_of(
      {0.1, 0.1, 0.1, 0.3, 0.3, 0.3, 0.5, 0.5, 0.5, 0.7, 0.7, 0.7, 0.9, 0.9, 0.9},
      {0.028, 0.029, 0.029, 0.084, 0.083, 0.081, 0.135, 0.131, 0.133, 0.180, 0.181, 0.183, 0.215, 0.230, 0.216});
  const double reading = (0.0712 + 0.0716) / 2;
  const double volume = 0.33034, surface = 5.725552611, found = line.find(reading);
  const double released = found * volume / surface;
  EXPECT_NEAR(volume, 0.3303, 5e-5);
  EXPECT_NEAR(surface, 5.73, 5e-3);
  EXPECT_NEAR(released, 0.0150, 5e-5);
  const double root3 = std::sqrt(3.0);
  struct Part {
    double relative, printed, last_digit;
  };
  const Part parts[] = {{line.standard_of_found(reading, 2) / found, 0.00102956, 5e-8},
                        {0.1 / root3, 0.00086663, 5e-8},
                        {0.152092944 / surface, 0.000398736, 5e-9},
                        {0.00182377532 / volume, 8.28714e-05, 5e-10},
                        {0.0015 / root3, 1.29994e-05, 5e-10},
                        {0.0008, 1.20084e-05, 5e-10}};
  double squares = 0;
  for (const auto& part : parts) {
    EXPECT_NEAR(part.relative * released, part.printed, part.last_digit);
    squares += part.relative * part.relative;
  }
  EXPECT_NEAR(std::sqrt(squares) * released, 0.0014, 5e-5);
}

// Outside check of assay.calibration: 10 values within their last printed digit, seen.
// Source: Massart et al. (1997), chapter 8, examples 1 and 3, in the tests of the R package chemCal.
TEST(CalibrationLine, TurnedRoundWithAndWithoutWeights) {
  const auto plain = line_of({0, 10, 20, 30, 40, 50}, {4, 21.2, 44.6, 61.8, 78, 105.2});
  const double t = student_two_sided(0.05, plain.freedom);
  EXPECT_NEAR(plain.find(15), 6.1, 0.05);
  EXPECT_NEAR(t * plain.standard_of_found(15), 4.9, 0.05);
  EXPECT_NEAR(plain.find(90), 43.9, 0.05);
  EXPECT_NEAR(t * plain.standard_of_found(90), 4.9, 0.05);
  EXPECT_NEAR(t * plain.standard_of_found(90, 5), 3.2, 0.05);
  EXPECT_NEAR(plain.standard_of_found(90, 5), 1.141204, 5e-6);

  const double x[] = {0, 10, 20, 30, 40, 50}, y[] = {4, 21.2, 44.6, 61.8, 78, 105.2};
  const double weights[] = {1.984, 1.417, 1.262, 0.372, 0.199, 0.109};
  std::vector<Standard> standards;
  for (std::size_t i = 0; i < std::size(x); ++i) standards.push_back({x[i], y[i], weights[i]});
  const auto weighted = fit(standards).value();
  EXPECT_NEAR(weighted.find(15), 5.865367, 5e-6);
  EXPECT_NEAR(weighted.standard_of_found(15, 1, 1.67), 0.8926109, 5e-6);
  EXPECT_NEAR(weighted.find(90), 44.06025, 5e-5);
  EXPECT_NEAR(weighted.standard_of_found(90, 1, 0.145), 2.829162, 5e-6);
}

// Outside check of assay.calibration: 4 values within their last printed digit, seen.
// Source: DIN 32645, its data set in the R package chemCal.
TEST(CalibrationLine, DecisionDetectionQuantification) {
  const auto line = line_of({0.05, 0.1, 0.15, 0.2, 0.25, 0.3, 0.35, 0.4, 0.45, 0.5},
                            {3060, 3522, 3707, 4280, 5058, 5510, 5703, 6205, 7156, 7178});
  EXPECT_NEAR(student_two_sided(0.01, line.freedom) * line.standard_of_found(3500), 0.07434, 5e-6);
  const auto limits = limits_of(line, 0.01);
  EXPECT_NEAR(limits.decision, 0.0698, 5e-5);
  EXPECT_NEAR(limits.detection, 0.14, 5e-4);
  EXPECT_NEAR(limits.quantification, 0.212, 5e-4);
}

// Outside check of assay.calibration: 8 values within their last printed digit, seen.
// Source: JCGM 100, H.3, and the 33 points of the GTC documentation.
TEST(CalibrationLine, ThermometerAndThirtyThreePoints) {
  const auto line = line_of({1.521, 2.012, 2.512, 3.003, 3.507, 3.999, 4.513, 5.002, 5.503, 6.010, 6.511},
                            {-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.160});
  EXPECT_NEAR(line.start, -0.1712, 5e-5);
  EXPECT_NEAR(line.start_standard, 0.0029, 5e-5);
  EXPECT_NEAR(line.slope, 0.00218, 5e-6);
  EXPECT_NEAR(line.slope_standard, 0.00067, 5e-6);
  EXPECT_NEAR(line.at(10), -0.1494, 5e-5);
  EXPECT_NEAR(line.standard_at(10), 0.0041, 5e-5);
  const auto many = line_of({3,  7,  11, 15, 18, 27, 29, 30, 30, 31, 31, 32, 33, 33, 34, 36, 36,
                             36, 37, 38, 39, 39, 39, 40, 41, 42, 42, 43, 44, 45, 46, 47, 50},
                            {5,  11, 21, 16, 16, 28, 27, 25, 35, 30, 40, 32, 34, 32, 34, 37, 38,
                             34, 36, 38, 37, 36, 45, 39, 41, 40, 44, 37, 44, 46, 46, 49, 51});
  EXPECT_NEAR(many.find((31.4 + 29.3 + 27.1) / 3), 28.149421, 1e-5);
  EXPECT_NEAR(many.standard_of_found((31.4 + 29.3 + 27.1) / 3, 3), 2.175141, 1e-5);
}

// --- R's lm and predict

struct Case {
  double asked, reading;
  std::vector<Standard> standards;
};

std::vector<Case> random_lines(int count) {
  std::mt19937_64 random(20);
  std::normal_distribution<double> normal;
  std::uniform_real_distribution<double> evenly(0, 1);
  std::vector<Case> cases;
  while (count-- > 0) {
    const double start = 200 * normal(random), slope = 0.1 + 50 * evenly(random), noise = 0.001 + 3 * evenly(random);
    auto& one = cases.emplace_back(Case{100 * evenly(random), start + 40 * slope, {}});
    const int n = 3 + static_cast<int>(evenly(random) * 20);
    for (int i = 0; i < n; ++i) {
      const double x = 100 * evenly(random);
      one.standards.push_back({x, start + slope * x + noise * normal(random), 1});
    }
  }
  return cases;
}

// Outside check of assay.calibration: 2000 values within 8 digits, another program.
// Source: lm and predict of R.
TEST(CalibrationLine, AsRFitsIt) {
  const auto cases = random_lines(200);
  std::ostringstream text;
  text << std::setprecision(17);
  for (const auto& one : cases) {
    text << one.asked << ' ' << one.reading;
    for (const auto& s : one.standards) text << ' ' << s.x << ' ' << s.y;
    text << '\n';
  }
  const test::Folder folder;
  const std::string file = folder.write("lines.txt", text.str()).string();
  std::istringstream theirs(published::output_of(
      "Rscript --vanilla " + published::shell_word(VATWRIGHT_SOURCE_DIR "/tests/laboratory/calibration.R") + " " +
      published::shell_word(file)));
  for (const auto& one : cases) {
    const auto line = fit(one.standards).value();
    const double wide = student_two_sided(0.05, line.freedom) * line.standard_of_reading(one.asked);
    const double ours[] = {line.start,
                           line.slope,
                           line.start_standard,
                           line.slope_standard,
                           line.scatter,
                           line.r_squared,
                           line.at(one.asked),
                           line.standard_at(one.asked),
                           wide,
                           line.find(one.reading)};
    for (const double figure : ours) {
      double expected = 0;
      ASSERT_TRUE(theirs >> expected) << theirs.str();
      expect_digits(figure, expected, 8, "lm and predict");
    }
  }
}

TEST(CalibrationLine, NoLineIsNoLine) {
  EXPECT_FALSE(fit(std::vector<Standard>{{1, 2}, {1, 3}, {1, 4}}));
  EXPECT_FALSE(fit(std::vector<Standard>{{1, 2}, {2, 3}}));
  EXPECT_FALSE(fit(std::vector<Standard>{{0, 0}, {0, 1}}, true));
}

}  // namespace regression_test
