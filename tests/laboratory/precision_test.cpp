// Repeats, outliers, studies and control charts against printed tables and examples.
#include "plugins/chemistry/statistics/chart.hpp"
#include "plugins/chemistry/statistics/distributions.hpp"
#include "plugins/chemistry/statistics/repeats.hpp"
#include "plugins/chemistry/statistics/samples.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

namespace precision_test {

using namespace vatwright::statistics;

// Outside check of control.chart: 27 values within 6e-4, seen.
// Source: tables of control chart factors (table A.22 of a textbook, and ASTM), less a misprint.
TEST(ControlChart, FactorsOfRangesAndStandardDeviations) {
  struct Factor {
    std::size_t n;
    double d2, d3, c4;
  };
  const Factor printed[] = {{2, 1.128, 0.853, 0.7979}, {3, 1.693, 0.888, 0.8862}, {4, 2.059, 0.880, 0.9213},
                            {5, 2.326, 0.864, 0.9400}, {6, 2.534, 0.848, 0.9515}, {7, 2.704, 0.833, 0.9594},
                            {8, 2.847, 0.820, 0.9650}, {9, 2.970, 0.808, 0.9693}, {10, 3.078, 0.797, 0.9727}};
  for (const auto& [n, d2, d3, c4] : printed) {
    EXPECT_NEAR(mean_range(n), d2, 6e-4) << n;
    EXPECT_NEAR(standard_of_range(n), d3, 6e-4) << n;
    EXPECT_NEAR(mean_standard(n), c4, 6e-5) << n;
  }
}

// Outside check of control.duplicates: 9 values within 5e-3, another program.
// Source: qtukey of R.
TEST(Repeats, AllowedRanges) {
  const double by_r[] = {2.77, 3.31, 3.63, 3.86, 4.03, 4.17, 4.29, 4.39, 4.47};
  for (std::size_t i = 0; i < std::size(by_r); ++i) EXPECT_NEAR(range_at_most(i + 2), by_r[i], 6e-3) << i + 2;
}

// Outside check of control.duplicates, control.report: 22 values within 1e-3, seen.
// Source: table of Grubbs' test, LibreTexts, less two misprints (n 7 at 5 %, n 15 at 1 %).
TEST(Outliers, Grubbs) {
  struct Critical {
    std::size_t n;
    double five, one;
  };
  const Critical printed[] = {{3, 1.155, 1.155},  {4, 1.481, 1.496},  {5, 1.715, 1.764},  {6, 1.887, 1.973},
                              {8, 2.126, 2.274},  {9, 2.215, 2.387},  {10, 2.290, 2.482}, {11, 2.355, 2.564},
                              {12, 2.412, 2.636}, {13, 2.462, 2.699}, {14, 2.507, 2.755}};
  for (const auto& [n, five, one] : printed) {
    EXPECT_NEAR(grubbs_critical(n, 0.05), five, 1e-3) << n;
    EXPECT_NEAR(grubbs_critical(n, 0.01), one, 1e-3) << n;
  }
  EXPECT_EQ(outlier(std::vector<double>{9.9, 10.0, 10.1, 10.0, 14.0}), 4U);
  EXPECT_FALSE(outlier(std::vector<double>{9.9, 10.0, 10.1, 10.0}));
}

// Outside check of control.duplicates: 2 values within 1e-3 and 2e-3, seen.
// Source: AOAC statistics workbook, Cochran at 2.5 %.
TEST(Outliers, Cochran) {
  EXPECT_NEAR(cochran_critical(11, 2, 0.025), 0.622, 1e-3);
  EXPECT_NEAR(cochran_critical(8, 2, 0.025), 0.736, 2e-3);
  EXPECT_EQ(wild_pair(std::vector<std::pair<double, double>>{{1, 1.1}, {2, 2.1}, {3, 3.1}, {4, 4.1}, {5, 8}}), 4U);
}

// Outside check of control.duplicates: 3 values within 1e-3, seen.
// Source: AOAC collaborative studies workbook, study of 11 laboratories.
TEST(Study, RepeatabilityAndReproducibility) {
  const Groups study{24.19, 137.14, 11, 10};
  const auto found = precision_of(study, 2);
  EXPECT_NEAR(found.repeatability, 2.1986, 1e-3);
  EXPECT_NEAR(found.laboratories, 5.7578, 1e-3);
  EXPECT_NEAR(found.reproducibility, 7.9565, 1e-3);
}

// Outside check of control.chart: 4 values within 1e-5, seen.
// Source: qcc paper, R News 4/1 (2004), piston rings of Montgomery.
TEST(ControlChart, PistonRings) {
  const std::vector<std::vector<double>> rings{
      {74.03, 74.002, 74.019, 73.992, 74.008},  {73.995, 73.992, 74.001, 74.011, 74.004},
      {73.988, 74.024, 74.021, 74.005, 74.002}, {74.002, 73.996, 73.993, 74.015, 74.009},
      {73.992, 74.007, 74.015, 73.989, 74.014}, {74.009, 73.994, 73.997, 73.985, 73.993},
      {73.995, 74.006, 73.994, 74, 74.005},     {73.985, 74.003, 73.993, 74.015, 73.988},
      {74.008, 73.995, 74.009, 74.005, 74.004}, {73.998, 74, 73.99, 74.007, 73.995},
      {73.994, 73.998, 73.994, 73.995, 73.99},  {74.004, 74, 74.007, 74, 73.996},
      {73.983, 74.002, 73.998, 73.997, 74.012}, {74.006, 73.967, 73.994, 74, 73.984},
      {74.012, 74.014, 73.998, 73.999, 74.007}, {74, 73.984, 74.005, 73.998, 73.996},
      {73.994, 74.012, 73.986, 74.005, 74.007}, {74.006, 74.01, 74.018, 74.003, 74},
      {73.984, 74.002, 74.003, 74.005, 73.997}, {74, 74.01, 74.013, 74.02, 74.003},
      {73.988, 74.001, 74.009, 74.005, 73.996}, {74.004, 73.999, 73.99, 74.006, 74.009},
      {74.01, 73.989, 73.99, 74.009, 74.014},   {74.015, 74.008, 73.993, 74, 74.01},
      {73.982, 73.984, 73.995, 74.017, 74.013},
  };
  const Control chart = of_groups(rings);
  EXPECT_NEAR(chart.centre, 74.00118, 1e-5);
  EXPECT_NEAR(chart.standard * std::sqrt(5.0), 0.009887547, 1e-8);
  EXPECT_NEAR(chart.low(), 73.98791, 1e-5);
  EXPECT_NEAR(chart.high(), 74.01444, 1e-5);
}

std::string_view first_stop(const std::vector<double>& z, RuleSet set) {
  for (const auto& broken : broken_rules(z, {0, 1}, set))
    if (broken.stop) return broken.rule;
  return {};
}

TEST(ControlChart, EachRuleIsBrokenByItsRow) {
  EXPECT_EQ(first_stop({0.1, -0.2, 3.1}, RuleSet::laboratory), "one beyond 3 s");
  EXPECT_EQ(first_stop({0.1, 2.1, 2.2}, RuleSet::laboratory), "two in a row beyond 2 s on one side");
  EXPECT_EQ(first_stop({2.1, -2.1}, RuleSet::laboratory), "two in a row 4 s apart");
  EXPECT_EQ(first_stop({1.1, 1.2, 1.1, 1.3}, RuleSet::laboratory), "four in a row beyond 1 s on one side");
  EXPECT_EQ(first_stop(std::vector<double>(10, -0.1), RuleSet::laboratory), "ten in a row on one side");
  EXPECT_EQ(first_stop({0.1, -0.4, 2.4, 0.2, -0.1}, RuleSet::laboratory), "");
  EXPECT_EQ(first_stop({2.1, 0.1, 2.2}, RuleSet::shewhart), "two of three beyond 2 s on one side");
  EXPECT_EQ(first_stop({1.1, 1.2, -0.1, 1.3, 1.4}, RuleSet::shewhart), "four of five beyond 1 s on one side");
  EXPECT_EQ(first_stop({-0.5, -0.3, -0.1, 0.1, 0.2, 0.4}, RuleSet::shewhart), "six in a row rising or falling");
}

// Two that do not agree give no result, whatever they are; a third inside the wider range gives the mean, else the
// median.
TEST(Repeats, TwoThatDoNotAgreeAreNeverAveraged) {
  std::mt19937_64 random(3);
  std::uniform_real_distribution<double> evenly(0, 100);
  for (int i = 0; i < 500; ++i) {
    const double a = evenly(random), b = evenly(random), limit = 0.01 + evenly(random) / 5;
    const auto judged = judge(std::vector<double>{a, b}, limit);
    EXPECT_EQ(judged.reported(), std::abs(a - b) <= limit * (1 + 1e-9));
    EXPECT_NEAR(judged.allowed, limit, 1e-9 * limit);
    if (judged.reported()) {
      EXPECT_NEAR(judged.value, (a + b) / 2, 1e-9);
    }
  }
  EXPECT_EQ(judge(std::vector<double>{10, 12, 11}, 1.9).verdict, Verdict::agree);
  const auto three = judge(std::vector<double>{10, 13, 10.2}, 1);
  EXPECT_EQ(three.verdict, Verdict::median_taken);
  EXPECT_DOUBLE_EQ(three.value, 10.2);
}

// A rule is broken by the newest reading: it lies beyond the line itself, however many before it did.
TEST(ControlChart, TheReadingThatBreaksARuleIsBeyondItsLine) {
  std::mt19937 random(20);
  std::normal_distribution<double> drawn(0, 1.5);
  std::size_t broken = 0;
  for (int turn = 0; turn < 200; ++turn) {
    std::vector<double> readings(20);
    for (double& z : readings) z = drawn(random);
    for (const RuleSet set : {RuleSet::laboratory, RuleSet::shewhart})
      for (const auto& one : broken_rules(readings, {0, 1}, set)) {
        const auto at = one.rule.find("beyond ");
        if (at == std::string_view::npos || one.rule.find("either side") != std::string_view::npos) continue;
        ++broken;
        EXPECT_GT(std::abs(readings[one.point]), one.rule[at + 7] - '0') << one.rule;
      }
  }
  EXPECT_GT(broken, 500U);
}

}  // namespace precision_test
