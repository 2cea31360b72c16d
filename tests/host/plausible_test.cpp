// What a plugin says of itself agrees with its own figures, or is not shown: drawn over relations, sizes and decimals.
#include "host/bench/plausible.hpp"

#include "units/constants.hpp"
#include "units/measures.hpp"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <random>

namespace vatwright {
namespace plausible_test {

Check check_of(std::string_view relation, bool holds, double value, double limit, int decimals) {
  Check check;
  check.name = "free SO2";
  check.holds = holds;
  check.value = figure(value * milligram_per_litre, "mg/L", decimals);
  check.limit = figure(limit * milligram_per_litre, "mg/L", decimals);
  check.relation = relation;
  return check;
}

class Drawn {
 public:
  double between(double low, double high) { return std::uniform_real_distribution(low, high)(random_); }
  int whole(int low, int high) { return std::uniform_int_distribution(low, high)(random_); }

 private:
  std::mt19937 random_{14};
};

// Two of the last figure shown to either side are no rounding any more.
TEST(PlausibleTest, ACheckHoldsWhereItsFiguresDo) {
  Drawn drawn;
  for (int turn = 0; turn < 2000; ++turn) {
    const int decimals = drawn.whole(0, 3);
    const double step = std::pow(10.0, -decimals), limit = drawn.between(1, 300);
    const double away = step * drawn.between(2, 40);
    for (const std::string_view relation : {"at most", "at least", "below"})
      for (const double value : {limit - away, limit + away})
        for (const bool holds : {true, false}) {
          const bool does = relation == "at least" ? value > limit : value < limit;
          const auto fault = fault_in(check_of(relation, holds, value, limit, decimals));
          EXPECT_EQ(fault.empty(), does == holds)
              << fmt::format("{} {} {} by {} decimals: {}", value, relation, limit, decimals, fault);
        }
  }
}

TEST(PlausibleTest, RoundingIsNoFault) {
  for (const std::string_view relation : {"at most", "at least", "below"})
    for (const bool holds : {true, false})
      for (const double value : {29.6, 30.0, 30.4})
        EXPECT_EQ(fault_in(check_of(relation, holds, value, 30, 0)), "") << value << relation << holds;
}

// A dose that was rounded may leave the target by a tenth, or by five of the last figure.
TEST(PlausibleTest, WhatIsToBeEqualIsNearIt) {
  EXPECT_EQ(fault_in(check_of("equals", true, 32.9, 30, 0)), "");
  EXPECT_EQ(fault_in(check_of("equals", true, 4.0, 8.0, 0)), "");
  EXPECT_NE(fault_in(check_of("equals", true, 36, 30, 1)), "");
  EXPECT_NE(fault_in(check_of("equals", true, 24, 30, 1)), "");
  EXPECT_EQ(fault_in(check_of("equals", false, 36, 30, 1)), "");  // it may fail for a reason of its own
}

// The words show digits that the sheet rounds away: else they would say that 30.0 is not below 30.0.
TEST(PlausibleTest, TheWordsShowWhatDiffers) {
  const auto fault = fault_in(check_of("at most", true, 30.24, 30, 1));
  EXPECT_NE(fault.find("30.24"), std::string::npos) << fault;
  EXPECT_NE(fault.find("not at most"), std::string::npos) << fault;
}

TEST(PlausibleTest, FiguresOfOneKindAreHeldTogether) {
  Check check = check_of("at most", true, 20, 30, 0);
  check.limit = figure(30.0 * litre, "L", 0);
  EXPECT_NE(fault_in(check), "");
  EXPECT_EQ(fault_in(check_of("at most", true, 20, 30, 0)), "");
  EXPECT_NE(fault_in(check_of("about", true, 20, 30, 0)), "");
}

}  // namespace plausible_test
}  // namespace vatwright
