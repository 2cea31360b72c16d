// What is refused: the words, the hint and the place that a person is shown.
#include "units/expect.hpp"

#include <gtest/gtest.h>

#include <functional>
#include <string>

namespace vatwright {
namespace parse_errors_test {

using testing::AssertionResult;

AssertionResult holds(const std::string& text, const std::string& part) {
  if (text.find(part) != std::string::npos) return testing::AssertionSuccess();
  return testing::AssertionFailure() << "no \"" << part << "\" in \"" << text << '"';
}

void refuses(const std::function<void()>& reading, const std::string& text, const std::string& what,
             const std::string& hint, std::size_t offset) {
  SCOPED_TRACE(text);
  try {
    reading();
  } catch (const InputError& e) {
    EXPECT_TRUE(holds(e.what(), what));
    EXPECT_TRUE(holds(e.hint(), hint));
    EXPECT_EQ(e.offset(), offset) << e.what();
    return;
  }
  ADD_FAILURE() << "was taken";
}

struct Row {
  const char* text;
  const char* what;
  const char* hint;
  std::size_t offset;
};

void refuses_each(std::span<const Row> rows) {
  for (const auto& row : rows) refuses([&] { parse(row.text); }, row.text, row.what, row.hint, row.offset);
}

TEST(ParseErrors, NoNumber) {
  const Row rows[] = {
      {"", "no number", "30 mg/L", 0},
      {"   ", "no number", "30 mg/L", 3},
      {"hL", "no number at the start of 'hL'", "", 0},
      {"  mg/L", "no number", "", 2},
      {"inf hL", "no number", "", 0},
      {"nan", "no number", "", 0},
      {"NaN mg/L", "no number", "", 0},
      {"infinity", "no number", "", 0},
      {".inf", "no number", "", 0},
      {"± 2 mg/L", "no number", "", 0},
      {"14 ± mg/L", "no number", "", 6},
      {"14 ± inf mg/L", "no number", "", 6},
      {"+-5 mg/L", "no number", "", 0},
      {"−-5 mg/L", "no number", "", 0},
      {"--5 mg/L", "no number", "", 0},
      {"\xff\xfe", "no number", "", 0},
  };
  refuses_each(rows);
}

// What is proposed in place of a bound or a span is half of it, or its middle, ± its width over √12.
TEST(ParseErrors, ResultsThatAreNoFigure) {
  const Row rows[] = {
      {"<5 mg/L", "'<5 mg/L' is a bound", "'2.5 ± 1.4 mg/L' (common practice, no source), or leave it out", 0},
      {" ≤ 0.30 g/L as acetic acid", "is a bound", "'0.150 ± 0.087 g/L as acetic acid'", 1},
      {"<= 10", "is a bound", "'5.0 ± 2.9'", 0},
      {"< 5,5 mg/L", "is a bound", "write the figure to reckon with, or leave it out", 0},
      {"<LOD", "is a bound", "write the figure to reckon with, or leave it out", 0},
      {">200 NTU", "is a bound", "write the figure to reckon with, or leave it out", 0},
      {"5-7 mg/L", "'5-7 mg/L' is a span", "'6.00 ± 0.58 mg/L'; as a bound it is '5 to 7 mg/L'", 0},
      {"5 – 7 mg/L", "is a span", "'6.00 ± 0.58 mg/L'", 0},
      {"n.d.", "no number", "leave out what was not measured, and for what was not found write half", 0},
      {"trace", "no number", "'2.5 ± 1.4' where it is 5; common practice, no source", 0},
      {"7-5 mg/L", "unknown unit '-5 mg'", "", 1},
      {"2026-08-20", "unknown unit '-08-20'", "", 4},
  };
  refuses_each(rows);
}

TEST(ParseErrors, NumbersBeyondReach) {
  const Row rows[] = {
      {"1e999 hL", "too large or too small", "check the figure", 0},
      {"1e-999 hL", "too large or too small", "check the figure", 0},
      {"-inf hL", "no number", "", 0},
      {"5 ± 1e999 hL", "too large or too small", "", 5},
      {"1e308 t", "too large", "check the figure", 0},
      {"145 °Bé", "too large", "", 0},
  };
  refuses_each(rows);
}

TEST(ParseErrors, DecimalComma) {
  const Row rows[] = {
      {"5,1 g/L", "a decimal comma", "decimal point", 1},
      {"12,600 L", "a decimal comma", "decimal point", 2},
      {"3.42 ± 0,02", "a decimal comma", "decimal point", 9},
      {"14 ± 4 mg/L (k=2,0)", "a decimal comma", "decimal point", 17},
  };
  refuses_each(rows);
}

TEST(ParseErrors, ThousandsWithASpace) {
  const Row rows[] = {
      {"12 100 L", "a second number", "thousands without a space", 3},
      {"1 000 L", "a second number", "thousands without a space", 2},
      {"5 1", "a second number", "", 2},
      {"5 mg/L 3", "unknown unit 'L 3'", "", 5},
  };
  refuses_each(rows);
}

TEST(ParseErrors, UnitsThatDoNotSayEnough) {
  const Row rows[] = {
      {"30 ppm", "by mass or by volume", "of must or wine write mg/L", 3},
      {"30 ppb", "by mass or by volume", "of must or wine write µg/L", 3},
      {"12 % v/v", "not a unit here", "'% vol'", 3},
      {"12 %vol", "not a unit here", "with a space", 3},
      {"12 vol%", "unknown unit", "'% vol'", 3},
      {"12 % ABV", "unknown unit", "'% vol'", 3},
      {"12 ABV", "unknown unit", "'% vol'", 3},
      {"20 % w/w", "not a unit here", "'% mass'", 3},
      {"20 % w/v", "not a unit here", "10 g/L", 3},
      {"5 % m/v", "not a unit here", "10 g/L", 2},
      {"0.02 N", "a normality", "0.02 N iodine is 0.01 mol/L of I2", 5},
      {"0.1 normal", "a normality", "0.1 N sodium hydroxide is 0.1 mol/L", 4},
      {"16 C", "coulomb", "°C", 3},
      {"60 F", "farad", "°F", 3},
  };
  refuses_each(rows);
}

TEST(ParseErrors, UnknownUnitsNameTheNearest) {
  const Row rows[] = {
      {"5 Gal", "unknown unit 'Gal'", "'gal'", 2},
      {"5 mg/Ltr", "unknown unit 'Ltr'", "", 5},
      {"5 NTUs", "unknown unit 'NTUs'", "'NTU'", 2},
      {"5 MG/L", "unknown unit 'MG'", "'mg'", 2},
      {"5 short tom", "unknown unit 'short tom'", "'short ton'", 2},
      {"5 kpa", "unknown unit 'kpa'", "'kPa'", 2},
      {"22 °brix", "unknown unit '°brix'", "'°Brix'", 3},
      {"5 kgal", "unknown unit 'kgal'", "'gal'", 2},
      {"5 furlongs", "unknown unit 'furlongs'", "'vatwright units'", 2},
      {"5 mg//L", "a unit is missing", "mg/L", 5},
      {"5 mg/", "a unit is missing", "mg/L", 5},
      {"5 /L", "a unit is missing", "mg/L", 2},
      {"14 mg/L (k=2)", "unknown unit 'L (k=2)'", "", 6},
  };
  refuses_each(rows);
}

TEST(ParseErrors, UncertaintyNotAboveZero) {
  const Row rows[] = {
      {"14 ± 0 mg/L", "not above zero", "leave it out", 6},
      {"14 ± -2 mg/L", "not above zero", "leave it out", 6},
      {"14 ± 4 (k=0) mg/L", "'(k=2)'", "", 10},
      {"14 ± 4 (k=-2) mg/L", "'(k=2)'", "", 10},
      {"14 ± 4 (k 2) mg/L", "'(k=2)'", "", 11},
      {"14 ± 4 (k=2 mg/L", "'(k=2)'", "", 10},
      {"14 ± 4 mg/L (k=0)", "'(k=2)'", "", 15},
      {"14 ± 4 mg/L (k=2) x", "unexpected 'x'", "", 19},
      {"14 ± 4 (k=2) mg/L (k=2)", "unknown unit", "", 17},
  };
  refuses_each(rows);
}

TEST(ParseErrors, CountsInAUnit) {
  const Row rows[] = {
      {"5 mL/0 mL", "a count of zero", "", 5},
      {"5 mg/1000000000000 L", "too long", "", 5},
      {"5 mg/100", "second number", "", 5},
  };
  refuses_each(rows);
}

TEST(ParseErrors, UnitOfTooManyParts) {
  const std::string text = "1 m/m/m/m/m/m/m/m/m";
  refuses([&] { parse(text); }, text, "too many parts", "", 18);
}

TEST(ParseErrors, ScalesInALargerUnit) {
  const Row rows[] = {
      {"5 °C/h", "'°C' cannot be part", "write K", 2},   {"5 kg/°F", "'°F' cannot be part", "write K", 5},
      {"5 °Oe/d", "'°Oe' cannot be part", "kg/m³", 2},   {"5 SG/d", "'SG' cannot be part", "kg/m³", 2},
      {"5 g/L·°Bé", "'°Bé' cannot be part", "kg/m³", 7},
  };
  refuses_each(rows);
}

TEST(ParseErrors, Bases) {
  const Row rows[] = {
      {"5 g/L as tartric acid", "nothing is counted as 'tartric acid'", "'tartaric acid'", 9},
      {"5 g/L as  water", "nothing is counted as 'water'", "'vatwright units'", 10},
      {"5 meq/L as tartaric acid", "not of mass", "leave out 'as tartaric acid'", 11},
      {"5 L/g as tartaric acid", "not of mass", "", 9},
      {"5 g/L as", "unknown unit 'L as'", "", 4},
  };
  refuses_each(rows);
}

TEST(ParseErrors, OverLongText) {
  const std::string text = "5 " + std::string(longest_quantity, 'L');
  refuses([&] { parse(text); }, text, "a text of 202 bytes", "", 0);
}

// ---- expect(): what is read against what is due

const Expected free_so2{.dimension = dimension_of<MassConcentration>(), .unit = "mg/L"};
const Expected acidity{.dimension = dimension_of<Acidity>(), .unit = "g/L as tartaric acid"};
const Expected ph{.dimension = dimension_of<Ph>(), .unit = "pH"};
const Expected gravity{.dimension = dimension_of<Density>(), .unit = "SG"};
const Expected plain{.unit = "1"};
const Expected share{.unit = "%"};
const Expected nitrogen{
    .dimension = dimension_of<MassConcentration>(), .counted = "nitrogen", .unit = "mg/L as nitrogen"};

Measured expected(const char* text, const Expected& due) { return expect(parse(text), due, text); }

TEST(Expect, RefusesABareNumberWhereAUnitIsDue) {
  refuses([] { expected("14", free_so2); }, "14", "no unit after '14'", "write '14 mg/L'", 2);
  refuses([] { expected("14 ± 2", free_so2); }, "14 ± 2", "no unit after '14 ± 2'", "write '14 ± 2 mg/L'", 7);
  refuses([] { expected("60", share); }, "60", "no unit after '60'", "write '60 %'", 2);
  refuses([] { expected("5.1", acidity); }, "5.1", "no unit", "write '5.1 g/L as tartaric acid'", 3);
}

TEST(Expect, ReadsABareNumberWhereItSaysItAll) {
  EXPECT_DOUBLE_EQ(expected("3.42 ± 0.02", ph).value, 3.42);
  EXPECT_DOUBLE_EQ(expected("3.42 ± 0.02", ph).uncertainty, 0.02);
  EXPECT_EQ(expected("3.42", ph).dimension, dimension_of<Ph>());
  EXPECT_DOUBLE_EQ(expected("1.09 ± 0.001", gravity).value, 1.09 * 998.203);
  EXPECT_DOUBLE_EQ(expected("1.09 ± 0.001", gravity).uncertainty, 0.001 * 998.203);
  EXPECT_DOUBLE_EQ(expected("1.81", plain).value, 1.81);
  EXPECT_DOUBLE_EQ(expected("60 %", plain).value, 0.6);
  EXPECT_FALSE(expected("3.42", ph).bare);
}

TEST(Expect, RefusesAWrongDimensionAndNamesBoth) {
  refuses([] { expected("48 hL", free_so2); }, "48 hL",
          "expected a mass per volume (such as '30 mg/L'), read '48 hL', which is a volume", "give it in mg/L", 0);
  refuses([] { expected("5 %", ph); }, "5 %", "expected a pH", "", 0);
  refuses([] { expected("12 % vol", share); }, "12 % vol", "which is an alcoholic strength", "give it in %", 0);
  refuses([] { expected("12 % mass", Expected{.dimension = dimension_of<Strength>(), .unit = "% vol"}); }, "12 % mass",
          "which is a share by mass", "% vol", 0);
  refuses([] { expected("5 mol/L", acidity); }, "5 mol/L", "which is an amount per volume", "", 0);
  // A difference of temperatures never stands for a density, a temperature never for a mass.
  refuses([] { expected("16 °C", free_so2); }, "16 °C", "which is a temperature", "", 0);
}

// Iodine takes two electrons: whoever carries the figure of a normality over is wrong by a factor of 2.
TEST(Expect, RefusesANormalityForATitrant) {
  const Expected titrant{.dimension = dimension_of<AmountConcentration>(), .unit = "mol/L"};
  refuses([&] { expected("0.02 eq/L", titrant); }, "0.02 eq/L", "which is an acidity",
          "0.02 N iodine is 0.01 mol/L of I2", 0);
}

TEST(Expect, SaysWhatAPercentageIsInGramsPerLitre) {
  refuses([] { expected("5 %", free_so2); }, "5 %", "or a share",
          "give it in mg/L or another unit of its kind; 5 % m/v (grams in 100 mL) is 50 g/L", 0);
}

TEST(Expect, RefusesAnAcidityWithoutItsAcid) {
  refuses([] { expected("5.1 g/L", acidity); }, "5.1 g/L", "does not say which acid", "5.1 g/L as tartaric acid", 7);
}

TEST(Expect, TakesTheRecipesAcidBasis) {
  Expected with_basis = acidity;
  with_basis.acid_basis = find_basis("sulfuric acid");
  const auto m = expected("3.0 ± 0.1 g/L", with_basis);
  EXPECT_DOUBLE_EQ(m.value, parse("3.0 g/L as sulfuric acid").value);
  EXPECT_NEAR(m.uncertainty / m.value, 0.1 / 3.0, 1e-12);
  // A basis of its own wins.
  EXPECT_DOUBLE_EQ(expected("3.0 g/L as tartaric acid", with_basis).value, parse("3.0 g/L as tartaric acid").value);
}

TEST(Expect, RefusesAWrongBasis) {
  refuses([] { expected("5.1 g/L as tartaric acid", free_so2); }, "5.1 g/L as tartaric acid", "which is an acidity",
          "mg/L", 0);
  refuses([] { expected("30 mg/L as nitrogen", free_so2); }, "30 mg/L as nitrogen", "is counted as nitrogen",
          "leave out", 0);
  refuses([] { expected("5 g/L as nitrogen", acidity); }, "5 g/L as nitrogen", "expected an acidity", "", 0);
}

// Without a name the figure is taken as the mass of nitrogen, as reports give it (common practice, no source).
TEST(Expect, TakesNitrogenWithAndWithoutItsName) {
  EXPECT_DOUBLE_EQ(expected("180 mg/L as nitrogen", nitrogen).value, 0.18);
  EXPECT_DOUBLE_EQ(expected("180 mg/L", nitrogen).value, 0.18);
  EXPECT_NEAR(expected("100 mg/L as ammonium", nitrogen).value, 0.07765, 1e-5);
}

}  // namespace parse_errors_test
}  // namespace vatwright
