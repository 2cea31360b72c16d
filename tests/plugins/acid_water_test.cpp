// The water of a liquid acid counts with that of other treatments.
#include "tests/plugins/run.hpp"

#include <fmt/format.h>

namespace vatwright::test {
namespace acid_water_test {

constexpr char wine[] =
    "class: still, stage: wine, colour: white, volume: 40 hL, sugar: 2 g/L, ethanol: 12 % vol, pH: 3.60, titratable "
    "acidity: 5.0 g/L as tartaric acid, malic acid: 1 g/L, tartaric acid: 1.5 g/L, potassium: 900 mg/L, acid added: 0 "
    "g/L as tartaric acid";

// By masses: 3 g/L of the acid in a solution of 60 % come with 2 g/L of water, 0.2 % of the volume. US: water up to 1 %
// (27 CFR 24.246, as the rule file has it).
TEST(AcidWater, OfASolutionIsCounted) {
  const auto sheet = run(std::string(wine) + ", water added: 0.3 %",
                         {"acid.addition: {add: 3 g/L, substance: lactic acid, strength: 60 % mass}"}, "US");
  ASSERT_EQ(sheet.steps[0].outcome.additions.size(), 1U);
  EXPECT_NEAR(after(sheet, "water added", "%"), 0.3 + 100 * 2.0 / 998.2, 1e-3);
  const auto* limit = check(sheet.steps[0], "treatment water");
  ASSERT_NE(limit, nullptr);
  EXPECT_TRUE(limit->holds);
}

TEST(AcidWater, NoMoreThanTheRuleLeaves) {
  for (const double before : {0.75, 0.79, 0.81, 0.9}) {
    const auto sheet = run(fmt::format("{}, water added: {} %", wine, before),
                           {"acid.addition: {add: 3 g/L, substance: lactic acid, strength: 60 % mass}"}, "US");
    const bool room = before + 100 * 2.0 / 998.2 <= 1;
    EXPECT_EQ(sheet.steps[0].outcome.additions.size(), room ? 1U : 0U) << before;
    EXPECT_EQ(check(sheet.steps[0], "treatment water")->holds, room) << before;
  }
}

TEST(AcidWater, NoneComesWithCrystals) {
  const auto sheet = run(std::string(wine) + ", water added: 0.9 %", {"acid.addition: {add: 1 g/L}"}, "US");
  EXPECT_EQ(sheet.steps[0].outcome.additions.size(), 1U);
  EXPECT_NEAR(after(sheet, "water added", "%"), 0.9, 1e-12);
}

}  // namespace acid_water_test
}  // namespace vatwright::test
