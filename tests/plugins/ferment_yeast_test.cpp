// ferment.yeast: what is weighed, and that no step is larger than asked.
#include "tests/plugins/run.hpp"

#include <fmt/format.h>

#include <random>

namespace vatwright::test {
namespace ferment_yeast_test {

// Outside check of ferment.yeast: 1 value within the words, seen.
// Source: Australian Wine Research Institute, yeast rehydration: 25 g/hL are 5 million cells for a mL.
TEST(FermentYeast, CellsOfTheUsualDose) {
  const auto step = run_step("volume: 48 hL, temperature: 14 °C, stage: must", "ferment.yeast");
  EXPECT_NEAR(result(step, "yeast"), 1200, 1e-6);
  EXPECT_NEAR(result(step, "water"), 12 / 0.993, 0.01);
  EXPECT_TRUE(noted(step, "5.0 million viable cells"));
}

// Each step mixes two temperatures by volume, cools by no more than asked, and the last gap is small enough too.
// Outside check of ferment.yeast: over 60 values within 0.01 °C, derived.
// Source: the temperature of two volumes mixed, written out.
TEST(FermentYeast, NoStepIsLargerThanAsked) {
  std::mt19937 random(4);
  const auto between = [&](double low, double high) { return std::uniform_real_distribution(low, high)(random); };
  for (int i = 0; i < 60; ++i) {
    const double must = between(8, 30), largest = between(3, 12);
    const auto step =
        run_step(fmt::format("volume: 20 hL, temperature: {:.2f} °C, stage: must", must),
                 fmt::format("ferment.yeast: {{largest step: {:.2f} K, water temperature: 38 °C}}", largest));
    double volume = 1e-3 * result(step, "water"), t = 38;
    const auto& rows = step.outcome.tables.at(0).rows;
    for (std::size_t n = 0; n + 1 < rows.size(); ++n) {
      const double added = std::get<double>(rows[n].at(1)), then = std::get<double>(rows[n].at(3)) - 273.15;
      EXPECT_NEAR(then, (volume * t + added * must) / (volume + added), 0.01);
      EXPECT_LE(t - then, largest + 0.02);
      EXPECT_LE(added, volume * 1.0001);
      volume += added;
      t = then;
    }
    EXPECT_LE(t - must, largest + 0.02);
    EXPECT_EQ(result(step, "steps"), static_cast<double>(rows.size() - 1));
  }
}

TEST(FermentYeast, WaterOfTheYeastIsHeldAgainstTheLaw) {
  const auto step = run_step("volume: 10 hL, temperature: 16 °C, stage: must",
                             "ferment.yeast: {yeast dose: 60 g/hL, water to yeast: 10}", "US");
  EXPECT_FALSE(check(step, "yeast water")->holds);
  EXPECT_TRUE(step.outcome.additions.empty());
}

TEST(FermentYeast, AWineIsAnotherWay) {
  EXPECT_TRUE(has(refusal("volume: 10 hL, temperature: 16 °C, stage: wine", "ferment.yeast"), "this lot is a wine"));
}

}  // namespace ferment_yeast_test
}  // namespace vatwright::test
