// sugar.dosage: balances, and the sweetness terms at every limit of the law.
#include "tests/plugins/run.hpp"

#include <fmt/format.h>

#include <random>

namespace vatwright::test {
namespace sugar_dosage_test {

StepSheet dose(double sugar, const std::string& wanted, const std::string& more = {}) {
  return run_step(fmt::format("volume: 750 L, class: sparkling, stage: wine, ethanol: 12 % vol, sugar: {} g/L", sugar),
                  "sugar.dosage: {liqueur sugar: 600 g/L, liqueur ethanol: 12 % vol, " + wanted + more + "}", "EU");
}

// Sugar and alcohol add up at a fixed fill, whatever wine and liqueur.
// Outside check of sugar.dosage: 200 values within the step of a doser, derived.
// Source: V = Vb (ct - c0) / (cl - c0) and the balance of alcohol, worked out apart from this program.
TEST(SugarDosage, BalancesAtAFixedFill) {
  std::mt19937 random(9);
  const auto between = [&](double low, double high) { return std::uniform_real_distribution(low, high)(random); };
  for (int i = 0; i < 100; ++i) {
    // As they are written into the recipe.
    const auto two = [](double x) { return std::round(100 * x) / 100; };
    const double now = two(between(0, 3)), wanted = two(between(6, 50)), sweet = two(between(500, 750)),
                 spirit = two(between(0, 14));
    const auto step = run_step(
        fmt::format("volume: 900 L, class: sparkling, stage: wine, ethanol: 11.8 % vol, sugar: {:.3f} g/L", now),
        fmt::format(
            "sugar.dosage: {{liqueur sugar: {:.2f} g/L, liqueur ethanol: {:.2f} % vol, target sugar: {:.2f} g/L}}",
            sweet, spirit, wanted));
    const double exact = 750 * (wanted - now) / (sweet - now);
    const double given = result(step, "liqueur a bottle");
    EXPECT_NEAR(given, exact, 0.0501);
    EXPECT_NEAR(result(step, "ethanol"), (11.8 * (750 - given) + spirit * given) / 750, 0.01);
    EXPECT_NEAR(result(step, "liqueur"), given / 750 * 900, 1e-6);
  }
}

// Outside check of sugar.dosage: 12 values within 1e-9, seen.
// Source: Delegated Regulation (EU) 2019/33, Annex III, Part A.
TEST(SugarDosage, TermsAtEveryLimit) {
  for (const auto& [sugar, fits, not_so] : {std::tuple{2.99, "brut nature", "'extra dry'"},
                                            {3.0, "extra brut", "brut nature"},
                                            {6.0, "extra brut", "extra dry"},
                                            {6.01, "'brut'", "extra brut"},
                                            {11.99, "'brut'", "extra dry"},
                                            {12.0, "extra dry", "'brut'"},
                                            {17.0, "extra dry", "demi-sec"},
                                            {17.01, "dry (sec)", "extra dry"},
                                            {32.0, "dry (sec)", "doux"},
                                            {32.01, "demi-sec", "dry (sec)"},
                                            {50.0, "demi-sec", "doux"},
                                            {50.01, "doux", "demi-sec"}}) {
    // The wine has that sugar already, so that nothing rounds.
    const auto step = dose(sugar, fmt::format("target sugar: {} g/L", sugar));
    EXPECT_TRUE(noted(step, fits)) << sugar;
    EXPECT_FALSE(noted(step, not_so)) << sugar;
    EXPECT_TRUE(step.outcome.additions.empty());
  }
}

TEST(SugarDosage, ATermIsMet) {
  for (const auto* word : {"extra brut", "brut", "extra dry"}) {
    const auto step = dose(1, fmt::format("sweetness term: {}", word));
    EXPECT_TRUE(step.outcome.holds());
    EXPECT_TRUE(noted(step, fmt::format("'{}'", word))) << word;
  }
  EXPECT_NEAR(result(dose(1, "sweetness term: brut"), "sugar"), 9, 0.1);
  EXPECT_TRUE(
      has(refusal("volume: 1 hL, class: sparkling, ethanol: 12 % vol, sugar: 1 g/L",
                  "sugar.dosage: {liqueur sugar: 600 g/L, liqueur ethanol: 9 % vol, sweetness term: brutal}", "EU"),
          "no rule set of this recipe has the sweetness term"));
}

TEST(SugarDosage, SpiritInTheLiqueurIsHeldAgainstTheLaw) {
  const auto step =
      run_step("volume: 750 L, class: sparkling, stage: wine, ethanol: 12 % vol, sugar: 1 g/L",
               "sugar.dosage: {liqueur sugar: 300 g/L, liqueur ethanol: 40 % vol, target sugar: 12 g/L}", "EU");
  EXPECT_FALSE(check(step, "strength gained by expedition liqueur")->holds);
  EXPECT_TRUE(step.outcome.additions.empty());
}

TEST(SugarDosage, AStillWineGetsNone) {
  EXPECT_TRUE(has(refusal("volume: 1 hL, class: still, ethanol: 12 % vol, sugar: 1 g/L",
                          "sugar.dosage: {liqueur sugar: 600 g/L, liqueur ethanol: 9 % vol, target sugar: 8 g/L}"),
                  "is for sparkling wine"));
}

// The law counts all liqueur together: the rise of strength in the EU (0.5 % vol), the share of liqueur in the US
// (10 %), each as the rows of host/rules have it. Worked out apart: what earlier liqueur brought goes out with the wine
// that makes room for the next.
TEST(SugarDosage, EarlierLiqueurCounts) {
  std::mt19937 random(77);
  std::uniform_real_distribution<double> bottle(1, 9), large(5, 60);
  for (int i = 0; i < 40; ++i) {
    const bool eu = i % 2 == 0;
    const double first = std::round(10 * (eu ? bottle : large)(random)) / 10,
                 second = std::round(10 * (eu ? bottle : large)(random)) / 10;
    const double sweet = eu ? 600 : 300, strong = eu ? 60 : 12;
    const auto add = [&](double ml) {
      return fmt::format("sugar.dosage: {{liqueur sugar: {} g/L, liqueur ethanol: {} % vol, add: {:.1f} mL}}", sweet,
                         strong, ml);
    };
    const auto sheet =
        run("volume: 750 L, class: sparkling, stage: wine, colour: white, ethanol: 12 % vol, sugar: 1 g/L",
            {add(first), add(second)}, eu ? "EU" : "US");
    const double a = first / 750, b = second / 750, once = 12 + a * (strong - 12), twice = once + b * (strong - once);
    const double counted = eu ? (once - 12) * (1 - b) + (twice - once) : 100 * (a * (1 - b) + b), most = eu ? 0.5 : 10;
    const bool one = eu ? once - 12 <= 0.5 : 100 * a <= 10;
    SCOPED_TRACE(fmt::format("{} and {} mL: {}", first, second, counted));
    EXPECT_EQ(!sheet.steps[0].outcome.additions.empty(), one);
    if (!one || std::abs(counted - most) < 1e-6) continue;
    EXPECT_EQ(!sheet.steps[1].outcome.additions.empty(), counted < most);
  }
}

}  // namespace sugar_dosage_test
}  // namespace vatwright::test
