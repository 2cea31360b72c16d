// Property: what is printed reads back as the same quantity, within the digits that were printed.
#include "units/expect.hpp"
#include "units/print.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <random>
#include <string>
#include <vector>

namespace vatwright {
namespace round_trip_test {

constexpr int draws = 200;

// Every symbol with every prefix that it takes, and compounds that recipes use.
std::vector<std::string> all_units() {
  std::vector<std::string> units{
      "mg/L",  "g/hL",      "lb/1000 gal",          "mL/100 mL",       "meq/L", "kg/m³", "µS/cm",
      "AU/cm", "mmol/L/pH", "g/L as tartaric acid", "mg/L as nitrogen"};
  for (const auto& symbol : symbols()) {
    units.emplace_back(symbol.text);
    for (const auto& prefix : prefixes())
      if (double factor; find_symbol(std::string(prefix.text) + std::string(symbol.text), factor) == &symbol)
        units.push_back(std::string(prefix.text) + std::string(symbol.text));
  }
  return units;
}

Measured read_back(const std::string& text, const std::string& unit) {
  const Unit u = parse_unit(unit);
  return expect(parse(text), {.dimension = u.dimension, .counted = u.counted, .unit = unit}, text);
}

TEST(RoundTrip, EveryUnitWithinItsPrintedDecimals) {
  std::mt19937_64 random(20240611);
  std::uniform_real_distribution<double> number(-100, 140);  // 145 is the pole of the Baumé scale
  std::uniform_int_distribution<int> decimals(0, 6);
  for (const auto& unit : all_units()) {
    const Unit u = parse_unit(unit);
    for (int i = 0; i < draws; ++i) {
      const double n = number(random);
      const int places = decimals(random);
      const std::string text = print_coherent(u.coherent(n), u.dimension, unit, places);
      const Measured back = read_back(text, unit);
      ASSERT_EQ(back.dimension, u.dimension) << text;
      ASSERT_NEAR(u.number(back.value), n, 0.5000001 * std::pow(10.0, -places) + 1e-9) << text;
    }
  }
}

TEST(RoundTrip, UncertaintyWithinItsTwoDigits) {
  std::mt19937_64 random(7);
  std::uniform_real_distribution<double> number(1, 100), power(-3, 2);
  for (const auto& unit : all_units()) {
    const Unit u = parse_unit(unit);
    for (int i = 0; i < draws; ++i) {
      const double n = number(random), spread = std::pow(10.0, power(random));
      const std::string text = print_coherent(u.coherent(n), spread * std::abs(u.slope(n)), u.dimension, unit, 1);
      const Measured back = read_back(text, unit);
      const double back_n = u.number(back.value);
      ASSERT_NEAR(back_n, n, 0.051 * spread) << text;
      ASSERT_NEAR(back.uncertainty / std::abs(u.slope(back_n)), spread, 0.051 * spread) << text;
    }
  }
}

TEST(RoundTrip, SignificantDigits) {
  std::mt19937_64 random(11);
  std::uniform_real_distribution<double> power(-6, 6);
  for (int i = 0; i < 2000; ++i) {
    const double n = std::pow(10.0, power(random));
    for (int digits = 1; digits <= 6; ++digits) {
      const double back = parse(print_significant(n, digits)).value;
      ASSERT_NEAR(back / n, 1, 0.51 * std::pow(10.0, 1 - digits)) << n;
    }
  }
}

}  // namespace round_trip_test
}  // namespace vatwright
