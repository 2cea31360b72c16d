// cold.tartrate as a user runs it.
#include "tests/plugins/run.hpp"

#include <cmath>

namespace vatwright::test {
namespace cold_tartrate_test {

const std::string unstable =
    "pH: 3.42, titratable acidity: 5.1 g/L as tartaric acid, ethanol: 12.6 % vol, potassium: 980 mg/L, "
    "tartaric acid: 2.1 g/L, malic acid: 1.4 g/L, stage: wine, class: still, ";
const std::string pink = unstable + "colour: pink";
const std::string stable =
    "pH: 3.24, titratable acidity: 5.9 g/L as tartaric acid, ethanol: 12.1 % vol, potassium: 530 mg/L, "
    "tartaric acid: 1.3 g/L, malic acid: 2.1 g/L, colour: pink, stage: wine, class: still";

TEST(ColdTartrate, JudgesByColourAndNamesTheTest) {
  const auto fails = run_step(pink, "cold.tartrate: {model: pure solution}");
  const auto* verdict = check(fails, "bitartrate stable at -4.0 °C (pink)");
  ASSERT_NE(verdict, nullptr);
  EXPECT_FALSE(verdict->holds);
  EXPECT_NEAR(number(*verdict->limit), 14, 1e-9);
  EXPECT_TRUE(has(verdict->source, "not confirmed"));
  EXPECT_TRUE(has(verdict->remedy, "cold.treatment"));
  EXPECT_TRUE(noted(fails, "the cold test settles it"));
  EXPECT_TRUE(noted(fails, "8 % under"));

  const auto holds = run_step(stable, "cold.tartrate: {model: pure solution}");
  EXPECT_TRUE(check(holds, "bitartrate stable")->holds);
  EXPECT_TRUE(noted(holds, "the cold test settles it"));

  const auto limit = [](const std::string& lot) {
    return number(*check(run_step(lot, "cold.tartrate: {model: pure solution}"), "bitartrate stable")->limit);
  };
  EXPECT_NEAR(limit(unstable + "colour: white"), 12.5, 1e-9);
  EXPECT_NEAR(limit(unstable + "colour: red"), 22, 1e-9);
  EXPECT_NEAR(limit("pH: 3.1, titratable acidity: 7 g/L as tartaric acid, ethanol: 10.8 % vol, potassium: 700 mg/L, "
                    "tartaric acid: 2.5 g/L, colour: pink, class: sparkling"),
              8, 1e-9);
}

// What falls out, what is left and what the lot was make one sum (to 1e-9 in tests/published; here as far
// as the atomic weights below go).
TEST(ColdTartrate, ClosesItsBalance) {
  const auto step = run_step(pink, "cold.tartrate: {model: pure solution}");
  const auto precipitate = result(step, "precipitate");
  // 188.177, 39.0983 and 150.087 g/mol: IUPAC abridged atomic weights.
  const double moles = precipitate / 188.177;
  EXPECT_NEAR(980 - result(step, "potassium"), moles * 39098.3, 1e-2);
  EXPECT_NEAR(2.1 - result(step, "tartaric acid"), moles * 150.087, 1e-4);
  const double potassium = (980 - result(step, "potassium")) / 39098.3;
  const double tartaric = (2.1 - result(step, "tartaric acid")) / 150.087;
  EXPECT_NEAR(potassium, tartaric, 1e-5 * tartaric);
}

// A wine holds back what practice lets it hold: less falls out than of the pure solution, which stands beside it; the
// verdict is the same, and is a chance. A wine below half of its strength is partly frozen.
TEST(ColdTartrate, AWineHoldsMoreThanThePureSolution) {
  const auto wine = run_step(pink, "cold.tartrate: {}");
  const auto solution = run_step(pink, "cold.tartrate: {model: pure solution}");
  EXPECT_LT(result(wine, "precipitate"), result(solution, "precipitate"));
  EXPECT_EQ(result(wine, "saturation temperature"), result(solution, "saturation temperature"));
  const auto* beside = opinion(wine, "precipitate of the pure solution");
  ASSERT_NE(beside, nullptr);
  EXPECT_NEAR(number(beside->there), result(solution, "precipitate"), 1e-9);
  EXPECT_TRUE(noted(wine, "the chance that this wine keeps within that limit"));
  EXPECT_TRUE(noted(wine, "18.0 K warmer"));
  EXPECT_FALSE(noted(wine, "partly frozen"));
  EXPECT_TRUE(noted(run_step(pink, "cold.tartrate: {hold at: -8 °C}"), "partly frozen"));
}

TEST(ColdTartrate, PhFallsBelowThePivotAndRisesAboveIt) {
  const auto low = run_step(pink, "cold.tartrate: {model: pure solution}");
  EXPECT_LT(result(low, "pH"), 3.42);
  EXPECT_TRUE(noted(low, "the pH falls from 3.42"));
  EXPECT_LT(result(low, "titratable acidity"), 5.1);
  const auto high = run_step(
      "pH: 3.95, titratable acidity: 3.9 g/L as tartaric acid, ethanol: 13.5 % vol, potassium: 1500 mg/L, "
      "tartaric acid: 2.0 g/L, lactic acid: 1.5 g/L, malic acid: 0.1 g/L, colour: red",
      "cold.tartrate: {model: pure solution}");
  EXPECT_GT(result(high, "pH"), 3.95);
  EXPECT_TRUE(noted(high, "the pH rises from 3.95"));
}

TEST(ColdTartrate, LeavesTheLotUnlessCrystalsFallOut) {
  const auto stays = run(pink, {"cold.tartrate: {model: pure solution}"});
  EXPECT_NEAR(after(stays, "potassium", "mg/L"), 980, 1e-9);
  const auto falls =
      run(pink, {"cold.tartrate: {model: pure solution, crystals: fall out}", "cold.tartrate: {model: pure solution}"});
  const auto& first = falls.steps.at(0);
  EXPECT_NEAR(after(falls, "potassium", "mg/L"), result(first, "potassium"), 1e-9);
  EXPECT_NEAR(after(falls, "tartaric acid", "g/L"), result(first, "tartaric acid"), 1e-9);
  EXPECT_NEAR(after(falls, "pH", "pH"), result(first, "pH"), 1e-9);
  EXPECT_NEAR(after(falls, "titratable acidity", "g/L as tartaric acid"), result(first, "titratable acidity"), 1e-9);
  // Read again from its own pH and acidity, the racked wine is just saturated where it was held.
  EXPECT_NEAR(result(falls.steps.at(1), "saturation ratio"), 1, 1e-4);
  EXPECT_NEAR(result(falls.steps.at(1), "saturation temperature"), -4, 1e-2);
  EXPECT_TRUE(check(falls.steps.at(1), "bitartrate stable")->holds);
}

TEST(ColdTartrate, CountsThePotassiumOfEarlierSteps) {
  const std::string lot = pink + ", volume: 40 hL, free SO2: 9 mg/L, total SO2: 48 mg/L, sugar: 1 g/L";
  const auto alone = run(lot, {"cold.tartrate: {model: pure solution}"});
  const auto after_sulfite =
      run(lot, {"sulfite.addition: {target free SO2: 40 mg/L}", "cold.tartrate: {model: pure solution}"});
  const auto before = result(alone.steps.at(0), "concentration product");
  const auto then = result(after_sulfite.steps.at(1), "concentration product");
  // Free 31 mg/L more; half of the addition stays free; 2 K for 2 SO2.
  const double brought = 62.0 * 39.0983 / 64.064;
  EXPECT_NEAR(then / before, (980 + brought) / 980, 2e-3);
  EXPECT_TRUE(noted(after_sulfite.steps.at(1), "steps before this one"));
  EXPECT_FALSE(noted(alone.steps.at(0), "steps before this one"));
}

TEST(ColdTartrate, ASafeProductStandsWithItsSource) {
  const auto step = run_step(pink,
                             "cold.tartrate: {model: pure solution, safe concentration product: 90 mmol²/L², safe "
                             "product source: house trial of 2021}");
  const auto* product = check(step, "concentration product");
  ASSERT_NE(product, nullptr);
  EXPECT_FALSE(product->holds);
  EXPECT_EQ(product->source, "house trial of 2021");
  EXPECT_EQ(check(run_step(pink, "cold.tartrate: {model: pure solution}"), "concentration product"), nullptr);
  EXPECT_TRUE(has(refusal(pink, "cold.tartrate: {model: pure solution, safe concentration product: 90 mmol²/L²}"),
                  "without its source"));
  EXPECT_TRUE(
      has(refusal(pink, "cold.tartrate: {model: pure solution, safe product source: a book}"), "but no figure"));
}

// The pink lot with another value of one key.
std::string pink_with(const std::string& key, const std::string& value) {
  const auto from = pink.find(key + ": "), to = pink.find(',', from);
  return pink.substr(0, from) + key + ": " + value + pink.substr(to);
}

TEST(ColdTartrate, TellsTheTrend) {
  const auto ratio = [](const std::string& lot, const std::string& step) {
    return result(run_step(lot, "cold.tartrate: {model: pure solution" + (step.empty() ? "" : ", " + step) + "}"),
                  "saturation ratio");
  };
  EXPECT_GT(ratio(pink, "hold at: -4 °C"), ratio(pink, "hold at: 4 °C"));
  EXPECT_GT(ratio(pink_with("ethanol", "14 % vol"), ""), ratio(pink_with("ethanol", "11 % vol"), ""));
  const auto nothing = run_step(pink_with("potassium", "0 mg/L"), "cold.tartrate: {model: pure solution}");
  EXPECT_EQ(result(nothing, "precipitate"), 0);
  EXPECT_EQ(result(nothing, "saturation ratio"), 0);
  EXPECT_TRUE(noted(nothing, "below what is reckoned"));
  EXPECT_TRUE(check(nothing, "bitartrate stable")->holds);
}

// The chart draws what the results say.
TEST(ColdTartrate, DrawsTheCourse) {
  const auto step = run_step(pink, "cold.tartrate: {model: pure solution, hold at: -2 °C}");
  ASSERT_EQ(step.outcome.charts.size(), 1u);
  const auto& traces = step.outcome.charts[0].traces;
  ASSERT_EQ(traces.size(), 2u);
  EXPECT_NEAR(traces[1].points.at(0).second, result(step, "saturation ratio"), 1e-12);
  for (std::size_t i = 1; i < traces[0].points.size(); ++i)
    EXPECT_LT(traces[0].points[i].second, traces[0].points[i - 1].second);
}

TEST(ColdTartrate, RefusesWhatCannotBe) {
  EXPECT_TRUE(
      has(refusal(pink_with("tartaric acid", "9 g/L"), "cold.tartrate: {model: pure solution}"), "cannot be together"));
  EXPECT_TRUE(has(refusal(pink, "cold.tartrate: {model: pure solution, hold at: -30 °C}"), "hold at"));
  EXPECT_TRUE(has(refusal("pH: 3.4", "cold.tartrate: {model: pure solution}"), "potassium"));
  EXPECT_FALSE(refusal(pink_with("ethanol", "40 % vol"), "cold.tartrate: {model: pure solution}").empty());
}

}  // namespace cold_tartrate_test
}  // namespace vatwright::test
