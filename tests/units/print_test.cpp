// Rounding, signs, significant digits, uncertainty, and the steps of a balance.
#include "units/print.hpp"

#include "units/constants.hpp"
#include "units/parse.hpp"

#include <gtest/gtest.h>

#include <stdexcept>

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
  EXPECT_EQ(print(coherent<MassConcentration>(0.0213), "mg/L", 1), "21.3 mg/L");
  EXPECT_EQ(print(coherent<Volume>(4.8), "hL", 1), "48.0 hL");
  EXPECT_EQ(print(coherent<Strength>(0.126), "% vol", 1), "12.6 % vol");
  EXPECT_EQ(print(coherent<Ph>(3.42), "pH", 2), "3.42");
  EXPECT_EQ(print(Fraction(1.81), "1", 2), "1.81");
  EXPECT_EQ(print(coherent<Density>(1.09 * water_density_20), "SG", 4), "1.0900 SG");
  EXPECT_EQ(print(coherent<Density>(1.09 * water_density_20), "°Oe", 1), "90.0 °Oe");
  EXPECT_EQ(print(coherent<Density>(water_density_20 / 0.9), "°Bé", 1), "14.5 °Bé");
  EXPECT_EQ(print(coherent<Acidity>(13.3257), "g/L as tartaric acid", 2), "1.00 g/L as tartaric acid");
}

constexpr Dimension concentration = dimension_of<MassConcentration>();

// A concentration printed in hectolitres, a mass as a pH: the line is wrong, whatever the number is.
TEST(Print, RefusesAUnitOfAnotherDimension) {
  EXPECT_THROW((void)print(coherent<MassConcentration>(0.025), "hL", 2), std::logic_error);
  EXPECT_THROW((void)print(coherent<Mass>(3.4), "pH", 2), std::logic_error);
  EXPECT_THROW((void)print(Fraction(0.5), "% vol", 2), std::logic_error);
  EXPECT_THROW((void)print(coherent<TemperatureInterval>(4), "°C", 1), std::logic_error);  // no place on the scale
  EXPECT_THROW((void)print(coherent<Volume>(1), "fortnight", 1), std::logic_error);
  EXPECT_THROW((void)print_coherent(1, 0.1, concentration, "L", 1), std::logic_error);
  try {
    (void)print(coherent<MassConcentration>(0.025), "hL", 2);
  } catch (const std::logic_error& error) {
    EXPECT_NE(std::string_view(error.what()).find("does not go into 'hL'"), std::string_view::npos) << error.what();
  }
}

// Every unit takes what is of its dimension, and nothing else.
TEST(Print, EveryUnitTakesItsOwnDimensionAlone) {
  for (const auto& one : symbols())
    for (const auto& other : symbols()) {
      const auto attempt = [&] { return print_coherent(1, one.unit.dimension, other.text, 1); };
      if (one.unit.dimension == other.unit.dimension)
        EXPECT_NO_THROW((void)attempt()) << one.text << " in " << other.text;
      else
        EXPECT_THROW((void)attempt(), std::logic_error) << one.text << " in " << other.text;
    }
}

// JCGM 100, 7.2.6: the uncertainty with at most two significant digits, the estimate to match.
TEST(Print, UncertaintyHasTwoDigitsAndCutsTheValue) {
  EXPECT_EQ(print_coherent(0.02134, 0.0029, concentration, "mg/L", 3), "21.3 ± 2.9 mg/L");
  EXPECT_EQ(print_coherent(3.4213, 0.021, dimension_of<Ph>(), "pH", 1), "3.421 ± 0.021");
  EXPECT_EQ(print_coherent(0.1234, 0.0123, concentration, "mg/L", 1), "123 ± 12 mg/L");
  EXPECT_EQ(print_coherent(1.2345, 0.123, concentration, "mg/L", 1), "1230 ± 120 mg/L");
  EXPECT_EQ(print_coherent(0.0213, 0.000996, concentration, "mg/L", 1), "21.3 ± 1.0 mg/L");
  EXPECT_EQ(print_coherent(293.15, 0.5, dimension_of<Temperature>(), "°F", 1), "68.00 ± 0.90 °F");
}

// The same beside a number that keeps the decimals it is weighed or read with.
TEST(PrintSpread, HasTheDecimalsOfItsNumberAndTwoDigitsAtMost) {
  EXPECT_EQ(print_spread(1.124, 3), "1.1");
  EXPECT_EQ(print_spread(0.0996, 3), "0.10");
  EXPECT_EQ(print_spread(0.0714, 2), "0.07");
  EXPECT_EQ(print_spread(6.253, 1), "6.3");
  EXPECT_EQ(print_spread(123.4, 1), "120");
  EXPECT_EQ(print_spread(0.004, 2), "0.00");
  EXPECT_EQ(print_spread(0, 1), "0.0");
}

TEST(Print, WithoutAnUncertaintyFallsBackToItsDecimals) {
  EXPECT_EQ(print_coherent(0.02134, 0, concentration, "mg/L", 1), "21.3 mg/L");
  EXPECT_EQ(print_coherent(0.02134, -1, concentration, "mg/L", 1), "21.3 mg/L");
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
