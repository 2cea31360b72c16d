// Rounding, signs, significant digits, uncertainty, and the steps of a balance.
#include "units/print.hpp"

#include "units/constants.hpp"
#include "units/parse.hpp"

#include <gtest/gtest.h>

namespace vatwright {
namespace print_test {

TEST(PrintNumber, Rounds) {
  EXPECT_EQ(print_number(21.34, 1), "21.3");
  EXPECT_EQ(print_number(21.36, 1), "21.4");
  EXPECT_EQ(print_number(21, 2), "21.00");
  EXPECT_EQ(print_number(177.4, 0), "177");
  EXPECT_EQ(print_number(1234, -2), "1200");
  EXPECT_EQ(print_number(1250.1, -2), "1300");
}

TEST(PrintNumber, SignsOnlyWhatIsNotZero) {
  EXPECT_EQ(print_number(-3.25, 1), "-3.2");
  EXPECT_EQ(print_number(-0.04, 1), "0.0");
  EXPECT_EQ(print_number(-0.0, 0), "0");
  EXPECT_EQ(print_number(-0.06, 1), "-0.1");
  EXPECT_EQ(print_number(-40, -2), "0");
}

TEST(PrintSignificant, KeepsItsDigits) {
  EXPECT_EQ(print_significant(0.5, 3), "0.500");
  EXPECT_EQ(print_significant(12.345, 3), "12.3");
  EXPECT_EQ(print_significant(1234, 2), "1200");
  EXPECT_EQ(print_significant(9.996, 3), "10.0");
  EXPECT_EQ(print_significant(999.6, 3), "1000");
  EXPECT_EQ(print_significant(0.09996, 3), "0.100");
  EXPECT_EQ(print_significant(-0.0123, 2), "-0.012");
  EXPECT_EQ(print_significant(0, 3), "0.00");
}

TEST(Print, WritesTheUnitThatWasAskedFor) {
  EXPECT_EQ(print(0.0213, "mg/L", 1), "21.3 mg/L");
  EXPECT_EQ(print(4.8, "hL", 1), "48.0 hL");
  EXPECT_EQ(print(0.126, "% vol", 1), "12.6 % vol");
  EXPECT_EQ(print(3.42, "pH", 2), "3.42");
  EXPECT_EQ(print(1.81, "1", 2), "1.81");
  EXPECT_EQ(print(1.09 * water_density_20, "SG", 4), "1.0900 SG");
  EXPECT_EQ(print(1.09 * water_density_20, "°Oe", 1), "90.0 °Oe");
  EXPECT_EQ(print(water_density_20 / 0.9, "°Bé", 1), "14.5 °Bé");
  EXPECT_EQ(print(13.3257, "g/L as tartaric acid", 2), "1.00 g/L as tartaric acid");
}

// JCGM 100, 7.2.6: the uncertainty with at most two significant digits, the estimate to match.
TEST(Print, UncertaintyHasTwoDigitsAndCutsTheValue) {
  EXPECT_EQ(print(0.02134, 0.0029, "mg/L", 3), "21.3 ± 2.9 mg/L");
  EXPECT_EQ(print(3.4213, 0.021, "pH", 1), "3.421 ± 0.021");
  EXPECT_EQ(print(0.1234, 0.0123, "mg/L", 1), "123 ± 12 mg/L");
  EXPECT_EQ(print(1.2345, 0.123, "mg/L", 1), "1230 ± 120 mg/L");
  EXPECT_EQ(print(0.0213, 0.000996, "mg/L", 1), "21.3 ± 1.0 mg/L");
  EXPECT_EQ(print(293.15, 0.5, "°F", 1), "68.00 ± 0.90 °F");
}

TEST(Print, WithoutAnUncertaintyFallsBackToItsDecimals) {
  EXPECT_EQ(print(0.02134, 0, "mg/L", 1), "21.3 mg/L");
  EXPECT_EQ(print(0.02134, -1, "mg/L", 1), "21.3 mg/L");
}

void shows(const Shown& shown, double number, std::string_view unit) {
  EXPECT_NEAR(shown.number, number, 1e-9);
  EXPECT_EQ(shown.unit, unit);
}

TEST(Readable, KeepsTheFigureHandy) {
  shows(readable(3e-4 * gram), 0.3, "mg");
  shows(readable(0.3 * gram), 300, "mg");
  shows(readable(177.0 * gram), 177, "g");
  shows(readable(999.99 * gram), 0.99999, "kg");
  shows(readable(12.5 * kilogram), 12.5, "kg");
  shows(readable(0.0 * gram), 0, "mg");
  shows(readable(25.0 * millilitre), 25, "mL");
  shows(readable(48.0 * hectolitre), 48, "hL");
  shows(readable(225.0 * litre), 225, "L");
  shows(readable(-225.0 * litre), -225, "L");
}

TEST(ToBalance, HasAStepForEachLoad) {
  const std::pair<double, double> grams[] = {{1.2345, 1.23},  {19.994, 19.99}, {20.04, 20.0},  {177.26, 177.3},
                                             {234.4, 234},    {2344, 2340},    {29996, 30000}, {30060, 30100},
                                             {177.04, 177.0}, {0, 0},          {0.004, 0}};
  for (const auto& [load, shown] : grams) EXPECT_NEAR(to_balance(load * gram).value(), shown * 1e-3, 1e-12) << load;
}

TEST(ToMeasure, KeepsThreeDigits) {
  EXPECT_NEAR(to_measure(123.4 * millilitre).value(), 123e-6, 1e-15);
  EXPECT_NEAR(to_measure(1234.0 * litre).value(), 1.23, 1e-12);
  EXPECT_NEAR(to_measure(0.012345 * millilitre).value(), 0.0123e-6, 1e-18);
  EXPECT_EQ(to_measure(0.0 * litre).value(), 0);
}

}  // namespace print_test
}  // namespace vatwright
