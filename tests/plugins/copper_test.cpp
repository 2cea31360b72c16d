// Copper that was found in a wine: what may remain is held against it, whatever is done to the lot. 1 mg/L may remain
// in the EU (Regulation (EC) No 423/2008, Annex IV, in host/rules/EU.yaml); copper sulfate pentahydrate holds
// 63.546 / 249.685 of it.
#include "tests/plugins/run.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <random>

namespace vatwright::test {
namespace copper_test {

constexpr double share = 63.546 / 249.685, most = 1.0;
const std::string wine = "volume: 200 hL, stage: wine, class: still, colour: white, ethanol: 11 % vol, sugar: 1 g/L";

std::string sulfate(double milligrams, const std::string& more = {}) {
  return fmt::format("cellar.dose: {{substance: copper sulfate pentahydrate, dose: {:.4f} mg/L{}}}", milligrams, more);
}

bool waits_for_copper(const StepSheet& step) {
  if (!step.measure_first) return false;
  const auto& figures = step.measure_first->figures;
  return std::find(figures.begin(), figures.end(), "copper") != figures.end();
}

// Where the step itself told of it, it is known of the lot whether or not the step may add to it.
TEST(Copper, WhatAStepWasToldOfStays) {
  std::mt19937 random(61);
  std::uniform_real_distribution<double> found(0.05, 0.95), dose(0.3, 4);
  for (int i = 0; i < 30; ++i) {
    const double before = found(random), more = dose(random);
    const std::string told = fmt::format(", copper: {:.5f} mg/L", before);
    const auto sheet = run(wine, {sulfate(more, told), sulfate(0.1)}, "EU");
    const bool given = !sheet.steps[0].outcome.additions.empty();
    SCOPED_TRACE(fmt::format("{} mg/L found, {} mg/L of the salt", before, more));
    EXPECT_EQ(given, before + share * more <= most);
    const auto* const then = check(sheet.steps[1], "copper residual");
    ASSERT_NE(then, nullptr);
    const double there = before + (given ? share * more : 0);
    EXPECT_NEAR(number(*then->value), there + share * 0.1, 0.01);
    EXPECT_EQ(then->holds, !sheet.steps[1].outcome.additions.empty());
    const auto other = run(wine, {"cellar.dose: {substance: bentonite, dose: 50 g/hL" + told + "}"}, "EU");
    EXPECT_NEAR(after(other, "copper", "mg/L"), before, 1e-4);
    const auto scaled =
        run(wine,
            {"blend.scale: {substance: copper sulfate pentahydrate, stock: 1 g/L, sample: 100 mL, aliquot: 0.5 mL, "
             "slurry: 10 g/L" +
             told + "}"},
            "EU");
    const double brought = scaled.steps[0].outcome.additions.empty() ? 0 : share * 5;
    EXPECT_NEAR(after(scaled, "copper", "mg/L"), before + brought, 0.002);
  }
}

// What was found rises as water goes.
TEST(Copper, IsHeldWhereALotIsConcentrated) {
  for (const double times : {0.99, 1.01}) {
    const double before = most * times * 180 / 200;
    const auto step = run_step(wine + fmt::format(", must solids: 21 °Brix, copper: {:.5f} mg/L", before),
                               "sugar.concentration: {water taken off: 20 hL}", "EU");
    const auto* const held = check(step, "copper residual");
    ASSERT_NE(held, nullptr);
    EXPECT_EQ(held->holds, times < 1);
    EXPECT_NEAR(number(*held->value), most * times, 0.006);
  }
}

// A forecast of copper is nothing that a dose of something else rests on.
TEST(Copper, OnlyADoseOfCopperWaitsForIt) {
  const auto sheet = run(wine + ", copper: 0.2 mg/L",
                         {sulfate(0.8), "cellar.dose: {substance: bentonite, dose: 50 g/hL}",
                          "cellar.dose: {substance: pectolytic enzyme, dose: 2 g/hL}", sulfate(0.4)},
                         "EU");
  EXPECT_TRUE(noted(sheet.steps[0], "brings 0.20 mg/L of copper"));
  EXPECT_FALSE(sheet.steps[1].measure_first);
  EXPECT_FALSE(sheet.steps[2].measure_first);
  EXPECT_TRUE(waits_for_copper(sheet.steps[3]));
}

// What was not measured may be there all the same: a blend with a lot of which nobody knows it, for one.
TEST(Copper, NotMeasuredIsSaid) {
  constexpr const char* unknown = "how much copper the wine holds was not given";
  EXPECT_TRUE(noted(run_step(wine, sulfate(0.5), "EU"), unknown));
  EXPECT_FALSE(noted(run_step(wine + ", copper: 0.1 mg/L", sulfate(0.5), "EU"), unknown));
  EXPECT_FALSE(noted(run_step(wine, "cellar.dose: {substance: bentonite, dose: 50 g/hL}", "EU"), unknown));
}

// Seed takes salts and acids along, by whichever calculation it is weighed.
TEST(Seed, ADoseOnTheWineWaitsForReadings) {
  const std::string read = wine + ", pH: 3.4, titratable acidity: 6.5 g/L as tartaric acid, potassium: 900 mg/L";
  for (const char* step : {"cellar.dose: {substance: potassium bitartrate, dose: 4 g/L}",
                           "cellar.dose: {substance: calcium tartrate, dose: 100 g/hL}",
                           "cold.treatment: {substance: potassium bitartrate}"}) {
    const auto sheet = run(read, {step, "acid.addition: {add: 0.5 g/L}"});
    SCOPED_TRACE(step);
    ASSERT_TRUE(sheet.steps[1].measure_first);
    for (const char* figure : {"pH", "titratable acidity", "potassium"}) {
      const auto& figures = sheet.steps[1].measure_first->figures;
      EXPECT_NE(std::find(figures.begin(), figures.end(), figure), figures.end()) << figure;
    }
    EXPECT_NEAR(after(sheet, "potassium", "mg/L"), 900, 1e-6);
  }
}

// Whatever it rests on, water of a weak solution is not.
TEST(LacticAcid, AWeakSolutionIsRefusedInWords) {
  const std::string lot = "volume: 20 hL, pH: 3.6, titratable acidity: 5 g/L as tartaric acid, ethanol: 12 % vol";
  const auto dosed = [&](int strength) {
    return refusal(lot,
                   fmt::format("acid.addition: {{substance: lactic acid, strength: {} % mass, add: 1 g/L}}", strength));
  };
  EXPECT_TRUE(has(dosed(40), "would thin the wine by more than is reckoned"));
  EXPECT_TRUE(has(dosed(40), "take one of 50 % mass or more"));
  EXPECT_EQ(dosed(50), "");
}

}  // namespace copper_test
}  // namespace vatwright::test
