// After which step of a sheet a laboratory has to read again what was only foretold, before more is dosed.
#include "host/bench/measure_first.hpp"

#include <gtest/gtest.h>

#include "tests/host/house.hpp"

#include <algorithm>
#include <string>
#include <string_view>
#include <vector>

namespace vatwright::test {
namespace measure_first_test {

Worksheet with_between(const std::string& between) {
  TestHouse house;
  const std::string lot =
      ": {volume: 40 hL, stage: wine, class: still, colour: pink, pH: 3.55, titratable acidity: 4.9 g/L, "
      "ethanol: 12 % vol, sugar: 1 g/L, free SO2: 8 mg/L, total SO2: 40 mg/L}\n";
  return house.run("recipe: test\nacid basis: tartaric acid\nlots:\n  T" + lot + "  U" + lot +
                   "steps:\n  - acid.addition: {lot: T, target pH: 3.45}\n" + between +
                   "  - acid.addition: {lot: T, target pH: 3.35}\n");
}

TEST(MeasureFirstTest, AfterTheLastAdditionToThatLot) {
  const auto sheet = with_between(
      "  - cellar.dose: {lot: T, substance: gum arabic, dose: 15 g/hL}\n"  // moves no figure that is read again
      "  - sulfite.addition: {lot: U, target free SO2: 25 mg/L}\n");
  ASSERT_EQ(sheet.steps.size(), 4U);
  const auto& first = sheet.steps[3].measure_first;
  ASSERT_TRUE(first);
  EXPECT_EQ(first->after, 1U);
  EXPECT_TRUE(first->mixes);
}

TEST(MeasureFirstTest, WhatGoesIntoAnotherLotIsNoneOfIt) {
  const auto sheet = with_between("  - sulfite.addition: {lot: U, target free SO2: 25 mg/L}\n");
  ASSERT_TRUE(sheet.steps[2].measure_first);
  EXPECT_EQ(sheet.steps[2].measure_first->after, 0U);
}

// A step that only looks at the lot gives nobody a reason to wait for it.
TEST(MeasureFirstTest, AStepThatAddsNothingIsNotWaitedFor) {
  const auto sheet = with_between("  - sulfite.molecular: {lot: T}\n");
  ASSERT_TRUE(sheet.steps[2].measure_first);
  EXPECT_EQ(sheet.steps[2].measure_first->after, 0U);
}

// What a row of a rule goes by is what the dose rests on, though the calculation takes no such input: the EU has
// dimethyl dicarbonate from 5 g/L of sugar on.
TEST(MeasureFirstTest, WhatTheRowOfARuleGoesBy) {
  TestHouse house;
  const auto sheet = house.run(
      "recipe: test\nrules: EU\nlots:\n  A: {stage: wine, class: still, colour: white, zone: A, volume: 10 hL, "
      "ethanol: 12 % vol, sugar: 2 g/L, total SO2: 90 mg/L}\nsteps:\n"
      "  - sugar.sweetening: {target sugar: 6 g/L, strength: 65 °Brix}\n"
      "  - cellar.dose: {substance: dimethyl dicarbonate, dose: 15 g/hL}\n"
      "  - cellar.dose: {substance: bentonite, dose: 50 g/hL}\n");
  ASSERT_TRUE(sheet.steps[1].measure_first);
  EXPECT_EQ(sheet.steps[1].measure_first->figures, std::vector<std::string_view>{"sugar"});
  EXPECT_FALSE(sheet.steps[2].measure_first);
}

// Of a volume that is only foretold, racked off the lees.
TEST(MeasureFirstTest, AVolumeThatIsForetold) {
  TestHouse house;
  const auto sheet = house.run(
      "recipe: test\nlots:\n  A: {stage: wine, class: still, colour: white, volume: 10 hL, total SO2: 30 mg/L}\n"
      "steps:\n  - cold.protein: {series: {0 g/hL: 21 NTU, 40 g/hL: 3.6 NTU, 60 g/hL: 1.2 NTU}}\n"
      "  - sulfite.addition: {add: 30 mg/L, add as: SO2}\n");
  ASSERT_TRUE(sheet.steps[1].measure_first);
  const auto& figures = sheet.steps[1].measure_first->figures;
  EXPECT_NE(std::find(figures.begin(), figures.end(), "volume"), figures.end());
}

}  // namespace measure_first_test
}  // namespace vatwright::test
