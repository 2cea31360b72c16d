// How far a second opinion lies off: a share of an amount, but a plain step on a scale whose zero is
// not nothing.
#include "host/sheet/phrases.hpp"
#include "units/parse.hpp"

#include <gtest/gtest.h>

namespace phrases_test {

using namespace vatwright;

SecondOpinion off(std::string_view unit, int decimals, double here, double there) {
  return {.name = "a rule",
          .here = {unit, decimals, here},
          .there = {unit, decimals, there},
          .matters = true,
          .source = "made up"};
}

// 3.35 against 3.29 is 2 % of nothing in particular.
TEST(DifferenceTest, OfAPhIsAStep) {
  const auto words = difference(off("pH", 2, 3.29, 3.35));
  EXPECT_NE(words.find("0.06 pH units higher"), std::string::npos) << words;
  EXPECT_EQ(words.find('%'), std::string::npos) << words;
}

// The zero of the scale must not slip into a difference: 14.0 to 12.5 °C, in kelvin inside.
TEST(DifferenceTest, OfATemperatureIsInDegrees) {
  const auto words = difference(off("°C", 1, 287.15, 285.65));
  EXPECT_NE(words.find("1.5 °C lower"), std::string::npos) << words;
}

TEST(DifferenceTest, OfAStrengthOrAShareIsInPoints) {
  EXPECT_NE(difference(off("% vol", 1, 0.120, 0.126)).find("0.6 % vol higher"), std::string::npos);
  EXPECT_NE(difference(off("%", 1, 0.80, 0.84)).find("4.0 percentage points higher"), std::string::npos);
}

// What a unit is says it, not a list of units that a new row of the catalogue would have to be added to.
TEST(DifferenceTest, OfAnyScaleIsAStep) {
  for (const std::string_view unit :
       {"°F", "degF", "degC", "K", "SG", "°Oe", "°Bé", "proof", "°Brix", "Brix", "% mass"}) {
    const Unit scale = parse_unit(unit);
    const auto words = difference(off(unit, 1, scale.coherent(1.05), scale.coherent(1.55)));
    EXPECT_NE(words.find("0.5 " + std::string(unit) + " higher"), std::string::npos) << words;
  }
  EXPECT_NE(difference(off("hL", 1, 1.0, 1.5)).find("50 % more"), std::string::npos);
  EXPECT_NE(difference(off("1", 2, 1.0, 1.5)).find("50 % more"), std::string::npos);
}

TEST(DifferenceTest, OfAnAmountIsAShare) {
  EXPECT_NE(difference(off("g/L", 2, 1.0, 1.35)).find("35 % more"), std::string::npos);
  EXPECT_NE(difference(off("g/L", 2, 0, 1.35)).find("The two differ"), std::string::npos);
}

TEST(DifferenceTest, ThatDoesNotMatterIsNotSaid) {
  auto same = off("pH", 2, 3.29, 3.30);
  same.matters = false;
  EXPECT_EQ(difference(same), "");
}

}  // namespace phrases_test
