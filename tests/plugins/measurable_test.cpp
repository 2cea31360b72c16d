// What nobody can weigh or measure out is refused, with what could be measured instead.
#include "tests/plugins/run.hpp"

#include <fmt/format.h>

#include <cmath>
#include <random>

namespace vatwright::test {
namespace measurable_test {

std::string wine(double litres) {
  return fmt::format("stage: wine, pH: 3.40, free SO2: 10 mg/L, total SO2: 40 mg/L, sugar: 1 g/L, volume: {:.6g} L",
                     litres);
}

const Check* refused(const StepSheet& step) {
  for (const auto& one : step.outcome.checks)
    if (has(one.name, "can be measured out")) return &one;
  return nullptr;
}

TEST(Measurable, TooLittleForATankIsRefusedWithWhatCouldBeMeasured) {
  const auto sheet = run(wine(1000), {"cellar.dose: {substance: tannin, dose: 0.016 g/hL}"});
  const auto& step = sheet.steps.at(0);
  ASSERT_NE(refused(step), nullptr);
  EXPECT_TRUE(step.outcome.additions.empty());
  EXPECT_TRUE(has(refused(step)->remedy, "weigh 1.60 g, make it up to 100 mL with water")) << refused(step)->remedy;
  EXPECT_TRUE(has(refused(step)->remedy, "give 10 mL of that, or treat a lot of 63 hL or more"))
      << refused(step)->remedy;
  ASSERT_EQ(step.reagents.size(), 1u);  // what the remedy names comes with its cautions
  EXPECT_EQ(step.reagents[0]->facts.id, "tannin");
}

TEST(Measurable, GasIsLetOutByTheScaleOfItsCylinder) {
  const std::string step =
      "sulfite.addition: {target free SO2: 25 mg/L, free share: 100 %, substance: sulfur dioxide gas}";
  const auto little = run_step(wine(200), step);  // 3 g
  ASSERT_NE(refused(little), nullptr);
  EXPECT_TRUE(has(refused(little)->remedy, "use a salt or a solution")) << refused(little)->remedy;
  EXPECT_EQ(run_step(wine(1000), step).outcome.additions.size(), 1u);
}

// Whatever the lot and the dose: what is ordered can be measured, what cannot leaves the lot as it was, and a lot as
// large as the sheet says gets its dose.
TEST(Measurable, WhatIsOrderedCanBeMeasured) {
  std::mt19937 random(1504);
  std::uniform_real_distribution<double> litres(-1, 4), dose(-3, 2.5);
  const char* substances[] = {"ascorbic acid", "tannin", "gum arabic"};
  int ordered = 0, not_ordered = 0;
  for (int i = 0; i < 120; ++i) {
    const double volume = std::pow(10, litres(random));
    const auto text =
        fmt::format("cellar.dose: {{substance: {}, dose: {:.5g} g/hL}}", substances[i % 3], std::pow(10, dose(random)));
    SCOPED_TRACE(fmt::format("{} L, {}", volume, text));
    try {
      const auto sheet = run(wine(volume), {text});
      const auto& step = sheet.steps.at(0);
      for (const auto& addition : step.outcome.additions) {
        ++ordered;
        const double least = volume < 50 ? 1 : 10;  // tenths of a gram, or of a millilitre
        if (addition.mass) {
          EXPECT_GE(addition.mass->value() * 1e4, least * (1 - 1e-6));
        }
        if (addition.volume) {
          EXPECT_GE(addition.volume->value() * 1e7, least * (1 - 1e-6));
        }
      }
      if (refused(step) == nullptr) continue;
      ++not_ordered;
      EXPECT_TRUE(step.outcome.additions.empty());
      EXPECT_TRUE(step.outcome.changes.empty());
      EXPECT_FALSE(sheet.holds());
      EXPECT_FALSE(step.reagents.empty());
    } catch (const BadInput&) {
      // A dose that the calculation itself refuses.
    }
  }
  EXPECT_GT(ordered, 10);
  EXPECT_GT(not_ordered, 10);
}

}  // namespace measurable_test
}  // namespace vatwright::test
