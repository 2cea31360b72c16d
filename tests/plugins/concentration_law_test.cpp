// What sugar.concentration makes of contents that the law bounds: they rise as the volume falls, and are held to it.
#include "plugins/lab/content_limits.hpp"
#include "tests/plugins/run.hpp"

#include <fmt/format.h>

#include <random>

namespace vatwright::test {
namespace concentration_law_test {

struct Content {
  const char *fact, *unit, *rules;
  double limit;
  const char* topic;
};
// As the rows of host/rules have them, for a still white wine.
const Content contents[] = {
    {"total SO2: {:.4f} mg/L", "mg/L", "EU", 200, "total SO2"},
    {"volatile acidity: {:.5f} g/L as acetic acid", "g/L as acetic acid", "US", 1.2, "volatile acidity"},
    {"sodium: {:.4f} mg/L", "mg/L", "OIV", 80, "sodium"},
    {"citric acid: {:.5f} g/L", "g/L", "EU", 1, "citric acid"},
    {"treated with: {{gum arabic: {:.4f} mg/L}}", "mg/L", "EU", 300, "gum arabic"},
    {"treated with: {{PVPP: {:.4f} mg/L}}", "mg/L", "EU", 800, "PVPP"},
    {"treated with: {{dimethyl dicarbonate: {:.4f} mg/L}}", "mg/L", "US", 200, "dimethyl dicarbonate"},
    {"treated with: {{potassium sorbate: {:.4f} mg/L}}", "mg/L", "US", 300 / (112.13 / 150.22), "sorbic acid"}};

// Whatever there was, it stands in what is left: just inside the limit it holds, just outside it does not.
TEST(ConcentrationLaw, WhatRisesIsHeld) {
  std::mt19937 random(42);
  std::uniform_real_distribution<double> litres(1, 900);
  for (const auto& content : contents)
    for (int i = 0; i < 12; ++i)
      for (const double times : {0.998, 1.002}) {
        const double off = litres(random), then = content.limit * times, before = then * (4000 - off) / 4000;
        const auto lot = fmt::format(
            "volume: 4000 L, ethanol: 11 % vol, sugar: 1 g/L, stage: wine, class: still, colour: white, must "
            "solids: 21 °Brix, {}",
            fmt::format(fmt::runtime(content.fact), before));
        SCOPED_TRACE(lot);
        const auto step =
            run_step(lot, fmt::format("sugar.concentration: {{water taken off: {:.4f} L}}", off), content.rules);
        const auto* held = check(step, std::string(content.topic) + " limit, ");
        ASSERT_NE(held, nullptr);
        EXPECT_EQ(held->holds, times < 1);
        if (!held->holds) {
          EXPECT_TRUE(has(held->remedy, "nothing is taken off: take off less"));
          EXPECT_TRUE(step.outcome.work.empty());
          EXPECT_TRUE(step.outcome.changes.empty());
        }
      }
}

// Sugar rises too, and with it the limit that goes by it: 4.9 g/L in 4000 L are 5.16 g/L in 3800 L, where 250 hold.
TEST(ConcentrationLaw, TheRowIsThatOfWhatTheWineThenIs) {
  const auto step = run_step(
      "volume: 4000 L, ethanol: 11 % vol, sugar: 4.9 g/L, stage: wine, class: still, colour: white, total SO2: 195 "
      "mg/L",
      "sugar.concentration: {water taken off: 200 L}", "EU");
  const auto* held = check(step, "total SO2 limit, ");
  ASSERT_NE(held, nullptr);
  EXPECT_NEAR(number(*held->value), 205.26, 0.01);
  EXPECT_NEAR(number(*held->limit), 250, 1e-9);
}

// A later dose is for the lot as it is: for less of it where the water is taken off, for all where that is refused.
TEST(ConcentrationLaw, ALaterDoseIsForWhatThereIs) {
  const std::string must = "stage: must, class: still, colour: white, zone: B, volume: 10 hL, sugar: 150 g/L";
  for (const auto& [off, there] : {std::pair{300, 1000.0}, std::pair{100, 900.0}}) {
    const auto sheet = run(must,
                           {fmt::format("sugar.concentration: {{water taken off: {} L}}", off),
                            "sulfite.addition: {add: 30 mg/L, add as: SO2}"},
                           "EU");
    EXPECT_EQ(sheet.steps[0].outcome.holds(), there < 1000);
    EXPECT_EQ(sheet.steps[0].outcome.work.empty(), there == 1000);
    EXPECT_NEAR(result(sheet.steps[1], "added SO2"), 30, 0.3);
    EXPECT_NEAR(after(sheet, "volume", "L"), there, 1e-6);
  }
}

// A must is bound by no limit of a wine, and a wine that says nothing has nothing to hold.
TEST(ConcentrationLaw, WhatIsNotBoundIsNotHeld) {
  EXPECT_EQ(check(run_step("volume: 4000 L, sugar: 180 g/L, stage: must, zone: B, total SO2: 260 mg/L",
                           "sugar.concentration: {water taken off: 200 L}", "EU"),
                  "total SO2 limit, "),
            nullptr);
  for (const auto& one : run_step("volume: 4000 L, ethanol: 11 % vol, stage: wine, class: still",
                                  "sugar.concentration: {water taken off: 200 L}", "EU")
                             .outcome.checks)
    for (const auto* topic : lab::risen_topics) EXPECT_FALSE(one.name.starts_with(topic->name)) << one.name;
}

}  // namespace concentration_law_test
}  // namespace vatwright::test
