// Figures as a sheet shows them: two that differ are told apart, and a line of a lot keeps its unit.
#include "host/plugin/lot.hpp"
#include "host/sheet/phrases.hpp"
#include "host/sheet/writers.hpp"
#include "tests/host/sheets.hpp"

#include <gtest/gtest.h>

namespace shown_test {

using namespace vatwright;
using namespace vatwright::test;

Check failing(Figure value, std::string_view relation, Figure limit) {
  Check check = check_of("made up", false);
  check.value = value;
  check.limit = limit;
  check.relation = relation;
  return check;
}

TEST(ComparisonTest, FiguresOfAFailingCheckDiffer) {
  EXPECT_EQ(comparison(failing({"%", 1, 0.84996}, "at least", {"%", 1, 0.85})), ": 84.996 % (at least 85.000 %)");
  EXPECT_EQ(comparison(failing(figure(coherent<MassConcentration>(0.0803), "mg/L", 0), "at most",
                               figure(coherent<MassConcentration>(0.08), "mg/L", 0))),
            ": 80.3 mg/L (at most 80.0 mg/L)");
  EXPECT_EQ(comparison(failing(figure(coherent<MassConcentration>(0.082), "mg/L", 0), "at most",
                               figure(coherent<MassConcentration>(0.08), "mg/L", 0))),
            ": 82 mg/L (at most 80 mg/L)");
}

// Nothing tells two equal figures apart: no row of zeros then.
TEST(ComparisonTest, EqualFiguresStayAsTheyAre) {
  EXPECT_EQ(comparison(failing(figure(coherent<MassConcentration>(0.08), "mg/L", 0), "at most",
                               figure(coherent<MassConcentration>(0.08), "mg/L", 0))),
            ": 80 mg/L (at most 80 mg/L)");
}

TEST(ComparisonTest, ACheckThatHoldsIsRoundedAsDeclared) {
  Check check = failing(figure(coherent<MassConcentration>(0.0798), "mg/L", 0), "at most",
                        figure(coherent<MassConcentration>(0.08), "mg/L", 0));
  check.holds = true;
  EXPECT_EQ(comparison(check), ": 80 mg/L (at most 80 mg/L)");
}

Value computed(double number) {
  Value value;
  value.number = number;
  return value;
}

TEST(ChangeTest, BothInTheUnitThatWasWritten) {
  const Value before = written("22.0 hL", 2.2);
  const auto volume = shown_change(lot::volume, &before, computed(2.232));
  EXPECT_EQ(volume.before, "22.0 hL");
  EXPECT_EQ(volume.after, "22.32 hL");
  const Value gallons = written("600 ± 5 gal", 600 * us_gallon.value());
  EXPECT_EQ(shown_change(lot::volume, &gallons, computed(660 * us_gallon.value())).after, "660.0 gal");
  Value typical = written("14 mg/L", 0.014);
  typical.uncertainty = 0.0032;
  typical.typical = true;
  const auto sulfite = shown_change(lot::free_so2, &typical, computed(0.025));
  EXPECT_EQ(sulfite.before, "14 mg/L (± 3.2 mg/L, typical)");
  EXPECT_EQ(sulfite.after, "25.0 mg/L");
  const Value tight = written("3.42");
  EXPECT_EQ(shown_change(lot::ph, &tight, computed(3.3)).after, "3.30");
}

// "8.1 g/L" without a basis is of the recipe's acid: the sheet names one for both.
TEST(ChangeTest, WhatSaysTooLittleIsSaidInFull) {
  const Value before = written("8.1 g/L", 0.108);
  const auto acidity = shown_change(lot::titratable_acidity, &before, computed(0.0972));
  EXPECT_TRUE(acidity.before.ends_with(" g/L as tartaric acid")) << acidity.before;
  EXPECT_TRUE(acidity.after.ends_with(" g/L as tartaric acid")) << acidity.after;
}

TEST(ChangeTest, NotKnownBeforeOrNotChanged) {
  EXPECT_EQ(shown_change(lot::volume, nullptr, computed(2.2)).before, "not known");
  const Value same = written("22 hL", 2.2);
  const auto lost = shown_change(lot::volume, &same, static_cast<const Value*>(nullptr));
  EXPECT_EQ(lost.before, "22 hL");
  EXPECT_EQ(lost.after, "not known");
  const auto kept = shown_change(lot::volume, &same, same);
  EXPECT_EQ(kept.before, kept.after);
}

constexpr Result<Mass> weighed{{.name = "to weigh", .help = "made up", .unit = "kg", .decimals = 3}};

// JCGM 100:2008, 7.2.6: at most two significant digits suffice for an uncertainty. What is weighed is said as the
// balance shows it all the same.
TEST(SpreadTest, HasNoMoreThanTwoSignificantDigits) {
  EXPECT_EQ(shown(ResultValue{&weighed, 3.7}, {.standard = 1.124}), "3.700 ± 1.1 kg");
  EXPECT_EQ(shown(ResultValue{&weighed, 3.7}, {.standard = 0.0123}), "3.700 ± 0.012 kg");
  EXPECT_EQ(shown(ResultValue{&weighed, 3.7}, {.standard = 0.0023}), "3.700 ± 0.002 kg");
  EXPECT_EQ(shown(ResultValue{&weighed, 3.7}, {.standard = 0.0003}), "3.7000 ± 0.0003 kg");
  EXPECT_EQ(shown(ResultValue{&made_up_result, 0.2221}, {.standard = 0.1234}), "222.1 ± 120 mg/L");
}

TEST(ChiefTest, SaysThatTheShareIsOfTheSpread) {
  const ResultValue result{&made_up_result, 0.0221};
  EXPECT_EQ(chief(result, {.standard = 0.004, .chief = "free SO2 of T7", .chief_share = 0.76}),
            "; 76\u00a0%\u00a0of\u00a0the\u00a0±\u00a0from free SO2 of T7");
  EXPECT_EQ(chief(result, {.standard = 0.004, .chief = "pH of T7", .chief_share = 0.999}),
            "; all\u00a0of\u00a0the\u00a0±\u00a0from pH of T7");
}

TEST(HeadingTest, NamesItsUnitOnce) {
  EXPECT_EQ(named_unit("predicted", "pH"), "predicted, pH");
  EXPECT_EQ(named_unit("pH", "pH"), "pH");
  EXPECT_EQ(named_unit("sugar", "g/L"), "sugar, g/L");
  EXPECT_EQ(named_unit("ratio", "1"), "ratio");
  EXPECT_EQ(named_unit("plot", ""), "plot");
}

}  // namespace shown_test
