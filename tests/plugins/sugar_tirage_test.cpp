// sugar.enrichment of a cuvée for its second fermentation: tirage liqueur, which the law bounds by itself.
// Commission Delegated Regulation (EU) 2019/934, Annex II (from memory): all of it together adds at most
// 1.5 % vol.
#include "tests/plugins/blend.hpp"
#include "tests/plugins/run.hpp"

namespace vatwright::test {
namespace {

constexpr double natural = 10 + 1 / 16.83;  // % vol: the alcohol of `cuvee`, and what its sugar can become

std::string cuvee(const std::string& more = {}) {
  return "volume: 1000 L, stage: wine, class: sparkling, colour: white, ethanol: 10 % vol, sugar: 1 g/L" + more;
}
std::string to(const std::string& strength) {
  return "sugar.enrichment: {target potential alcohol: " + strength + " % vol}";
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
  EXPECT_TRUE(has(limit(second)->remedy, "which gives 11.55 % vol: lower the target"));
  EXPECT_FALSE(has(limit(second)->remedy, "zone"));
  EXPECT_FALSE(noted(second, "counted as none"));
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
  // The must's own enrichment is another account.
  const auto enriched = run(cuvee(", strength gained: 1.5 % vol"), {to("11.5")}, "EU");
  EXPECT_TRUE(limit(enriched.steps[0])->holds);
  EXPECT_NEAR(after(enriched, "strength gained", "% vol"), 1.5, 1e-12);
}

TEST(SugarTirage, AMustGainsNone) {
  const auto sheet =
      run("volume: 1000 L, stage: must, class: sparkling, zone: A, colour: white, sugar: 150 g/L", {to("10")}, "EU");
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
        target + " % vol}\n");
  };
  const auto within = made("11.6");
  EXPECT_TRUE(limit(within.steps[1])->holds);
  EXPECT_NEAR(of_blend(within, "tirage gained", "% vol"), 0.9 + 11.6 - (11 + 1 / 16.83), 0.005);
  EXPECT_FALSE(limit(made("11.8").steps[1])->holds);
}

}  // namespace
}  // namespace vatwright::test
