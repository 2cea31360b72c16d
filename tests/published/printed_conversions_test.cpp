// Conversions that a law or a standard prints beside each other, read by our parser.
#include "units/parse.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <string>

namespace vatwright {
namespace printed_conversions_test {

double in(const char* text, const char* unit) {
  const Unit u = parse_unit(unit);
  const Measured m = parse(text);
  EXPECT_EQ(m.dimension, u.dimension) << text << " in " << unit;
  return u.number(m.value);
}

struct Printed {
  const char* customary;
  double metric;
  const char* unit;
  double last_digit;  // of the printed metric figure
};

// 27 CFR 24.246, materials authorized for the treatment of wine and juice (2015 annual edition): the
// table prints each limit in pounds per 1000 gallons and in grams per litre.
constexpr Printed rows[] = {
    {"60 lb/1000 gal", 7.19, "g/L", 0.01},   {"35 lb/1000 gal", 4.19, "g/L", 0.01},
    {"30 lb/1000 gal", 3.59, "g/L", 0.01},   {"25 lb/1000 gal", 3.0, "g/L", 0.1},
    {"20 lb/1000 gal", 2.4, "g/L", 0.1},     {"10 lb/1000 gal", 1.2, "g/L", 0.1},
    {"8 lb/1000 gal", 0.96, "g/L", 0.01},    {"5.8 lb/1000 gal", 0.7, "g/L", 0.1},
    {"3 lb/1000 gal", 0.36, "g/L", 0.01},    {"2 lb/1000 gal", 0.24, "g/L", 0.01},
    {"0.5 lb/1000 gal", 0.06, "g/L", 0.01},  {"0.15 lb/1000 gal", 0.018, "g/L", 0.001},
    {"0.005 lb/1000 gal", 0.6, "mg/L", 0.1}, {"3 oz/1000 gal", 0.022, "g/L", 0.001},
};

// Outside check of units: 14 values within half of the last digit, seen.
// Source: 27 CFR 24.246 (2015).
TEST(PrintedConversions, Cfr24_246PoundsPerThousandGallons) {
  for (const auto& row : rows)
    EXPECT_LE(std::abs(in(row.customary, row.unit) - row.metric), 0.5 * row.last_digit + 1e-12) << row.customary;
}

// OIV Code of Oenological Practices, II.2.1.3.1.1 and II.3.1.1.1, chemical acidification: "54 meq/L
// (4 g/L expressed as tartaric acid)". The two differ by 1.3 %: the print rounds.
// Outside check of units, acid.titration: 1 value within 1.5 %, the rounding of the print, seen.
// Source: OIV Code of Oenological Practices.
TEST(PrintedConversions, OivAcidificationLimit) { EXPECT_NEAR(in("54 meq/L", "g/L as tartaric acid") / 4, 1, 0.015); }

// OIV-MA-C1-01, maximum acceptable limits: volatile acidity "20 meq/L (1.2 g/L as acetic acid)".
// Outside check of units, acid.titration: 1 value within 0.05 g/L, seen.
// Source: OIV-MA-C1-01 (2019).
TEST(PrintedConversions, OivVolatileAcidityLimit) { EXPECT_NEAR(in("20 meq/L", "g/L as acetic acid"), 1.2, 0.05); }

// Regulation (EU) 1308/2013, annex VII, part II, wine (place from memory): total acidity not below
// "3.5 g/L or 46.6 meq/L, expressed as tartaric acid".
// Outside check of units, acid.titration: 1 value within 0.1 %, seen.
// Source: Regulation (EU) 1308/2013, Annex VII, Part II.
TEST(PrintedConversions, EuLeastTotalAcidity) { EXPECT_NEAR(in("46.6 meq/L", "g/L as tartaric acid") / 3.5, 1, 0.001); }

// OIV-MA-AS313-01, calculation (from memory): from A meq/L, 0.075 A g/L of tartaric acid and 0.049 A
// g/L of sulfuric acid.
// Outside check of units, acid.titration: 2 values within 0.0005 g/L, from memory.
// Source: OIV-MA-AS313-01.
TEST(PrintedConversions, OivTotalAcidityFactors) {
  EXPECT_NEAR(in("1 meq/L", "g/L as tartaric acid"), 0.075, 0.0005);
  EXPECT_NEAR(in("1 meq/L", "g/L as sulfuric acid"), 0.049, 0.0005);
}

// OIV-MA-AS313-02, calculation (from memory): 5 V meq/L are 0.300 V g/L of acetic acid and 0.245 V
// g/L of sulfuric acid.
// Outside check of units, acid.titration: 2 values within 0.0005 g/L, from memory.
// Source: OIV-MA-AS313-02.
TEST(PrintedConversions, OivVolatileAcidityFactors) {
  EXPECT_NEAR(in("5 meq/L", "g/L as acetic acid"), 0.300, 0.0005);
  EXPECT_NEAR(in("5 meq/L", "g/L as sulfuric acid"), 0.245, 0.0005);
}

// Ribéreau-Gayon et al., Handbook of Enology vol. 2, chapter 1, deacidification: 1 g/L of calcium
// carbonate takes away 0.98 g/L of acidity as sulfuric acid.
// Outside check of units, acid.reduction: 1 value within 0.005 g/L, seen.
// Source: Handbook of Enology, volume 2, chapter 1.
TEST(PrintedConversions, CalciumCarbonateAgainstSulfuricAcid) {
  EXPECT_NEAR(in("1 g/L as calcium carbonate", "g/L as sulfuric acid"), 0.98, 0.005);
}

}  // namespace printed_conversions_test
}  // namespace vatwright
