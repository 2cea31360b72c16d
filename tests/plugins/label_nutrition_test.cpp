// label.nutrition against printed examples, and as a property of random wines.
#include "tests/plugins/run.hpp"

#include <fmt/format.h>

#include <random>

namespace vatwright::test {
namespace label_nutrition_test {

StepSheet declare(double ethanol, double sugar, double acids, double glycerol) {
  return run_step(
      fmt::format("volume: 1 hL, ethanol: {} % vol, sugar: {} g/L, glycerol: {} g/L", ethanol, sugar, glycerol),
      fmt::format("label.nutrition: {{organic acids: {} g/L}}", acids), "EU");
}

const std::string& printed(const StepSheet& step, std::size_t row) {
  return std::get<std::string>(step.outcome.tables.at(0).rows.at(row).at(1));
}

// 12 % vol, 3 g/L of sugar, 6 of acids, 7 of glycerol. The page counts 0.789 g for a mL of ethanol, here 0.78924.
// Outside check of label.nutrition: 2 values within 0.15 kJ and 0.05 kcal, seen.
// Source: worked example of the energy of wine on a help page of the trade, by Regulation (EU) No 1169/2011, Annex XIV.
TEST(LabelNutrition, ThePrintedExampleOfEnergy) {
  const auto step = declare(12, 3, 6, 7);
  EXPECT_NEAR(result(step, "energy"), 294.5, 0.15);
  EXPECT_NEAR(result(step, "energy in kcal"), 71.0, 0.05);
  EXPECT_EQ(printed(step, 0), "295 kJ / 71 kcal");
}

// A dry wine of 4 g/L of sugar, with the glycerol that is taken where it was not measured.
// Outside check of label.nutrition: 2 values within 0.005 g, seen.
// Source: Der Winzer, June 2023, nutrition declaration of wine.
TEST(LabelNutrition, ThePrintedExampleOfCarbohydrate) {
  const auto step =
      run_step("volume: 1 hL, ethanol: 12.5 % vol, sugar: 4 g/L", "label.nutrition: {organic acids: 6 g/L}");
  EXPECT_NEAR(result(step, "carbohydrate"), 1.2, 0.005);
  EXPECT_NEAR(result(step, "sugars"), 0.4, 0.005);
  EXPECT_EQ(printed(step, 3), "1.2 g");
  EXPECT_EQ(printed(step, 4), "< 0.5 g");
}

// Outside check of label.nutrition: 2 values within 0.1, derived.
// Source: Regulation (EU) No 1169/2011, Annex XIV, worked out apart from this program.
TEST(LabelNutrition, FactorsByTheRegulation) {
  const auto step = declare(12.5, 2, 6, 8);
  EXPECT_NEAR(result(step, "energy"), 305.2, 0.1);
  EXPECT_NEAR(result(step, "energy in kcal"), 73.6, 0.1);
}

// Energy is a sum: that of two parts is that of both together.
TEST(LabelNutrition, EnergyAddsUp) {
  std::mt19937 random(3);
  std::uniform_real_distribution<double> part(0, 9);
  for (int i = 0; i < 50; ++i) {
    const double a = part(random), s = part(random), acid = part(random), g = part(random);
    for (const char* unit : {"energy", "energy in kcal"})
      EXPECT_NEAR(result(declare(a, s, acid, g), unit),
                  result(declare(a, 0, 0, 0), unit) + result(declare(0, s, 0, 0), unit) +
                      result(declare(0, 0, acid, 0), unit) + result(declare(0, 0, 0, g), unit),
                  1e-9);
  }
}

TEST(LabelNutrition, TitratableAcidityStandsInForTheAcids) {
  const auto titrated = run_step(
      "volume: 1 hL, ethanol: 12 % vol, sugar: 3 g/L, titratable acidity: 6 g/L as tartaric acid", "label.nutrition");
  EXPECT_NEAR(result(titrated, "energy"), result(declare(12, 3, 6, 8), "energy"), 1e-6);
  EXPECT_TRUE(noted(titrated, "counts as the organic acids"));
  EXPECT_TRUE(has(refusal("volume: 1 hL, ethanol: 12 % vol, sugar: 3 g/L", "label.nutrition"), "titratable acidity"));
}

TEST(LabelNutrition, SaltIsTwoAndAHalfTimesTheSodium) {
  const auto step = run_step("volume: 1 hL, ethanol: 12 % vol, sugar: 3 g/L, sodium: 100 mg/L",
                             "label.nutrition: {organic acids: 6 g/L}");
  EXPECT_NEAR(result(step, "salt"), 0.025, 1e-9);
  EXPECT_EQ(printed(step, 6), "0.03 g");
}

}  // namespace label_nutrition_test
}  // namespace vatwright::test
