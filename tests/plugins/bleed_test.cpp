// pink.bleed, run by recipe.
#include "tests/plugins/run.hpp"
#include "tests/published/other_program.hpp"

#include <fmt/format.h>

namespace vatwright::test {
namespace bleed_test {

const std::string red = "stage: must, colour: red, volume: 15 hL";

StepSheet bleed(const std::string& inputs, const std::string& lot = red) {
  return run_step(lot, "pink.bleed: {skins and seeds: 450 kg, " + inputs + "}");
}

// Bleeding a part f of the juice multiplies skins by juice by 1/(1 - f): mass balance (derived).
// Outside check of pink.bleed: 4 values within 1e-6, derived.
// Source: a balance of skins and juice by hand.
TEST(PinkBleed, RatioRisesByOneOverWhatStays) {
  struct Case {
    double percent, factor;
  };
  for (const Case c : {Case{10, 1.111111}, Case{15, 1.176471}, Case{20, 1.25}, Case{25, 1.333333}}) {
    const auto step = bleed(fmt::format("bleed share: {} %, of: juice", c.percent));
    EXPECT_NEAR(result(step, "ratio after") / result(step, "ratio before"), c.factor, 1e-6);
    EXPECT_NEAR(result(step, "concentration at most"), c.factor, 1e-6);
    EXPECT_NEAR(result(step, "ratio before"), 0.3, 1e-12);
  }
}

TEST(PinkBleed, WhatWasAddedGoesWithBoth) {
  const auto sheet = run(red +
                             ", treated with: {tannin: 10 g/hL}, water added: 0.2 %, strength gained: 1 % vol, "
                             "volume gained: 2 %, acid added: 1 g/L as tartaric acid",
                         {"pink.bleed: {skins and seeds: 450 kg, bleed share: 20 %, of: juice}"});
  for (const auto& lot : sheet.lots)
    for (const char* key : {"treated with", "water added", "strength gained", "volume gained", "acid added"})
      EXPECT_TRUE(lot.after.contains(key)) << lot.name << ": " << key;
  EXPECT_NEAR(parse_unit("g/hL").number(sheet.lots.at(1).after.at("treated with").amounts.at(0).second), 10, 1e-9);
  ASSERT_EQ(sheet.steps[0].outcome.work.size(), 1u);
  EXPECT_EQ(sheet.steps[0].outcome.work[0], "draw 300 L of juice off the skins, as lot pink");
}

// 20 hL of crushed fruit, three quarters of it juice, 3 hL bled: a fifth of the juice (derived).
// Outside check of pink.bleed: 2 values within 1e-9, derived.
// Source: a balance of skins and juice by hand.
TEST(PinkBleed, AShareOfTheWholeTankIsMoreOfTheJuice) {
  const auto step = bleed("bleed share: 15 %, of: whole tank, tank volume: 20 hL");
  EXPECT_NEAR(result(step, "bled volume"), 300, 1e-9);
  EXPECT_NEAR(result(step, "bled share of the juice"), 20, 1e-9);
  EXPECT_NEAR(result(step, "concentration at most"), 1.25, 1e-12);
  EXPECT_NEAR(result(bleed("bleed share: 15 %, of: juice"), "bled volume"), 225, 1e-9);
}

// Outside check of pink.bleed: 1 value within 1e-9 L, another program.
// Source: GNU units.
TEST(PinkBleed, ATargetRatioIsReached) {
  const auto step = bleed("target skin-to-juice ratio: 0.36 kg/L");
  const auto units = published::output_of("units -t -o %.12g '15 hectoliter - 450 kg / (0.36 kg/liter)' liter");
  EXPECT_NEAR(result(step, "bled volume"), std::stod(units), 1e-9);
  EXPECT_NEAR(result(step, "ratio after"), 0.36, 1e-9);
  const auto* closing = check(step, "closing check");
  ASSERT_NE(closing, nullptr);
  EXPECT_TRUE(closing->holds);
}

// All that the skins will give, 1: f of what is out by now leaves, and what is left is in 1 - f of
// the juice.
TEST(PinkBleed, WhatLeavesWithTheJuiceDoesNotConcentrate) {
  const auto expected = [](int part) {
    return result(bleed(fmt::format("bleed share: 20 %, of: juice, already extracted: {} %", part)),
                  "concentration expected");
  };
  EXPECT_NEAR(expected(0), 1.25, 1e-12);
  EXPECT_NEAR(expected(30), (1 - 0.3 * 0.2) / 0.8, 1e-12);
  EXPECT_NEAR(expected(100), 1, 1e-12);
}

TEST(PinkBleed, BothLotsAreCarriedOn) {
  const auto sheet = run(red +
                             ", sugar: 228 g/L, pH: 3.48 ± 0.02, free SO2: 12 mg/L, total SO2: 30 mg/L, "
                             "titratable acidity: 5.6 g/L as tartaric acid, varieties: Blackthorn",
                         {"pink.bleed: {skins and seeds: 450 kg, bleed share: 20 %, of: juice, into: bled pink}",
                          "sulfite.addition: {lot: bled pink, target free SO2: 25 mg/L}"},
                         "EU");
  ASSERT_EQ(sheet.lots.size(), 2u);
  EXPECT_NEAR(after(sheet, "volume", "L"), 1200, 1e-9);
  const auto& pink = sheet.lots[1];
  EXPECT_EQ(pink.name, "bled pink");
  const auto value = [&](std::string_view key) { return pink.after.find(key)->second; };
  EXPECT_NEAR(value("volume").number, 0.3, 1e-12);
  EXPECT_NEAR(value("sugar").number, 228, 1e-9);
  EXPECT_NEAR(value("pH").number, 3.48, 1e-12);
  EXPECT_NEAR(value("pH").uncertainty, 0.02, 1e-12);
  EXPECT_EQ(value("colour").word, "pink");
  EXPECT_EQ(value("stage").word, "must");
  EXPECT_EQ(value("varieties").shares.at(0).first, "Blackthorn");
  EXPECT_NEAR(value("free SO2").number, 0.025, 0.025 * 0.05);  // by the second step
  EXPECT_EQ(sheet.lots[0].after.find("colour")->second.word, "red");
  EXPECT_NEAR(sheet.lots[0].after.find("free SO2")->second.number, 0.012, 1e-12);
  EXPECT_TRUE(noted(sheet.steps[0], "bleaches"));
}

// 228 g/L at 16.83 g/L for 1 % vol (French order of 18 August 2014, AGRT1408514A).
TEST(PinkBleed, SaysWhatThePinkWillHaveOfAlcohol) {
  const auto step = bleed("bleed share: 20 %, of: juice", red + ", sugar: 228 g/L");
  EXPECT_NEAR(result(step, "potential alcohol"), 228 / 16.83, 1e-6);
}

TEST(PinkBleed, RefusesWhatCannotBe) {
  const auto says = [](const std::string& inputs, std::string_view part, const std::string& lot = red) {
    const auto said = refusal(lot, "pink.bleed: {skins and seeds: 450 kg, " + inputs + "}");
    EXPECT_TRUE(has(said, part)) << said;
  };
  says("bleed share: 20 %", "not said what the bleed share is a share of");
  says("bleed share: 20 %, of: whole tank", "needs the tank volume");
  says("bleed share: 20 %, of: whole tank, tank volume: 14 hL", "no more than its juice");
  says("bleed share: 20 %, of: whole tank, tank volume: 60 hL", "would fill 4500 L");
  says("bleed share: 55 %, of: whole tank, tank volume: 20 hL", "at most 60 % of the juice");
  says("bleed share: 0 %, of: juice", "outside what can be");
  says("target skin-to-juice ratio: 0.30 kg/L", "bleeding only raises it");
  says("target skin-to-juice ratio: 0.36 kg/L, bleed share: 20 %, of: juice", "takes one of");
  says("of: juice", "takes one of");
  says("bleed share: 20 %, of: juice", "this lot is a wine", "stage: wine, volume: 15 hL");
  says("bleed share: 20 %, of: juice", "this lot is white", "stage: must, colour: white, volume: 15 hL");
  says("bleed share: 20 %, of: juice, into: T7", "there is a lot 'T7' already");
}

TEST(PinkBleed, MoreThanUsualIsNoted) {
  EXPECT_TRUE(noted(bleed("bleed share: 22 %, of: whole tank, tank volume: 20 hL"), "29 % of the juice is more"));
  EXPECT_FALSE(noted(bleed("bleed share: 15 %, of: juice"), "is more than is usual"));
}

}  // namespace bleed_test
}  // namespace vatwright::test
