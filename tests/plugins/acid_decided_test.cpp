// What acid.addition and acid.reduction decided on is held while readings are drawn.
#include "tests/plugins/held.hpp"

namespace vatwright::test {
namespace acid_decided_test {

const std::string lot =
    "volume: 1000 L, pH: 3.05, titratable acidity: 12 g/L as tartaric acid, stage: must, tartaric acid: 6.0 g/L, "
    "malic acid: 6.5 g/L, potassium: 1300 mg/L, calcium: 60 mg/L";
const std::string steps[] = {
    "acid.addition: {target pH: 2.95}", "acid.addition: {target titratable acidity: 13 g/L as tartaric acid}",
    "acid.reduction: {target pH: 3.2}", "acid.reduction: {target pH: 3.2, substance: calcium carbonate}",
    "acid.reduction: {target titratable acidity: 9 g/L as tartaric acid, substance: double-salt treatment}"};

TEST(AcidDecided, SameInputsGiveTheSameFigures) {
  TestHouse house;
  for (const auto& text : steps) {
    const auto sheet = house.run(recipe(lot, {text}));
    const auto again = HeldStep(sheet.steps.at(0)).run();
    const auto& first = sheet.steps[0].outcome;
    ASSERT_EQ(again.results.size(), first.results.size()) << text;
    for (std::size_t i = 0; i < first.results.size(); ++i)
      EXPECT_NEAR(again.results[i].number, first.results[i].number, 1e-9 * first.results[i].number)
          << text << ": " << first.results[i].info->name;
    ASSERT_EQ(again.changes.size(), first.changes.size()) << text;
    for (std::size_t i = 0; i < first.changes.size(); ++i)
      EXPECT_NEAR(again.changes[i].value.number, first.changes[i].value.number, 1e-9) << text;
    EXPECT_TRUE(again.notes.empty() && again.tables.empty() && again.opinions.empty()) << text;
  }
}

// The dose is in the tank: another pH of the wine moves what follows, not the dose.
TEST(AcidDecided, TheDoseStaysWhenTheReadingMoves) {
  TestHouse house;
  for (const auto& text : steps) {
    const auto sheet = house.run(recipe(lot, {text}));
    HeldStep held(sheet.steps.at(0));
    held.move("pH", 0.05);
    const auto moved = held.run();
    const auto& first = sheet.steps[0].outcome.results;
    EXPECT_EQ(moved.results.at(0).number, first.at(0).number) << text;
    EXPECT_GT(moved.results.at(1).number, first.at(1).number + 0.03) << text;
    EXPECT_LT(moved.results.at(1).number, first.at(1).number + 0.08) << text;
  }
}

// A draw may carry the titration far below the acids of a full analysis: the readings passed once, and are scaled.
TEST(AcidDecided, ADrawIsNotRefusedForItsAcids) {
  TestHouse house;
  const auto sheet =
      house.run(recipe("volume: 20 hL, pH: 2.9, stage: must, titratable acidity: 11.2 g/L as tartaric acid, tartaric "
                       "acid: 6.0 g/L, malic acid: 7.0 g/L",
                       {"acid.reduction: {target titratable acidity: 9 g/L as tartaric acid}"}));
  HeldStep held(sheet.steps.at(0));
  held.move("titratable acidity", -13.3);  // 1 g/L as tartaric acid
  const auto moved = held.run();
  EXPECT_NEAR(moved.results.at(2).number, sheet.steps[0].outcome.results.at(2).number - 13.3, 0.1);
}

}  // namespace acid_decided_test
}  // namespace vatwright::test
