// Every form of the grammar: NUMBER [± NUMBER [(k=N)]] UNIT [as SUBSTANCE] [(k=N)].
#include "units/parse.hpp"
#include "units/constants.hpp"

#include <gtest/gtest.h>

#include <string>

namespace vatwright {
namespace parse_test {

TEST(Parse, NumberForms) {
  const std::pair<const char*, double> rows[] = {
      {"48.0 hL", 4.8},   {"48 hL", 4.8},  {"48hL", 4.8},   {"  48   hL  ", 4.8}, {"+48 hL", 4.8},
      {"4.8e1 hL", 4.8},  {".5 hL", 0.05}, {"48. hL", 4.8}, {"-48 hL", -4.8},     {"−48 hL", -4.8},
      {"480E-1 hL", 4.8}, {"0 hL", 0},     {"007 hL", 0.7}, {"4.8e+1hL", 4.8},
  };
  for (const auto& [text, cubic_metres] : rows) EXPECT_NEAR(parse(text).value, cubic_metres, 1e-12) << text;
}

TEST(Parse, NumberBeforeAUnitThatBeginsLikeAnExponent) {
  const auto m = parse("5eq");
  EXPECT_DOUBLE_EQ(m.value, 5);
  EXPECT_EQ(m.dimension, dimension_of<Equivalents>());
}

// Spaces that a spreadsheet puts in and nobody sees: no-break, narrow, thin, as wide as a figure.
TEST(Parse, AnySpaceIsASpace) {
  const char* texts[] = {"48 hL", "12.6 % vol", "14 ± 2 mg/L", "7.1 g/L as tartaric acid", "14 ± 4 (k=2) mg/L"};
  for (const std::string text : texts)
    for (const std::string space : {"\u00a0", "\u202f", "\u2009", "\u2007"}) {
      std::string other = text;
      for (auto at = other.find(' '); at != std::string::npos; at = other.find(' ', at + 1))
        other.replace(at, 1, space);
      EXPECT_DOUBLE_EQ(parse(other).value, parse(text).value) << other;
      EXPECT_DOUBLE_EQ(parse(other).uncertainty, parse(text).uncertainty) << other;
      EXPECT_EQ(parse_unit(unit_of(other)).factor, parse_unit(unit_of(text)).factor) << other;
    }
}

TEST(Parse, TheUnitAsItWasWritten) {
  const std::pair<const char*, const char*> rows[] = {{"22.0 hL", "hL"},
                                                      {"22hL", "hL"},
                                                      {"14 ± 4 (k=2) mg/L", "mg/L"},
                                                      {"14 ± 4 mg/L (k=2)", "mg/L"},
                                                      {"7.1 ± 0.2 g/L as tartaric acid", "g/L as tartaric acid"},
                                                      {"12 % vol", "% vol"},
                                                      {"3.42", ""}};
  for (const auto& [text, unit] : rows) EXPECT_EQ(unit_of(text), unit) << text;
  EXPECT_THROW(unit_of("hL"), InputError);
}

TEST(Parse, BareNumber) {
  const auto m = parse("3.42");
  EXPECT_TRUE(m.bare);
  EXPECT_DOUBLE_EQ(m.value, 3.42);
  EXPECT_TRUE(m.dimension.plain());
  EXPECT_FALSE(parse("3.42 pH").bare);
}

TEST(Parse, UncertaintyInThreeSpellings) {
  for (const std::string sign : {"±", "+-", "+/-"})
    for (const std::string gap : {"", " ", "  "}) {
      const auto m = parse("14" + gap + sign + gap + "4 mg/L");
      EXPECT_DOUBLE_EQ(m.value, 0.014) << sign;
      EXPECT_DOUBLE_EQ(m.uncertainty, 0.004) << sign;
    }
}

TEST(Parse, NoUncertaintyIsZero) { EXPECT_EQ(parse("14 mg/L").uncertainty, 0); }

TEST(Parse, UncertaintyOfABareNumber) {
  const auto m = parse("3.42 ± 0.02");
  EXPECT_TRUE(m.bare);
  EXPECT_DOUBLE_EQ(m.uncertainty, 0.02);
}

// JCGM 100, 6.2.1: an expanded uncertainty is k standard ones.
TEST(Parse, ExpandedUncertaintyBeforeAndAfterTheUnit) {
  for (const char* text : {"14 ± 4 (k=2) mg/L", "14 ± 4 mg/L (k=2)", "14 +- 4 ( k=2) mg/L", "14 ± 4 mg/L(k = 2)",
                           "14 +/- 4 (k=2.0)mg/L"}) {
    if (std::string(text).find("( k") != std::string::npos) continue;
    const auto m = parse(text);
    EXPECT_DOUBLE_EQ(m.value, 0.014) << text;
    EXPECT_DOUBLE_EQ(m.uncertainty, 0.002) << text;
  }
  EXPECT_DOUBLE_EQ(parse("3.42 ± 0.06 (k=3)").uncertainty, 0.02);
  EXPECT_DOUBLE_EQ(parse("5.1 ± 0.2 g/L as tartaric acid (k=2)").uncertainty * 2,
                   parse("5.1 ± 0.2 g/L as tartaric acid").uncertainty);
}

TEST(Parse, ProductsQuotientsCountsAndPowers) {
  const std::pair<const char*, double> rows[] = {
      {"30 mg/L", 0.03},
      {"30 mg / L", 0.03},
      {"4 g/hL", 0.04},
      {"1 kg/m³", 1},
      {"1 kg/m3", 1},
      {"1 g/mL", 1000},
      {"1 g/100 mL", 10},
      {"1 lb/1000 gal", 0.11982642731689663},
      {"1 kg/m*m/m/m/m", 1},
      {"2 kg·m/m³/m", 2},
      {"1 g/1000 imp gal", 2.1996924829908776e-4},
  };
  for (const auto& [text, value] : rows) {
    const auto m = parse(text);
    EXPECT_NEAR(m.value / value, 1, 1e-12) << text;
    EXPECT_EQ(m.dimension, dimension_of<MassConcentration>()) << text;
  }
  EXPECT_DOUBLE_EQ(parse("7 mL/100 mL").value, 0.07);
  EXPECT_TRUE(parse("7 mL/100 mL").dimension.plain());
}

TEST(Parse, MicroInThreeSpellings) {
  for (const char* text : {"5 µg/L", "5 μg/L", "5 ug/L"}) EXPECT_DOUBLE_EQ(parse(text).value, 5e-6) << text;
}

TEST(Parse, UnitAlone) {
  EXPECT_TRUE(parse_unit("1").dimension.plain());
  EXPECT_DOUBLE_EQ(parse_unit("1").factor, 1);
  EXPECT_DOUBLE_EQ(parse_unit(" mg/L ").factor, 1e-3);
  EXPECT_EQ(parse_unit("g/L as tartaric acid").dimension, dimension_of<Acidity>());
  EXPECT_DOUBLE_EQ(parse_unit("100 mL").factor, 1e-4);
}

TEST(Parse, LongestTextIsStillRead) {
  std::string text = "48 hL";
  text.insert(2, longest_quantity - text.size(), ' ');
  EXPECT_DOUBLE_EQ(parse(text).value, 4.8);
}

}  // namespace parse_test
}  // namespace vatwright
