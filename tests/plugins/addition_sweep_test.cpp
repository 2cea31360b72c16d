// sulfite.addition over a wide range of lots, drawn from a fixed seed: what is weighed out gives the
// target, by a forward model written here.
#include "tests/plugins/run.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <random>

namespace vatwright::test {
namespace addition_sweep_test {

constexpr double so2_in_salt = 2 * (32.06 + 2 * 15.999) / (2 * 39.098 + 2 * 32.06 + 5 * 15.999);

// What a cellar balance shows, g.
double balance_step(double grams) {
  return grams < 20 ? 0.01 : grams < 200 ? 0.1 : grams < 2000 ? 1 : grams < 30000 ? 10 : 100;
}

TEST(SulfiteAdditionSweep, WhatIsWeighedGivesTheTarget) {
  std::mt19937 random(1807);
  const auto between = [&](double low, double high) { return std::uniform_real_distribution(low, high)(random); };
  int given = 0, coarse = 0;
  for (int turn = 0; turn < 1500; ++turn) {
    const double ph = between(2.9, 3.9), litres = 5 * std::pow(10, between(0, 4)), target = between(0.3, 1.5);
    const double free = between(0, 45), total = free + between(0, 90);
    const auto lot = fmt::format(
        "volume: {:.6f} L, pH: {:.6f}, free SO2: {:.6f} mg/L, total SO2: {:.6f} mg/L, sugar: 1 "
        "g/L, stage: wine",
        litres, ph, free, total);
    SCOPED_TRACE(lot + fmt::format(", target {:.6f} mg/L", target));
    const auto sheet = run(lot, {fmt::format("sulfite.addition: {{target molecular SO2: {:.6f} mg/L}}", target)});
    const auto& step = sheet.steps.at(0);
    const double share = 1 / (1 + std::pow(10, ph - 1.81));
    // Nearer than this it may be what the rounding of a dose leaves.
    if (std::abs(free * share / target - 1) > 1e-2) {
      EXPECT_EQ(noted(step, "enough already"), free * share > target);
    }
    // It fails where the balance would move the target by more than a twentieth: nothing is ordered then.
    const auto* closing = check(step, "closing check");
    if (closing != nullptr && !closing->holds) {
      ++coarse;
      EXPECT_TRUE(step.outcome.additions.empty() && step.outcome.changes.empty());
      EXPECT_EQ(result(step, "added SO2"), 0);
      EXPECT_GT(std::abs(number(closing->value.value()) / target - 1), 0.05 - 1e-6);
      EXPECT_FALSE(has(closing->remedy, "fault of the program"));
      EXPECT_TRUE(has(closing->remedy, "dose from a weaker sulfur dioxide solution"));
      EXPECT_LT(litres, 20) << "half a step of the balance is less than that, even at pH 2.9 and 0.3 mg/L";
    }
    if (step.outcome.additions.empty()) continue;

    ++given;
    const double stays_free = 0.5 + std::clamp((free - 20) / 20, 0.0, 1.0) / 6;
    const double grams = step.outcome.additions[0].mass.value().value() * 1000;
    const double exact = (target / share - free) / stays_free * litres / 1000 / so2_in_salt;
    // The figures of the recipe are cut to six decimals: hence the last term.
    const double off_balance = balance_step(exact) / 2 + 1e-6 * litres;
    EXPECT_NEAR(grams, exact, off_balance);
    const double added = grams * so2_in_salt * 1000 / litres;
    const double molecular = (free + stays_free * added) * share;
    EXPECT_NEAR(molecular, after(sheet, "free SO2", "mg/L") * share, 1e-4);
    EXPECT_NEAR(after(sheet, "total SO2", "mg/L"), total + added, 1e-4);

    ASSERT_NE(closing, nullptr);
    EXPECT_NEAR(number(closing->value.value()), molecular, 1e-4);
    EXPECT_LT(std::abs(molecular / target - 1), 0.05 + 1e-4);
  }
  EXPECT_GT(given, 700);
  EXPECT_LT(coarse, given / 50);
}

// A dose brings the lot to its target: asked again, there is nothing to add but what the balance left.
TEST(SulfiteAdditionSweep, ASecondDoseIsWhatTheBalanceLeft) {
  for (const double ph : {2.9, 3.2, 3.5, 3.8})
    for (const char* volume : {"20 L", "225 L", "48 hL", "500 hL"}) {
      const std::string step = "sulfite.addition: {target molecular SO2: 0.6 mg/L, free share: 60 %}";
      const auto sheet =
          run(fmt::format("volume: {}, pH: {}, free SO2: 2 mg/L, total SO2: 40 mg/L", volume, ph), {step, step});
      EXPECT_LE(result(sheet.steps.at(1), "added SO2"), 0.05 * result(sheet.steps.at(0), "added SO2")) << volume;
      EXPECT_NEAR(result(sheet.steps.at(1), "molecular SO2"), 0.6, 0.03) << volume;
    }
}

}  // namespace addition_sweep_test
}  // namespace vatwright::test
