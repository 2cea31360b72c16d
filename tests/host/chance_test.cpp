// The chance that a limit, a target or a floor is met, of readings that carry an uncertainty: normal laws.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>

#include "tests/host/spreads.hpp"

namespace chance_test {

using namespace vatwright;
using namespace vatwright::test;

double chance(const StepSheet& step, const std::string& name) {
  const auto told = std::find_if(step.chances.begin(), step.chances.end(),
                                 [&](const Chance& one) { return one.name.find(name) != std::string::npos; });
  return told == step.chances.end() ? -1 : told->probability;
}
double normal_below(double deviations) { return 0.5 * std::erfc(-deviations / std::sqrt(2.0)); }

// The chance of a floor and that of a ceiling, of a figure that moves as its reading does: normal laws.
TEST(ChanceTest, IsToldOfAFloorAndOfACeiling) {
  const auto step =
      reckoned(
          "recipe: test\nrules: EU\nlots:\n  T7: {class: still, colour: white, stage: wine, sugar: 1 g/L, volume: "
          "48 hL, pH: 3.42, free SO2: 30 ± 2 mg/L, total SO2: 198 ± 4 mg/L}\nsteps:\n"
          "  - cellar.bottling: {dissolved oxygen: 1 mg/L, headspace oxygen: 2 %, after: 400 d, wanted free "
          "SO2: 20 mg/L}\n  - sulfite.addition: {add: 1 mg/L, add as: SO2}\n")
          .steps;
  const auto chance_of = [&](std::size_t at, const std::string& relation) {
    for (const auto& check : step.at(at).outcome.checks)
      for (const auto& chance : step.at(at).chances)
        if (check.relation == relation && chance.name == check.name) return std::pair{chance.probability, check};
    return std::pair{-1.0, Check{}};
  };
  const auto [floor, at_least] = chance_of(0, "at least");
  ASSERT_TRUE(at_least.value);
  const double standard =
      spread(step.at(0), "free SO2 after");  // of the reading, and of the model of what oxygen takes
  EXPECT_NEAR(floor, normal_below((at_least.value->number - at_least.limit->number) * 1e3 / standard), 1e-6);
  const auto [ceiling, at_most] = chance_of(1, "at most");
  ASSERT_TRUE(at_most.value);
  EXPECT_NEAR(ceiling, normal_below((at_most.limit->number - at_most.value->number) * 1e3 / 4), 1e-6);
}

// A step that only looks tells the chance of what fails too.
TEST(ChanceTest, IsToldOfWhatFails) {
  const auto step =
      reckoned(
          "recipe: test\nacid basis: tartaric acid\nlots:\n  T5: {colour: pink, stage: wine, pH: 3.48 ± 0.02, "
          "titratable "
          "acidity: 4.6 g/L, ethanol: 12.5 % vol, potassium: 1100 ± 100 mg/L, tartaric acid: 2.4 ± 0.2 g/L}\n"
          "steps:\n  - cold.tartrate: {hold at: -4 °C}\n")
          .steps.at(0);
  ASSERT_FALSE(step.outcome.holds());
  const auto failing = std::find_if(step.outcome.checks.begin(), step.outcome.checks.end(),
                                    [](const Check& check) { return !check.holds && check.value; });
  ASSERT_NE(failing, step.outcome.checks.end());
  const auto told = std::find_if(step.chances.begin(), step.chances.end(),
                                 [&](const Chance& chance) { return chance.name == failing->name; });
  ASSERT_NE(told, step.chances.end());
  EXPECT_GT(told->probability, 0);
  EXPECT_LT(told->probability, 0.5);
}

// A calculation that leaves a limit out while readings are drawn is run in full then: to first order, and drawn.
TEST(ChanceTest, IsToldOfALimitThatACalculationLeavesOut) {
  for (const double at : {-1.0, 0.0, 2.5})
    for (const Draws& draws : {Draws{}, Draws{.count = 20000, .seed = 3}}) {
      const auto step =
          reckoned(fmt::format("recipe: test\nlots: {{T: {{pH: 3.4}}}}\nsteps:\n  - budget.bounded: {{a: {} ± 1, "
                               "b: 0 ± 1, c: 0 ± 1, d: 0 ± 1}}\n",
                               at),
                   draws)
              .steps.at(0);
      EXPECT_NEAR(chance(step, "under one"), normal_below((1 - at) / 2), draws.count > 0 ? 0.015 : 1e-6);
    }
}

// The row of a limit hangs on the lot: a wine with 5 g/L of sugar or more may have 250 mg/L of total sulfur dioxide,
// and 200 with less. Drawn, since there is no slope at a step.
TEST(ChanceTest, GoesByTheRowThatAppliesToEachDraw) {
  for (const double sugar : {4.8, 5.2, 5.6}) {
    const auto step =
        reckoned(fmt::format("recipe: test\nrules: EU\nlots:\n  T7: {{class: still, colour: white, stage: wine, "
                             "pH: 3.42, sugar: {} ± 0.5 g/L, free SO2: 30 mg/L, total SO2: 210 ± 0.01 "
                             "mg/L}}\nsteps: [sulfite.molecular]\n",
                             sugar),
                 {.count = 20000, .seed = 3})
            .steps.at(0);
    EXPECT_NEAR(chance(step, "total SO2"), normal_below((sugar - 5) / 0.5), 0.015) << sugar;
  }
}

// Where nothing is added, how sure it is that nothing has to be.
TEST(ChanceTest, IsToldOfALotThatIsAtItsTarget) {
  for (const double more : {0.3, 1.0, 2.6}) {
    const auto step =
        reckoned(fmt::format("recipe: test\nlots:\n  T7: {{volume: 48 hL, pH: 3.42, free SO2: {} ± 2 mg/L, "
                             "total SO2: 98 mg/L}}\nsteps:\n  - sulfite.addition: {{target free SO2: 30 "
                             "mg/L}}\n",
                             30 + more))
            .steps.at(0);
    ASSERT_TRUE(step.outcome.additions.empty());
    EXPECT_NEAR(chance(step, "target free SO2"), normal_below(more / 2), 1e-6);
  }
}

// A limit that is itself reckoned from a reading moves with it: here the tartaric acid that there is for the crystals
// of a double salt, which need what the carbonate brings.
TEST(ChanceTest, IsOfTheDistanceToALimitThatMoves) {
  for (const double standard : {0.3, 0.4, 0.8}) {
    const auto step =
        reckoned(
            fmt::format("recipe: test\nacid basis: tartaric acid\nlots:\n  T7: {{stage: must, colour: white, volume: "
                        "50 hL, pH: 3.0, titratable acidity: 13 g/L, soluble solids: 18 °Brix, tartaric acid: 6.3 ± {} "
                        "g/L, malic acid: 6.5 g/L, potassium: 1200 mg/L}}\nsteps:\n  - acid.reduction: {{substance: "
                        "double-salt treatment, target titratable acidity: 9.5 g/L}}\n",
                        standard))
            .steps.at(0);
    const auto& checks = step.outcome.checks;
    const auto crystals = std::find_if(checks.begin(), checks.end(), [](const Check& check) {
      return check.name.find("tartaric acid for the crystals") != std::string::npos;
    });
    ASSERT_NE(crystals, checks.end());
    const double room = crystals->limit->number - crystals->value->number;
    EXPECT_NEAR(chance(step, crystals->name), normal_below(room / standard), 0.01);
  }
}

// A volume by dip stick: what was weighed is in the tank, and more wine has less of it in a litre. Arithmetic.
TEST(ChanceTest, TheVolumeCountsForADosePerVolume) {
  const std::string lot =
      "recipe: test\nrules: EU\nacid basis: tartaric acid\nlots:\n  T5: {class: still, stage: wine, colour: white, "
      "volume: 40 ± 3 hL, sugar: 2 g/L, ethanol: 12 % vol, pH: 3.40, titratable acidity: 5.2 g/L, acid added: 0 g/L, "
      "free SO2: 10 mg/L, total SO2: 150 mg/L, potassium: 900 mg/L, tartaric acid: 2 g/L}\nsteps:\n";
  constexpr double off = 3.0 / 40;
  const auto acid = reckoned(lot + "  - acid.addition: {add: 3.9 g/L}\n").steps.at(0);
  EXPECT_NEAR(spread(acid, "titratable acidity"), 3.9 * off, 0.01);
  EXPECT_NEAR(chance(acid, "added acidity limit"), normal_below((4 - 3.9) / (3.9 * off)), 0.01);
  const auto sulfite = reckoned(lot + "  - sulfite.addition: {add: 46 mg/L, add as: SO2}\n").steps.at(0);
  EXPECT_NEAR(spread(sulfite, "total SO2"), 46 * off, 0.05);
  EXPECT_NEAR(chance(sulfite, "total SO2 limit"), normal_below((200 - 196) / (46 * off)), 0.01);
  const auto treated = reckoned(lot + "  - cellar.dose: {substance: PVPP, dose: 70 g/hL}\n").steps.at(0);
  EXPECT_NEAR(chance(treated, "PVPP limit"), normal_below((80 - 70) / (70 * off)), 0.01);
  // By draws as well, where 40 hL in V make 3.9 g/L of it in a litre.
  const auto drawn = reckoned(lot + "  - acid.addition: {add: 3.9 g/L}\n", {.count = 20000, .seed = 7}).steps.at(0);
  EXPECT_NEAR(chance(drawn, "added acidity limit"), normal_below((40 - 39) / 3.0), 0.02);
}

// Near a limit some of the readings would have the dose refused: that is no dose of nothing.
TEST(ChanceTest, ADoseThatIsRefusedIsNoDoseOfNothing) {
  const std::string lots = "recipe: test\nrules: EU\nacid basis: tartaric acid\nlots:\n";
  const auto dose = [&](const std::string& lot, const std::string& step, const Draws& draws = {}) {
    const auto sheet = reckoned(lots + "  T5: {class: still, stage: wine, colour: white, volume: 40 hL, " + lot +
                                    "}\nsteps:\n  - " + step + "\n",
                                draws);
    const auto& done = sheet.steps.at(0);
    EXPECT_EQ(done.outcome.additions.size(), 1U) << step;
    return done.addition_spreads.at(0).standard;
  };
  const std::string acid =
      "sugar: 1.5 g/L, ethanol: 12 % vol, pH: 3.42, titratable acidity: 5.50 ± 0.10 g/L, "
      "acid added: 0 g/L";
  EXPECT_NEAR(dose(acid, "acid.addition: {target titratable acidity: 9.2 g/L}"), 0.10 * 4, 0.02);
  EXPECT_NEAR(dose(acid, "acid.addition: {target titratable acidity: 9.45 g/L}"), 0.10 * 4, 0.02);
  const std::string sulfite = "sugar: 1 g/L, pH: 3.4, free SO2: 12 ± 3 mg/L, total SO2: 165 mg/L";
  const double far = dose(sulfite, "sulfite.addition: {target free SO2: 25 mg/L}");
  for (const int target : {27, 28, 29})
    EXPECT_NEAR(dose(sulfite, "sulfite.addition: {target free SO2: " + std::to_string(target) + " mg/L}"), far,
                0.25 * far)
        << target;
  // What is left of the draws is cut at the limit, and no wider than all of them.
  EXPECT_LT(dose(acid, "acid.addition: {target titratable acidity: 9.45 g/L}", {.count = 4000, .seed = 3}), 0.11 * 4);
}

// A share of a blend is no reading: a ± on it is refused, however it is written.
TEST(ChanceTest, AShareOfABlendHasNone) {
  const std::string lots =
      "recipe: test\nlots:\n  A: {volume: 20 hL, free SO2: 20 mg/L}\n  B: {volume: 20 hL, free "
      "SO2: 5 mg/L}\nsteps:\n  - blend.mix: {into: C, volume: 20 hL, lots: ";
  for (const std::string share : {"60 ± 5 %", "{share: 60 ± 5 %}"}) try {
      reckoned(lots + "{A: " + share + ", B: 40 %}}\n");
      ADD_FAILURE() << share;
    } catch (const BadInput& error) {
      EXPECT_NE(std::string(error.what()).find("±"), std::string::npos) << error.what();
      EXPECT_NE(std::string(error.what()).find(":6:"), std::string::npos) << error.what();
    }
  EXPECT_NO_THROW(reckoned(lots + "{A: 60 %, B: 40 %}}\n"));
}

// A limit that some of the readings would pass does not make a dose surer than they are: its ± is that of the volume.
TEST(ChanceTest, ALimitNearByCutsNoSpread) {
  for (const double second : {0.05, 0.10, 0.13, 0.15}) {
    const std::string recipe = fmt::format(
        "recipe: test\nrules: EU\nlots:\n  T7: {{class: still, colour: white, stage: wine, volume: 10 ± 0.5 hL, "
        "copper: "
        "0.4 ± 0.1 mg/L}}\nsteps:\n  - cellar.dose: {{substance: copper sulfate pentahydrate, dose: 0.10 g/hL}}\n"
        "  - cellar.dose: {{substance: copper sulfate pentahydrate, dose: {:.2f} g/hL}}\n",
        second);
    for (const unsigned draws : {0U, 4000U}) {
      const auto sheet = reckoned(recipe, {.count = draws});
      for (const auto& step : sheet.steps) {
        if (step.outcome.additions.empty()) continue;
        const double mass = parse_unit("g").number(step.outcome.results.at(index_of(step, "mass")).number);
        EXPECT_NEAR(spread(step, "mass"), 0.05 * mass, 0.004 * mass) << second << ", " << draws << " draws";
      }
    }
  }
}

// Where the sheet keeps a pH and a smaller volume would not, as more than a 50th is poured in, there is a sheet.
TEST(ChanceTest, AReadingThatIsKnownOnTheSheetAlone) {
  for (const double ml : {1.0, 1.6, 1.8, 1.99}) {
    const auto sheet =
        reckoned(fmt::format("recipe: test\nlots:\n  T7: {{colour: white, stage: wine, volume: 1 ± 0.5 hL, pH: 3.5, "
                             "titratable acidity: 5 g/L "
                             "as tartaric acid, ethanol: 12 % vol}}\nsteps:\n  - blend.scale: {{substance: bentonite, "
                             "stock: 50 g/L, sample: "
                             "100 mL, aliquot: {:.2f} mL, slurry: 50 g/L}}\n  - acid.addition: {{add: 0.5 g/L}}\n",
                             ml));
    ASSERT_EQ(sheet.steps.size(), 2U);
    EXPECT_FALSE(sheet.steps[1].outcome.additions.empty());
  }
}

}  // namespace chance_test
