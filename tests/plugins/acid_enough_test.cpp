// acid.addition and acid.reduction of a lot that is at its target or past it: nothing is added, nothing
// refused, and draws of the readings change neither.
#include "host/sheet/to_do.hpp"
#include "tests/plugins/held.hpp"

#include <fmt/format.h>

namespace vatwright::test {
namespace acid_enough_test {

const std::string wine =
    "volume: 48 hL, pH: 3.42, titratable acidity: 5.1 g/L as tartaric acid, ethanol: 12.6 % vol, stage: wine, "
    "tartaric acid: 2.1 g/L, malic acid: 1.4 g/L";

struct Past {
  std::string calculation, target;
  const char *relation, *note;
};
const Past past[] = {
    {"acid.addition", "target pH: 3.50", "at most",
     "low enough already: the lot has pH 3.42, and the target is pH 3.50; what brings it up to that is acid.reduction"},
    {"acid.addition", "target titratable acidity: 5.0 g/L as tartaric acid", "at least",
     "high enough already: the lot has 5.10 g/L as tartaric acid, and the target is 5.00 g/L as tartaric acid; what "
     "brings it down to that is acid.reduction"},
    {"acid.reduction", "target pH: 3.30", "at least",
     "high enough already: the lot has pH 3.42, and the target is pH 3.30; what brings it down to that is "
     "acid.addition"},
    {"acid.reduction", "target titratable acidity: 6.0 g/L as tartaric acid", "at most",
     "low enough already: the lot has 5.10 g/L as tartaric acid, and the target is 6.00 g/L as tartaric acid; what "
     "brings it up to that is acid.addition"}};

std::vector<std::string> substances_of(const std::string& calculation) {
  if (calculation == "acid.addition")
    return {"tartaric acid", "malic acid", "lactic acid, strength: 80 % mass", "citric acid",
            "citric acid monohydrate"};
  return {"calcium carbonate", "potassium bicarbonate", "potassium carbonate", "double-salt treatment",
          "double-salt treatment, acidity left: 6 g/L as tartaric acid"};
}

std::string step_of(const Past& one, const std::string& substance) {
  return fmt::format("{}: {{{}, substance: {}}}", one.calculation, one.target, substance);
}

TEST(AcidEnough, ALotPastItsTargetNeedsNothing) {
  for (const auto& one : past)
    for (const auto& substance : substances_of(one.calculation)) {
      SCOPED_TRACE(step_of(one, substance));
      const auto sheet = run(wine, {step_of(one, substance)});
      const auto& step = sheet.steps.at(0);
      EXPECT_TRUE(sheet.holds());
      EXPECT_EQ(idle_in_a_row(sheet), std::vector<std::string>{"nothing to add"});
      EXPECT_TRUE(step.outcome.changes.empty());
      EXPECT_EQ(result(step, "dose"), 0);
      EXPECT_NEAR(result(step, "pH"), 3.42, 1e-6);
      EXPECT_NEAR(result(step, "titratable acidity"), 5.1, 1e-6);
      EXPECT_GT(result(step, "buffer capacity"), 0);
      ASSERT_EQ(step.outcome.checks.size(), 1u);
      const Check& asked = step.outcome.checks[0];
      EXPECT_TRUE(asked.name == "target pH" || asked.name == "target titratable acidity") << asked.name;
      EXPECT_TRUE(asked.holds);
      EXPECT_EQ(asked.relation, one.relation);
      EXPECT_EQ(asked.source, "as asked for");
      EXPECT_TRUE(noted(step, one.note));
      if (has(substance, "double-salt")) {
        EXPECT_EQ(result(step, "treated volume"), 0);
      }
    }
}

TEST(AcidEnough, ALotAtItsTargetHasWhatWasAskedFor) {
  for (const std::string step :
       {"acid.addition: {target pH: 3.42}", "acid.reduction: {target pH: 3.42, substance: double-salt treatment}"}) {
    const auto sheet = run(wine, {step});
    EXPECT_TRUE(sheet.holds()) << step;
    EXPECT_EQ(idle_in_a_row(sheet), std::vector<std::string>{"nothing to add"}) << step;
    EXPECT_TRUE(noted(sheet.steps[0], "enough already: the lot has pH 3.42, as asked for")) << step;
  }
}

// What is amiss in the recipe is said all the same, and a target on the right side may be out of reach.
TEST(AcidEnough, WhatCannotBeIsStillRefused) {
  EXPECT_TRUE(has(refusal(wine, "acid.addition: {target pH: 3.5, substance: lactic acid}"), "needs its strength"));
  EXPECT_TRUE(has(refusal(wine, "acid.reduction: {target pH: 3.3, acidity left: 2 g/L as tartaric acid}"),
                  "goes into the whole lot"));
  EXPECT_TRUE(has(refusal(wine, "acid.addition: {target pH: 2.0}"), "cannot be reached"));
  EXPECT_TRUE(has(refusal(wine,
                          "acid.reduction: {target pH: 3.5, substance: double-salt treatment, acidity left: 6 g/L as "
                          "tartaric acid}"),
                  "the lot has no more than"));
}

// --- the law, as for a dose of nothing

// 27 CFR 24.182 (from memory) bounds what acid was added to, and 27 CFR 24.246 and the OIV's chapter on
// deacidification what acid was taken from: not a wine that grew so.
TEST(AcidEnough, LimitsOfWhatIsLeftBindATreatedLotAlone) {
  struct Row {
    const char *lot, *treated, *step, *limit, *rules;
  };
  const Row rows[] = {
      {"pH: 3.1, titratable acidity: 9.6 g/L as tartaric acid, sugar: 2 g/L", "acid added: 1 g/L as tartaric acid",
       "acid.addition: {target pH: 3.2}", "fixed acidity after acidification", "US"},
      {"pH: 3.6, titratable acidity: 4.6 g/L as tartaric acid, sugar: 2 g/L", "acid removed: 1 g/L as tartaric acid",
       "acid.reduction: {target pH: 3.5}", "fixed acidity after deacidification", "US"},
      {"pH: 3.6, titratable acidity: 4.6 g/L as tartaric acid, tartaric acid: 0.6 g/L",
       "acid removed: 1 g/L as tartaric acid", "acid.reduction: {target pH: 3.5}", "residual tartaric acid", "OIV"}};
  for (const auto& row : rows) {
    SCOPED_TRACE(row.limit);
    const std::string lot = std::string("volume: 10 hL, stage: wine, ethanol: 12 % vol, ") + row.lot;
    const auto grown = run(lot, {row.step}, row.rules);
    EXPECT_TRUE(grown.holds());
    EXPECT_EQ(check(grown.steps[0], row.limit), nullptr);
    const auto treated = run(lot + ", " + row.treated, {row.step}, row.rules);
    ASSERT_NE(check(treated.steps[0], row.limit), nullptr);
    EXPECT_FALSE(check(treated.steps[0], row.limit)->holds);
    EXPECT_EQ(idle_in_a_row(treated), std::vector<std::string>{"nothing to add; a check fails"});
    EXPECT_TRUE(check(treated.steps[0], "target pH")->holds);
  }
}

// Regulation (EU) No 1308/2013: 3.5 g/L as tartaric acid in any wine (seen in a secondary source), and 4 g/L
// added in all (from memory). What was done before stands in the way of a dose, not of none.
TEST(AcidEnough, LimitsOfTheLotAsItStandsAreHeld) {
  const std::string lot = "volume: 10 hL, stage: wine, ethanol: 12 % vol, pH: 3.6, titratable acidity: ";
  const auto thin = run_step(lot + "3.2 g/L as tartaric acid", "acid.reduction: {target pH: 3.5}", "EU");
  ASSERT_NE(check(thin, "total acidity of wine limit, EU"), nullptr);
  EXPECT_FALSE(check(thin, "total acidity of wine limit, EU")->holds);
  EXPECT_TRUE(check(thin, "target pH")->holds);
  const auto much = run_step(lot + "6 g/L as tartaric acid, acid added: 4.5 g/L as tartaric acid",
                             "acid.addition: {target pH: 3.7}", "EU");
  EXPECT_FALSE(check(much, "added acidity limit, EU")->holds);
  const auto reduced = run(lot + "6 g/L as tartaric acid, acid removed: 0.5 g/L as tartaric acid",
                           {"acid.addition: {target pH: 3.7}"}, "EU");
  EXPECT_TRUE(reduced.holds());
  EXPECT_EQ(idle_in_a_row(reduced), std::vector<std::string>{"nothing to add"});
}

// --- draws

TEST(AcidEnough, NothingStaysNothingWhereTheReadingsMove) {
  for (const auto& one : past)
    for (const auto& substance : substances_of(one.calculation)) {
      SCOPED_TRACE(step_of(one, substance));
      const auto step = run_step(wine, step_of(one, substance));
      // Far enough that the lot has not met its target any more.
      const double to_the_other_side = one.calculation == "acid.addition" ? 0.3 : -0.3;
      HeldStep held(step);
      held.move("pH", to_the_other_side);
      const auto moved = held.run();
      ASSERT_EQ(moved.results.size(), step.outcome.results.size());
      for (const auto& value : moved.results) {
        if (value.info->decided) {
          EXPECT_EQ(value.number, 0) << value.info->name;
        }
        if (value.info->name == "pH") {
          EXPECT_NEAR(value.number, 3.42 + to_the_other_side, 1e-6);
        }
      }
      EXPECT_TRUE(moved.changes.empty());
    }
}

// What the rounding of a dose leaves is not dosed again: 4.02 kg into 50 hL, of 4.0241 kg that were wanted.
TEST(AcidEnough, TheSameStepTwiceAddsOnce) {
  const std::string lot =
      "volume: 50 hL, stage: wine, ethanol: 12.1 % vol, pH: 3.40, titratable acidity: 5.4 g/L as tartaric acid";
  for (const std::string step :
       {"acid.addition: {target pH: 3.30}", "acid.addition: {target pH: 3.37}",
        "acid.addition: {target titratable acidity: 6.3 g/L as tartaric acid}",
        "acid.addition: {target titratable acidity: 5.87 g/L as tartaric acid, substance: malic acid}",
        "acid.reduction: {target pH: 3.48}", "acid.reduction: {target titratable acidity: 4.9 g/L as tartaric acid}"}) {
    SCOPED_TRACE(step);
    const auto sheet = run(lot, {step, step});
    EXPECT_EQ(sheet.steps.at(0).outcome.additions.size(), 1U);
    EXPECT_TRUE(sheet.steps.at(1).outcome.additions.empty());
    EXPECT_TRUE(sheet.holds());
    EXPECT_EQ(idle_words(sheet.steps[1]), "nothing to add");
  }
}

// What a sheet shows to be missing is dosed.
TEST(AcidEnough, ADifferenceThatIsSeenIsDosed) {
  for (const std::string step : {"acid.addition: {target pH: 3.41}", "acid.reduction: {target pH: 3.43}"})
    EXPECT_EQ(run(wine, {step}).steps.at(0).outcome.additions.size(), 1U) << step;
}

// The lot lies near its target, so that half of the draws would be dosed: none of them is refused, and what
// is expected of the lot is what is known of it.
TEST(AcidEnough, NoDrawIsRefused) {
  TestHouse house;
  const std::string lot = std::string(wine).replace(wine.find("3.42"), 4, "3.42 ± 0.03");
  for (const std::string step :
       {"acid.addition: {target pH: 3.43}", "acid.reduction: {target pH: 3.41}",
        "acid.reduction: {target pH: 3.41, substance: double-salt treatment}",
        "acid.reduction: {target pH: 3.41, substance: double-salt treatment, acidity left: 5.2 g/L as tartaric acid}"})
    for (const Draws& draws : {Draws{}, Draws{400, 1}}) {
      SCOPED_TRACE(step);
      const auto sheet = house.bench().run(read_recipe(Document::read("recipe.yaml", recipe(lot, {step}))), draws);
      EXPECT_EQ(sheet.uncertainty.failed, 0u);
      EXPECT_EQ(idle_in_a_row(sheet), std::vector<std::string>{"nothing to add"});
      const auto& out = sheet.steps.at(0);
      ASSERT_EQ(out.outcome.results.at(1).info->name, "pH");
      EXPECT_NEAR(out.result_spreads.at(1).standard, 0.03, 0.004);
    }
}

}  // namespace acid_enough_test
}  // namespace vatwright::test
