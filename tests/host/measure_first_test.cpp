// After which step of a sheet a laboratory has to read again what was only foretold, before more is dosed.
#include "host/bench/measure_first.hpp"

#include <gtest/gtest.h>

#include "tests/host/house.hpp"

#include <string>

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

}  // namespace measure_first_test
}  // namespace vatwright::test
