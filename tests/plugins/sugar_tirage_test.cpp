// sugar.enrichment of a cuvée for its second fermentation: tirage liqueur, which the law bounds by itself.
// Commission Delegated Regulation (EU) 2019/934, Annex II (from memory): all of it together adds at most
// 1.5 % vol. What pressure it makes is held against the bottles.
#include "tests/plugins/blend.hpp"
#include "tests/plugins/held.hpp"
#include "tests/plugins/run.hpp"

namespace vatwright::test {
namespace sugar_tirage_test {

constexpr double natural = 10 + 1 / 16.83;  // % vol: the alcohol of `cuvee`, and what its sugar can become

std::string cuvee(const std::string& more = {}) {
  return "volume: 1000 L, stage: wine, class: sparkling, colour: white, ethanol: 10 % vol, sugar: 1 g/L" + more;
}
// In bottles that stand whatever the law allows.
std::string to(const std::string& strength, const std::string& more = ", rated pressure: 12 bar") {
  return "sugar.enrichment: {target potential alcohol: " + strength + " % vol" + more + "}";
}
const Check* limit(const StepSheet& step) { return check(step, "strength gained by tirage liqueur"); }

TEST(SugarTirage, IsBoundedByItself) {
  const auto sheet = run(cuvee(), {to("11.5")}, "EU");
  const auto& step = sheet.steps[0];
  ASSERT_NE(limit(step), nullptr);
  EXPECT_TRUE(limit(step)->holds);
  EXPECT_EQ(check(step, "strength gained by enrichment"), nullptr);
  EXPECT_EQ(step.outcome.additions.size(), 1u);
  EXPECT_TRUE(noted(step, "taken as tirage liqueur"));
  EXPECT_TRUE(noted(step, "does not state its 'tirage gained': counted as none"));
  EXPECT_NEAR(after(sheet, "tirage gained", "% vol"), 11.5 - natural, 0.005);
  EXPECT_FALSE(sheet.lots[0].after.contains("strength gained"));
  const auto past = run_step(cuvee(), to("12"), "EU");
  EXPECT_FALSE(limit(past)->holds);
  EXPECT_TRUE(past.outcome.additions.empty());
}

// Each is within the limit by itself: 0.94 and 0.90 % vol.
TEST(SugarTirage, TwoOfOneCuveeAddUp) {
  const auto sheet = run(cuvee(), {to("11"), to("11.9")}, "EU");
  EXPECT_TRUE(limit(sheet.steps[0])->holds);
  EXPECT_EQ(sheet.steps[0].outcome.additions.size(), 1u);
  const auto& second = sheet.steps[1];
  ASSERT_NE(limit(second), nullptr);
  EXPECT_FALSE(limit(second)->holds);
  EXPECT_NEAR(number(*limit(second)->value), 11.9 - natural, 1e-9);
  EXPECT_TRUE(second.outcome.additions.empty());
  EXPECT_TRUE(has(limit(second)->remedy, "nothing was dosed. The limits allow"));
  EXPECT_TRUE(has(limit(second)->remedy, "which gives 11.55 % vol and "));
  EXPECT_FALSE(has(limit(second)->remedy, "zone"));
  EXPECT_TRUE(noted(second, "counted as none")) << "what was given before the first step is still not stated";
  EXPECT_TRUE(limit(run_step(cuvee(", tirage gained: 0 % vol"), to("11.5"), "EU"))->holds);
}

TEST(SugarTirage, InTwoStepsAsInOne) {
  const auto once = run(cuvee(), {to("11.5")}, "EU");
  const auto twice = run(cuvee(), {to("10.8"), to("11.5")}, "EU");
  EXPECT_NEAR(after(twice, "tirage gained", "% vol"), after(once, "tirage gained", "% vol"), 0.005);
  EXPECT_TRUE(limit(twice.steps[1])->holds);
}

TEST(SugarTirage, WhatWasGivenBeforeCounts) {
  const auto past = run_step(cuvee(", tirage gained: 0.9 % vol"), to("11"), "EU");
  EXPECT_FALSE(limit(past)->holds);
  EXPECT_TRUE(has(limit(past)->remedy, "which gives 10.65 % vol")) << limit(past)->remedy;
  const auto none = run_step(cuvee(", tirage gained: 1.5 % vol"), to("11"), "EU");
  EXPECT_TRUE(has(limit(none)->remedy, "leave no room for sucrose")) << limit(none)->remedy;
  // The must's own enrichment is another account; the sugar poured in thins it as it thins the wine.
  const auto enriched = run(cuvee(", strength gained: 1.5 % vol"), {to("11.5")}, "EU");
  EXPECT_TRUE(limit(enriched.steps[0])->holds);
  EXPECT_NEAR(after(enriched, "strength gained", "% vol"), 1.5 * 1000 / after(enriched, "volume", "L"), 1e-9);
}

TEST(SugarTirage, AMustGainsNone) {
  const auto sheet = run("volume: 1000 L, stage: must, class: sparkling, zone: A, colour: white, sugar: 150 g/L",
                         {to("10", "")}, "EU");
  EXPECT_TRUE(sheet.lots[0].after.contains("strength gained"));
  EXPECT_FALSE(sheet.lots[0].after.contains("tirage gained"));
}

// 30 hL with 1.2 % vol and 10 hL without: 0.9 % vol (arithmetic), which leaves 0.6.
TEST(SugarTirage, ABlendCountsItOn) {
  const auto made = [](const std::string& target) {
    static TestHouse house;
    return house.run(
        "recipe: test\nrules: EU\nlots:\n"
        "  A: {volume: 30 hL, stage: wine, class: sparkling, ethanol: 11 % vol, sugar: 1 g/L, tirage gained: 1.2 % "
        "vol}\n"
        "  B: {volume: 10 hL, stage: wine, class: sparkling, ethanol: 11 % vol, sugar: 1 g/L}\n"
        "steps:\n  - blend.mix: {lots: {A: 30 hL, B: 10 hL}, into: C}\n"
        "  - sugar.enrichment: {lot: C, target potential alcohol: " +
        target + " % vol, rated pressure: 12 bar}\n");
  };
  const auto within = made("11.6");
  EXPECT_TRUE(limit(within.steps[1])->holds);
  EXPECT_NEAR(of_blend(within, "tirage gained", "% vol"), 0.9 + 11.6 - (11 + 1 / 16.83), 0.005);
  EXPECT_FALSE(limit(made("11.8").steps[1])->holds);
}

// --- the bottles

const Check* bottles(const StepSheet& step) { return check(step, "overpressure at 20 °C"); }

// The number that comes after `words`.
double told(const std::string& text, const std::string& words) {
  const auto at = text.find(words);
  EXPECT_NE(at, std::string::npos) << text;
  return std::stod(text.substr(at + words.size()));
}

TEST(SugarTirage, BottlesThatAreNotRatedGetSixBar) {
  const auto step = run_step(cuvee(), to("11.5", ""), "EU");
  ASSERT_NE(bottles(step), nullptr);
  EXPECT_FALSE(bottles(step)->holds);
  EXPECT_EQ(bottles(step)->relation, "at most");
  EXPECT_NEAR(number(*bottles(step)->limit), 6, 1e-9);
  EXPECT_TRUE(has(bottles(step)->source, "common practice, no source"));
  EXPECT_TRUE(step.outcome.additions.empty());
  EXPECT_EQ(result(step, "mass"), 0);
  EXPECT_TRUE(noted(step, "'rated pressure' of the bottles was not given"));
  EXPECT_TRUE(limit(step)->holds);
  const auto rated = run_step(cuvee(), to("11.5", ", rated pressure: 8 bar"), "EU");
  EXPECT_TRUE(bottles(rated)->holds);
  EXPECT_EQ(rated.outcome.additions.size(), 1u);
  EXPECT_FALSE(noted(rated, "was not given"));
}

// By hand: 35.7 g/L x 0.48857 x 0.95 = 16.57 g/L; 16.57 / (1.951e-5 x (0.86 - 0.1245)) = 11.55e5 Pa, which
// is 10.53 bar above the air.
// Outside check of sugar.enrichment: 2 values within 0.05 g/L and 0.05 bar, derived.
// Source: formula of fermentation; Regulation (EEC) No 2676/90, chapter 37, as quoted.
TEST(SugarTirage, SugarThatWasLeftCounts) {
  const auto step = run_step("volume: 10 hL, stage: wine, class: sparkling, ethanol: 10.5 % vol, sugar: 8 g/L",
                             "sugar.enrichment: {target potential alcohol: 12.45 % vol, rated pressure: 12 bar}");
  EXPECT_NEAR(result(step, "sugar"), 35.7, 0.05);
  EXPECT_NEAR(result(step, "carbon dioxide"), 16.57, 0.05);
  EXPECT_NEAR(result(step, "overpressure at 20 °C"), 10.53, 0.05);
}

// What the failing check names is dosed and keeps the pressure, and a little more does not.
TEST(SugarTirage, WhatIsAllowedIsAllowed) {
  for (const std::string more :
       {"", ", rated pressure: 4 bar", ", substance: rectified concentrated must, strength: 65 °Brix"}) {
    const auto past = run_step(cuvee(), to("11.5", more));
    ASSERT_FALSE(bottles(past)->holds) << more;
    const double most = told(bottles(past)->remedy, "which gives ");
    EXPECT_TRUE(has(bottles(past)->remedy, "g/L of sugar in all: lower the target; or take bottles"));
    const auto kept = run_step(cuvee(), to(std::to_string(most), more));
    EXPECT_TRUE(bottles(kept)->holds) << most << more;
    EXPECT_EQ(kept.outcome.additions.size(), 1u) << more;
    EXPECT_NEAR(number(*bottles(kept)->value), number(*bottles(kept)->limit), 0.08) << more;
    EXPECT_FALSE(bottles(run_step(cuvee(), to(std::to_string(most + 0.03), more)))->holds) << more;
  }
}

// The stricter of law and bottles is what is allowed.
TEST(SugarTirage, TheLawMayBeTheStricter) {
  const auto step = run_step(cuvee(), to("12.5", ", rated pressure: 10 bar"), "EU");
  EXPECT_FALSE(limit(step)->holds);
  EXPECT_FALSE(bottles(step)->holds);
  EXPECT_TRUE(has(bottles(step)->remedy, "which gives 11.55 % vol")) << bottles(step)->remedy;
}

TEST(SugarTirage, SugarThatIsThereMayBeTooMuch) {
  const std::string sweet = "volume: 1000 L, stage: wine, class: sparkling, ethanol: 10 % vol, sugar: 30 g/L";
  const auto past = run_step(sweet, to("12.5", ""));
  EXPECT_TRUE(has(bottles(past)->remedy, "leave no room for sucrose")) << bottles(past)->remedy;
  const auto enough = run_step(sweet, to("11", ""));
  EXPECT_FALSE(bottles(enough)->holds);
  EXPECT_TRUE(has(bottles(enough)->remedy, "do not bottle it"));
  EXPECT_TRUE(enough.outcome.additions.empty());
  EXPECT_NEAR(result(enough, "carbon dioxide"), 30 * 0.48857 * 0.95, 1e-3);
}

// A cuvée that has alcohol and does not say its stage is one all the same.
TEST(SugarTirage, StageNotStated) {
  const std::string lot = "volume: 1000 L, class: sparkling, ethanol: 10 % vol, sugar: 1 g/L";
  EXPECT_FALSE(bottles(run_step(lot, to("11.5", "")))->holds);
  EXPECT_EQ(bottles(run_step(lot + ", stage: must", to("11.5", ""))), nullptr);
  EXPECT_TRUE(noted(run_step("volume: 1000 L, stage: wine, ethanol: 10 % vol, sugar: 1 g/L", to("11.5", "")),
                    "say 'class: sparkling', and the pressure is reckoned"));
}

TEST(SugarTirage, WhatItRestsOnIsAskedFor) {
  const std::string lot = "volume: 1000 L, stage: wine, class: sparkling";
  EXPECT_TRUE(
      has(refusal(lot + ", ethanol: 10 % vol, density: 992 g/L", to("11.5")), "not by refractometer or density"));
  EXPECT_TRUE(has(refusal(lot + ", sugar: 1 g/L", to("11.5")), "give its 'ethanol'"));
  const std::string must = "volume: 1000 L, stage: must, sugar: 170 g/L";
  EXPECT_TRUE(has(refusal(must, to("11.5")), "a rated pressure was given, but"));
  EXPECT_TRUE(has(refusal(must, to("11.5", ", substance: tirage liqueur")), "tirage liqueur is for sparkling wine"));
}

TEST(SugarTirage, ItsCautionsAreThoseOfBottles) {
  for (const std::string more :
       {"", ", substance: tirage liqueur", ", substance: rectified concentrated must, strength: 65 °Brix",
        ", substance: tirage liqueur of concentrated must, strength: 65 °Brix"}) {
    const auto step = run_step(cuvee(), to("11", more));
    ASSERT_EQ(step.added.size(), 1u) << more;
    const auto& substance = *step.added[0];
    EXPECT_TRUE(has(substance.name(), "(tirage liqueur")) << more;
    EXPECT_TRUE(has(substance.cautions.at(0), "can burst")) << more;
    for (const auto& line : substance.handling) EXPECT_FALSE(has(line, "must,")) << line;
    EXPECT_FALSE(noted(step, "part of the must")) << more;
    EXPECT_EQ(step.outcome.work.size(), 2u);
    const double asked = told(step.outcome.work.at(1), "rate for ");
    EXPECT_GE(asked, result(step, "overpressure at 20 °C")) << more;
    EXPECT_LE(asked, result(step, "overpressure at 20 °C") + 0.1) << more;
  }
}

TEST(SugarTirage, LessThanSparklingWineMustHave) {
  EXPECT_TRUE(noted(run_step(cuvee(), to("10.5", ""), "EU"), "is less than sparkling wine must have, 3.0 bar"));
  EXPECT_FALSE(noted(run_step(cuvee(), to("11", ""), "EU"), "is less than"));
}

// More sugar in the cuvée than was stated: the sugar that was weighed stays, and the pressure rises.
TEST(SugarTirage, TheDoseStaysWhenTheReadingMoves) {
  TestHouse house;
  const auto sheet = house.run(recipe(cuvee(), {to("11.3")}));
  HeldStep held(sheet.steps.at(0));
  held.move("sugar", 4);
  const auto moved = held.run();
  const auto& first = sheet.steps[0].outcome.results;
  ASSERT_EQ(moved.results.size(), first.size());
  EXPECT_EQ(moved.results.at(0).number, first.at(0).number);
  EXPECT_GT(moved.results.back().number, first.back().number + 1e5);
  EXPECT_TRUE(moved.notes.empty() && moved.tables.empty() && moved.opinions.empty());
}

}  // namespace sugar_tirage_test
}  // namespace vatwright::test
