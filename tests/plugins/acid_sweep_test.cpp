// acid.addition and acid.reduction over many lots and targets: either the target is met and the figures
// fit each other, or the refusal names what can be.
#include "tests/plugins/run.hpp"

#include <fmt/format.h>

namespace vatwright::test {
namespace acid_sweep_test {

struct Tally {
  int met = 0, refused = 0;
};

void step_by(TestHouse& house, const std::string& lot, const std::string& step, Tally& tally) {
  SCOPED_TRACE(lot + " / " + step);
  try {
    const auto sheet = house.run(recipe(lot, {step}));
    const auto* closing = check(sheet.steps.at(0), "closing check");
    ASSERT_NE(closing, nullptr);
    EXPECT_TRUE(closing->holds);
    // The lot that is to be can be measured again: it needs no second dose of any account.
    EXPECT_GT(result(sheet.steps[0], "dose"), 0);
    EXPECT_GT(result(sheet.steps[0], "buffer capacity"), 0);
    ++tally.met;
  } catch (const BadInput& error) {
    const std::string said = error.what();
    EXPECT_TRUE(has(said, "the nearest that can be is") || has(said, "cannot be together") || has(said, "never") ||
                has(said, "would stay in the lot"))
        << said;
    ++tally.refused;
  }
}

TEST(AcidSweep, EveryTargetIsMetOrRefusedWithReason) {
  TestHouse house;
  Tally up, down;
  for (double ph = 2.8; ph < 4.25; ph += 0.2)
    for (const double acidity : {3.0, 5.5, 9.0, 14.0})
      for (const char* stage : {"must", "wine"}) {
        if ((ph > 3.5 && acidity > 10) || (ph > 4 && acidity > 6))
          continue;  // beyond the ionic strengths of the model, and no wine
        const auto lot = fmt::format(
            "volume: 5000 L, pH: {:.2f}, titratable acidity: {} g/L as tartaric acid, stage: {}", ph, acidity, stage);
        for (const double by : {0.05, 0.2, 0.4}) {
          for (const char* acid : {"tartaric acid", "malic acid", "citric acid"})
            step_by(house, lot, fmt::format("acid.addition: {{target pH: {:.2f}, substance: {}}}", ph - by, acid), up);
          for (const char* carbonate :
               {"calcium carbonate", "potassium bicarbonate", "potassium carbonate", "double-salt treatment"})
            step_by(house, lot, fmt::format("acid.reduction: {{target pH: {:.2f}, substance: {}}}", ph + by, carbonate),
                    down);
        }
      }
  EXPECT_GT(up.met, 4 * up.refused);  // no 10 g/L take a sour lot down by 0.4
  EXPECT_GT(down.met, 9 * down.refused);
}

}  // namespace acid_sweep_test
}  // namespace vatwright::test
