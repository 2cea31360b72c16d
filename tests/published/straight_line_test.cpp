// The straight line against the certified values of NIST StRD, linear regression, Norris (data and
// certified values from memory: that the two agree to ten digits says that both are remembered well),
// and Student's factors against the printed table (from memory).
#include "plugins/chemistry/straight_line.hpp"
#include "plugins/chemistry/extraction.hpp"

#include <gtest/gtest.h>

#include <array>
#include <cmath>

namespace vatwright {
namespace straight_line_test {

using chemistry::kernel::fit_line;
using Reading = std::pair<double, double>;

constexpr std::array norris{Reading{0.2, 0.1},     Reading{337.4, 338.8}, Reading{118.2, 118.1}, Reading{884.6, 888.0},
                            Reading{10.1, 9.2},    Reading{226.5, 228.1}, Reading{666.3, 668.5}, Reading{996.3, 998.5},
                            Reading{448.6, 449.1}, Reading{777.0, 778.9}, Reading{558.2, 559.2}, Reading{0.4, 0.3},
                            Reading{0.6, 0.1},     Reading{775.5, 778.1}, Reading{666.9, 668.8}, Reading{338.0, 339.3},
                            Reading{447.5, 448.9}, Reading{11.6, 10.8},   Reading{556.0, 557.7}, Reading{228.1, 228.3},
                            Reading{995.8, 998.0}, Reading{887.6, 888.8}, Reading{120.2, 119.6}, Reading{0.3, 0.3},
                            Reading{0.3, 0.6},     Reading{556.8, 557.6}, Reading{339.1, 339.3}, Reading{887.2, 888.0},
                            Reading{999.0, 998.5}, Reading{779.0, 778.9}, Reading{11.1, 10.2},   Reading{118.3, 117.6},
                            Reading{229.2, 228.9}, Reading{669.1, 668.4}, Reading{448.9, 449.2}, Reading{0.5, 0.2}};

// Outside check of pink.harvest: 5 values within 9 to 11 digits, from memory.
// Source: NIST StRD, linear regression, Norris.
TEST(PublishedLine, Norris) {
  const auto line = fit_line(norris);
  ASSERT_TRUE(line);
  EXPECT_NEAR(line->start, -0.262323073774029, 1e-9);
  EXPECT_NEAR(line->slope, 1.00211681802045, 1e-11);
  EXPECT_NEAR(line->scatter, 0.884796396144373, 1e-9);
  EXPECT_NEAR(std::sqrt(line->fit.covariance[0][0]), 0.232818234301152, 1e-9);
  EXPECT_NEAR(std::sqrt(line->fit.covariance[1][1]), 0.429796848199937e-3, 1e-12);
}

// The table of Student's t, two-sided 95 %.
// Outside check of pink.harvest, pink.contact: 3 values within 5e-4, from memory.
// Source: printed tables of Student's t.
TEST(PublishedLine, StudentsFactors) {
  EXPECT_NEAR(chemistry::coverage_95(1), 12.706, 5e-4);
  EXPECT_NEAR(chemistry::coverage_95(4), 2.776, 5e-4);
  EXPECT_NEAR(chemistry::coverage_95(10), 2.228, 5e-4);
}

// The interval of the line at the mean of x is t s/sqrt(n), and of one more reading t s sqrt(1 + 1/n):
// the textbook formulas, derived.
// Outside check of pink.harvest: 2 values within 1e-9, derived.
// Source: textbook formulas of the straight line.
TEST(PublishedLine, IntervalsAtTheMean) {
  double mean = 0;
  for (const auto& [x, y] : norris) mean += x / norris.size();
  const auto line = fit_line(norris);
  ASSERT_TRUE(line);
  const double t = chemistry::coverage_95(norris.size() - 2);
  const auto n = static_cast<double>(norris.size());
  EXPECT_NEAR(line->half_width(mean), t * line->scatter / std::sqrt(n), 1e-9);
  EXPECT_NEAR(line->half_width_of_reading(mean), t * line->scatter * std::sqrt(1 + 1 / n), 1e-9);
}

TEST(PublishedLine, OneDayIsNoLine) { EXPECT_FALSE(fit_line(std::array{Reading{3, 1}, Reading{3, 2}, Reading{3, 4}})); }

TEST(PublishedLine, ReadingsOnALineLeaveNoDoubt) {
  const auto line = fit_line(std::array{Reading{0, 1}, Reading{5, 3}, Reading{10, 5}});
  ASSERT_TRUE(line);
  EXPECT_NEAR(line->at(20), 9, 1e-9);
  EXPECT_NEAR(line->half_width_of_reading(20), 0, 1e-6);
}

}  // namespace straight_line_test
}  // namespace vatwright
