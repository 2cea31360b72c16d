// acid.addition and acid.reduction for an amount that was decided on elsewhere: the same dose, forecast and law as for
// the target that it reaches.
#include "tests/plugins/run.hpp"

#include <fmt/format.h>

#include <random>

namespace vatwright::test {
namespace stated_acid_test {

double grams(const StepSheet& step) { return step.outcome.additions.at(0).mass.value().value() * 1000; }

// What a target asks for, stated as an amount, is weighed alike and moves the lot alike.
TEST(StatedAcid, AmountAndTargetAgree) {
  std::mt19937 random(59);
  const auto between = [&](double low, double high) { return std::uniform_real_distribution(low, high)(random); };
  for (int turn = 0; turn < 60; ++turn) {
    const bool up = turn % 2 == 0;
    const double ph = up ? between(3.3, 3.8) : between(2.9, 3.2), acidity = up ? between(4, 6) : between(9, 13);
    const auto lot = fmt::format(
        "volume: {:.1f} hL, pH: {:.3f}, titratable acidity: {:.3f} g/L as tartaric acid, tartaric acid: 4.5 g/L, malic "
        "acid: 2 g/L, potassium: 1100 mg/L, ethanol: 12 % vol, stage: wine",
        between(10, 200), ph, acidity);
    const auto call = std::string(up ? "acid.addition: {" : "acid.reduction: {substance: potassium bicarbonate, ");
    const auto target = fmt::format("target titratable acidity: {:.3f} g/L as tartaric acid",
                                    acidity + (up ? 1 : -1) * between(0.3, 1.5));
    SCOPED_TRACE(lot + ", " + call + target);
    const auto aimed = run(lot, {call + target + "}"});
    if (aimed.steps[0].outcome.additions.empty()) continue;
    const auto stated = run(lot, {call + fmt::format("add: {:.9f} g/L", result(aimed.steps[0], "dose")) + "}"});
    EXPECT_NEAR(grams(stated.steps[0]), grams(aimed.steps[0]), 1e-6 * grams(aimed.steps[0]));
    EXPECT_NEAR(result(stated.steps[0], "pH"), result(aimed.steps[0], "pH"), 1e-6);
    EXPECT_NEAR(after(stated, "titratable acidity", "g/L as tartaric acid"),
                after(aimed, "titratable acidity", "g/L as tartaric acid"), 1e-6);
    EXPECT_FALSE(stated.steps[0].added.at(0)->cautions.empty());
  }
}

TEST(StatedAcid, NoStatedAmountPassesTheLaw) {
  const std::string wine =
      "volume: 48 hL, pH: 3.6, titratable acidity: 4.6 g/L as tartaric acid, ethanol: 12.6 % vol, stage: wine, class: "
      "still, colour: pink, acid added: 0 g/L as tartaric acid";
  const auto past = run_step(wine, "acid.addition: {add: 5 g/L}", "EU");
  EXPECT_TRUE(past.outcome.additions.empty());
  EXPECT_FALSE(past.outcome.holds());
  const auto within = run_step(wine, "acid.addition: {add: 1 g/L}", "EU");
  EXPECT_EQ(within.outcome.additions.size(), 1U);
}

TEST(StatedAcid, MoreCarbonateThanThereIsAcidIsRefused) {
  EXPECT_TRUE(has(refusal("volume: 10 hL, pH: 3.5, titratable acidity: 4 g/L as tartaric acid, stage: wine",
                          "acid.reduction: {substance: calcium carbonate, add: 9 g/L}"),
                  "finds no acid to take"));
}

}  // namespace stated_acid_test
}  // namespace vatwright::test
