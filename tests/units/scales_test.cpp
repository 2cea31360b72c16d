// Hydrometer scales and temperatures: numbers that are not a plain multiple of a unit.
#include "units/constants.hpp"
#include "units/expect.hpp"
#include "units/print.hpp"

#include <gtest/gtest.h>

namespace vatwright {
namespace scales_test {

TEST(HydrometerScales, WaterIsTheirCommonZero) {
  for (const char* text : {"1 SG", "0 °Oe", "0 °Bé"}) {
    const auto m = parse(text);
    EXPECT_EQ(m.dimension, dimension_of<Density>()) << text;
    EXPECT_DOUBLE_EQ(m.value, water_density_20) << text;
  }
}

TEST(HydrometerScales, ByTheirDefinitions) {
  EXPECT_DOUBLE_EQ(parse("1.090 SG").value, 1.090 * 998.203);
  EXPECT_NEAR(parse("90 °Oe").value, 1.090 * 998.203, 1e-9);
  // d = 145 / (145 - 14.5) = 1 / 0.9
  EXPECT_NEAR(parse("14.5 °Bé").value, 998.203 / 0.9, 1e-9);
  EXPECT_NEAR(parse("-8 °Oe").value, 0.992 * 998.203, 1e-9);
}

TEST(HydrometerScales, NumberAndValueInvertEachOther) {
  for (const char* scale : {"SG", "°Oe", "°Bé"}) {
    const Unit unit = parse_unit(scale);
    for (double density = 950; density <= 1400; density += 7.3)
      EXPECT_NEAR(unit.coherent(unit.number(density)), density, 1e-9) << scale;
  }
}

TEST(HydrometerScales, SlopeIsTheDerivative) {
  for (const char* scale : {"SG", "°Oe", "°Bé", "°C", "°F", "mg/L"}) {
    const Unit unit = parse_unit(scale);
    const double n = 1.08, h = 1e-4;
    const double slope = (unit.coherent(n + h) - unit.coherent(n - h)) / (2 * h);
    EXPECT_NEAR(unit.slope(n) / slope, 1, 1e-6) << scale;
  }
}

TEST(HydrometerScales, UncertaintyFollowsTheSlope) {
  EXPECT_NEAR(parse("1.0900 ± 0.0005 SG").uncertainty, 0.0005 * 998.203, 1e-9);
  EXPECT_NEAR(parse("90.0 ± 0.5 °Oe").uncertainty, 0.0005 * 998.203, 1e-9);
  EXPECT_NEAR(parse("14.5 ± 0.1 °Bé").uncertainty, 0.1 * 998.203 * 145 / (130.5 * 130.5), 1e-9);
}

TEST(Temperatures, AsPointsOnTheirScale) {
  const std::pair<const char*, double> rows[] = {{"0 °C", 273.15},  {"100 °C", 373.15}, {"20 degC", 293.15},
                                                 {"32 °F", 273.15}, {"212 °F", 373.15}, {"-40 degF", 233.15},
                                                 {"16 K", 16},      {"-4 °C", 269.15}};
  for (const auto& [text, kelvins] : rows) {
    const auto m = parse(text);
    EXPECT_NEAR(m.value, kelvins, 1e-9) << text;
    EXPECT_EQ(m.dimension, dimension_of<Temperature>()) << text;
    EXPECT_TRUE(m.dimension.point) << text;
  }
}

TEST(Temperatures, AsDifferencesWhereADifferenceIsDue) {
  const Expected interval{.dimension = dimension_of<TemperatureInterval>(), .unit = "K"};
  EXPECT_NEAR(expect(parse("5 °C"), interval, "5 °C").value, 5, 1e-12);
  EXPECT_NEAR(expect(parse("9 °F"), interval, "9 °F").value, 5, 1e-12);
  EXPECT_NEAR(expect(parse("5 K"), interval, "5 K").value, 5, 1e-12);
}

TEST(Temperatures, KeepPointsAndDifferencesApart) {
  const Expected point{.dimension = dimension_of<Temperature>(), .unit = "°C"};
  EXPECT_NEAR(expect(parse("5 °C"), point, "5 °C").value, 278.15, 1e-12);
  EXPECT_NE(dimension_of<Temperature>(), dimension_of<TemperatureInterval>());
}

TEST(Temperatures, UncertaintyIsADifference) {
  EXPECT_DOUBLE_EQ(parse("16 ± 0.5 °C").uncertainty, 0.5);
  EXPECT_NEAR(parse("60 ± 0.9 °F").uncertainty, 0.5, 1e-12);
}

TEST(Temperatures, KelvinMayStandInALargerUnit) { EXPECT_DOUBLE_EQ(parse("2 K/h").value, 2.0 / 3600); }

TEST(Temperatures, CelsiusAndBack) {
  EXPECT_DOUBLE_EQ(celsius(20).value(), 293.15);
  EXPECT_NEAR(degrees_celsius(celsius(-4)), -4, 1e-12);
  EXPECT_EQ(print(celsius(16), "°C", 1), "16.0 °C");
  EXPECT_EQ(print(celsius(-4), "°F", 1), "24.8 °F");
}

}  // namespace scales_test
}  // namespace vatwright
