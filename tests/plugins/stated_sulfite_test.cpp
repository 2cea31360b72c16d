// sulfite.addition for a wanted total, and for an amount that was decided on elsewhere: by the lot or by its fruit, of
// sulfur dioxide or of the product; what a lot need not say, and what the law makes it say.
#include "tests/plugins/run.hpp"

#include <fmt/format.h>

#include <cmath>
#include <random>

namespace vatwright::test {
namespace stated_sulfite_test {

// By standard atomic weights, abridged (IUPAC CIAAW 2021).
constexpr double so2_in_salt = 2 * (32.06 + 2 * 15.999) / (2 * 39.098 + 2 * 32.06 + 5 * 15.999);

double grams(const StepSheet& step) { return step.outcome.additions.at(0).mass.value().value() * 1000; }

// 30 mg/L in 48 hL are 144 g of sulfur dioxide; 4 g on each 100 kg of 6 t are 240 g, 50 mg for each litre of 48 hL.
// Outside check of sulfite.addition: 8 values within half a step of the balance, derived.
// Source: dose times volume or mass; atomic weights.
TEST(StatedSulfite, ByTheLotAndByItsFruit) {
  const struct {
    const char* step;
    double so2;   // g
    double salt;  // g
  } rows[] = {
      {"add: 30 mg/L, add as: SO2", 144, 144 / so2_in_salt},
      {"add: 3 g/hL, add as: SO2", 144, 144 / so2_in_salt},
      {"add: 3 g/hL, add as: product", 144 * so2_in_salt, 144},
      {"add on fruit: 4 g/100 kg, fruit: 6 t, add as: SO2", 240, 240 / so2_in_salt},
      {"add on fruit: 40 mg/kg, fruit: 6 t, add as: product", 240 * so2_in_salt, 240},
  };
  for (const auto& row : rows) {
    const auto step = run_step("volume: 48 hL", fmt::format("sulfite.addition: {{{}}}", row.step));
    EXPECT_NEAR(grams(step), row.salt, 0.5) << row.step;
    EXPECT_NEAR(result(step, "added SO2"), row.so2 / 4.8, 0.5 / 4.8) << row.step;
    EXPECT_EQ(step.outcome.results.size(), 1U) << row.step;  // of free, total and molecular nothing is known
    EXPECT_TRUE(step.outcome.changes.empty()) << row.step;
    ASSERT_EQ(step.added.size(), 1U);
    EXPECT_FALSE(step.added[0]->cautions.empty());
    EXPECT_TRUE(noted(step, "is taken as")) << row.step;
  }
  const auto gas = run_step("volume: 48 hL", "sulfite.addition: {add: 30 mg/L, substance: sulfur dioxide gas}");
  EXPECT_NEAR(grams(gas), 144, 0.05);
  const auto solution = run_step(
      "volume: 48 hL", "sulfite.addition: {add: 30 mg/L, substance: sulfur dioxide solution, strength: 60 g/L}");
  EXPECT_NEAR(solution.outcome.additions.at(0).volume.value().value() * 1000, 2.4, 0.005);
}

TEST(StatedSulfite, AnAmountThatCouldBeEitherIsRefusedWithBothReadings) {
  const auto said = refusal("volume: 48 hL", "sulfite.addition: {add: 30 mg/L}");
  EXPECT_TRUE(has(said, fmt::format("{:.1f} mg/L of potassium metabisulfite", 30 / so2_in_salt))) << said;
  EXPECT_TRUE(has(said, fmt::format("{:.1f} mg/L of SO2", 30 * so2_in_salt))) << said;
  EXPECT_TRUE(has(said, "'add as: SO2'")) << said;
  EXPECT_TRUE(has(refusal("volume: 48 hL", "sulfite.addition: {add on fruit: 4 g/100 kg, add as: SO2}"), "'fruit'"));
  EXPECT_TRUE(has(refusal("volume: 48 hL", "sulfite.addition: {add: 3 g/hL, add as: SO2, fruit: 4 t}"), "'fruit'"));
  EXPECT_TRUE(has(refusal("volume: 48 hL, total SO2: 20 mg/L",
                          "sulfite.addition: {target total SO2: 50 mg/L, add as: "
                          "SO2}"),
                  "'add as'"));
  EXPECT_TRUE(has(refusal("volume: 48 hL",
                          "sulfite.addition: {add: 30 mg/L, add as: product, substance: sulfur "
                          "dioxide solution, strength: 60 g/L}"),
                  "'add as: SO2'"));
}

TEST(StatedSulfite, AWantedTotal) {
  const auto sheet = run("volume: 1000 L, total SO2: 42 mg/L", {"sulfite.addition: {target total SO2: 90 mg/L}",
                                                                "sulfite.addition: {target total SO2: 90 mg/L}"});
  EXPECT_NEAR(grams(sheet.steps[0]), 48 / so2_in_salt, 0.05);
  EXPECT_NEAR(after(sheet, "total SO2", "mg/L"), 90, 0.1);
  EXPECT_TRUE(sheet.steps[1].outcome.additions.empty());
  EXPECT_TRUE(noted(sheet.steps[1], "enough already"));
}

TEST(StatedSulfite, AFreeTargetWithoutRulesNeedsNeitherTotalNorPh) {
  const auto step =
      run_step("volume: 1000 L, free SO2: 10 mg/L", "sulfite.addition: {target free SO2: 40 mg/L, free share: 100 %}");
  EXPECT_NEAR(grams(step), 30 / so2_in_salt, 0.05);
  EXPECT_TRUE(
      has(refusal("volume: 1000 L, free SO2: 10 mg/L", "sulfite.addition: {target molecular SO2: 0.6 mg/L}"), "'pH'"));
  EXPECT_TRUE(has(refusal("volume: 1000 L, pH: 3.4", "sulfite.addition: {target free SO2: 30 mg/L}"), "'free SO2'"));
}

// No figure that a limit of the rules goes by may be left open.
TEST(StatedSulfite, UnderALimitTheLotSaysWhatTheLimitGoesBy) {
  const std::string wine = "volume: 1000 L, class: still, colour: pink, stage: wine, sugar: 1 g/L";
  for (const char* ask : {"target free SO2: 30 mg/L", "add: 30 mg/L, add as: SO2"})
    EXPECT_TRUE(
        has(refusal(wine + ", free SO2: 10 mg/L", fmt::format("sulfite.addition: {{{}}}", ask), "EU"), "'total SO2'"))
        << ask;
  EXPECT_TRUE(
      has(refusal(wine + ", total SO2: 40 mg/L", "sulfite.addition: {add: 30 mg/L, add as: SO2}", "EU, house example"),
          "'free SO2'"));
  // Must has no limit of the Union.
  EXPECT_EQ(run_step("volume: 1000 L, stage: must, sugar: 190 g/L, class: still, colour: pink",
                     "sulfite.addition: {add: 30 mg/L, add as: SO2}", "EU")
                .outcome.additions.size(),
            1U);
}

TEST(StatedSulfite, NoStatedAmountPassesTheLaw) {
  std::mt19937 random(811);
  const auto between = [&](double low, double high) { return std::uniform_real_distribution(low, high)(random); };
  int dosed = 0, refused = 0;
  for (int turn = 0; turn < 300; ++turn) {
    const double total = between(0, 210), add = between(5, 120), litres = 500 * std::pow(10, between(0, 2));
    const auto lot =
        fmt::format("volume: {:.4f} L, class: still, colour: pink, stage: wine, sugar: 1 g/L, total SO2: {:.4f} mg/L",
                    litres, total);
    const bool product = turn % 2 == 0;
    const double brings = add * (product ? so2_in_salt : 1);
    const auto ask = turn % 3 == 0 ? fmt::format("target total SO2: {:.4f} mg/L", total + brings)
                                   : fmt::format("add: {:.4f} mg/L, add as: {}", add, product ? "product" : "SO2");
    SCOPED_TRACE(lot + ", " + ask);
    const auto step = run_step(lot, "sulfite.addition: {" + ask + "}", "EU");
    if (std::abs(total + brings - 200) < 0.1) continue;
    const auto* limit = check(step, "total SO2 limit");
    ASSERT_NE(limit, nullptr);
    if (total + brings > 200) {
      ++refused;
      EXPECT_TRUE(step.outcome.additions.empty());
      EXPECT_FALSE(limit->holds);
      EXPECT_EQ(result(step, "added SO2"), 0);
    } else {
      if (step.outcome.additions.empty()) continue;  // too little to weigh
      ++dosed;
      EXPECT_TRUE(limit->holds);
      EXPECT_LE(result(step, "total SO2"), 200 + 1e-9);
      EXPECT_FALSE(step.added.at(0)->cautions.empty());
    }
  }
  EXPECT_GT(dosed, 100);
  EXPECT_GT(refused, 60);
}

}  // namespace stated_sulfite_test
}  // namespace vatwright::test
