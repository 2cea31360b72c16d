// sugar.enrichment and sugar.fortification of a lot that has what is asked for: nothing is added, nothing
// refused.
#include "tests/plugins/held.hpp"

namespace vatwright::test {
namespace sugar_enough_test {

const std::string must = "volume: 1000 L, sugar: 176.715 g/L, stage: must";

TEST(SugarEnough, AMustAtItsTargetNeedsNothing) {
  for (const std::string target : {"9", "10.5"}) {  // it has 10.5 % vol
    SCOPED_TRACE(target);
    const auto sheet = run(must + ", zone: B, colour: pink",
                           {"sugar.enrichment: {target potential alcohol: " + target + " % vol}"}, "EU");
    const auto& step = sheet.steps[0];
    EXPECT_TRUE(sheet.holds());
    EXPECT_TRUE(step.outcome.additions.empty() && step.outcome.work.empty() && step.outcome.changes.empty());
    EXPECT_EQ(result(step, "mass"), 0);
    EXPECT_NEAR(result(step, "potential alcohol"), 10.5, 1e-9);
    EXPECT_NEAR(result(step, "volume"), 1000, 1e-9);
    ASSERT_EQ(step.outcome.checks.size(), 1u);
    EXPECT_EQ(step.outcome.checks[0].relation, "at least");
    EXPECT_TRUE(noted(step, "strong enough already: 10.50 % vol"));
  }
  // Its sugar is reckoned from its density, and what hangs on that is said.
  EXPECT_TRUE(
      noted(run_step("volume: 1000 L, density: 1090 kg/m³", "sugar.enrichment: {target potential alcohol: 9 % vol}"),
            "reckoned from its density"));
}

// Regulation (EU) No 1308/2013, Annex VIII, Part I: the ceilings are those of what was enriched.
TEST(SugarEnough, AMustThatGrewStrongPassesNoCeiling) {
  const std::string strong = "volume: 1000 L, sugar: 220 g/L, stage: must, zone: A, colour: white";
  const std::string step = "sugar.enrichment: {target potential alcohol: 12 % vol}";
  EXPECT_TRUE(run(strong, {step}, "EU").holds());
  const auto enriched = run_step(strong + ", strength gained: 2 % vol", step, "EU");
  EXPECT_FALSE(check(enriched, "total strength after enrichment limit, EU")->holds);
  EXPECT_TRUE(check(enriched, "strength gained by enrichment limit, EU")->holds);
  EXPECT_TRUE(check(enriched, "target potential alcohol")->holds);
}

TEST(SugarEnough, AWineAtItsTargetNeedsNothing) {
  for (const std::string rest :
       {"spirit: 77 % vol, target ethanol: 12 % vol", "spirit: 77 % vol, target ethanol: 14 % vol",
        "spirit: 20 % vol, target ethanol: 14 % vol"}) {
    SCOPED_TRACE(rest);
    const auto sheet = run("volume: 100 L, ethanol: 14 % vol, pH: 3.5", {"sugar.fortification: {" + rest + "}"});
    const auto& step = sheet.steps[0];
    EXPECT_TRUE(sheet.holds());
    EXPECT_TRUE(step.outcome.additions.empty() && step.outcome.work.empty() && step.outcome.changes.empty());
    EXPECT_TRUE(step.outcome.opinions.empty());
    EXPECT_EQ(result(step, "spirit volume"), 0);
    EXPECT_EQ(result(step, "spirit by cross-mixing"), 0);
    EXPECT_NEAR(result(step, "ethanol"), 14, 1e-6);
    EXPECT_NEAR(after(sheet, "pH", "pH"), 3.5, 1e-12);
    EXPECT_TRUE(noted(step, "strong enough already: 14.00 % vol"));
    EXPECT_EQ(check(step, "target ethanol")->relation, "at least");
  }
}

// --- draws

TEST(SugarEnough, NothingStaysNothingWhereTheReadingsMove) {
  constexpr struct {
    const char *lot, *step, *reading;
    double by;
  } rows[] = {
      {"volume: 1000 L, sugar: 200 g/L", "sugar.enrichment: {target potential alcohol: 11.5 % vol}", "sugar", -20},
      {"volume: 540 L, ethanol: 17.1 % vol", "sugar.fortification: {spirit: 77 % vol, target ethanol: 17 % vol}",
       "ethanol", -0.02}};
  for (const auto& row : rows) {
    SCOPED_TRACE(row.step);
    HeldStep held(run_step(row.lot, row.step));
    held.move(row.reading, row.by);
    const Outcome moved = held.run();
    for (const auto& value : moved.results)
      if (value.info->decided) {
        EXPECT_EQ(value.number, 0) << value.info->name;
      }
    EXPECT_TRUE(moved.changes.empty() && moved.additions.empty());
  }
}

}  // namespace sugar_enough_test
}  // namespace vatwright::test
