// A step that makes lots, or draws from them, and the doses after it: which has to come first, and that nothing is
// dosed while the lots are not to be made.
#include "host/bench/made_lots.hpp"

#include <fmt/format.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <random>

#include "host/sheet/csv.hpp"
#include "host/sheet/to_do.hpp"
#include "host/sheet/writers.hpp"
#include "tests/host/sheets.hpp"
#include "tests/host/words.hpp"

namespace made_lots_test {

using namespace vatwright;
using namespace vatwright::test;
using Json = nlohmann::json;

// A red that is joined to a white: pink of the two is not allowed (EU.yaml), and a red blend is.
std::string joined(const std::string& colour, const std::string& more = {}) {
  return "recipe: test\nrules: EU\nacid basis: tartaric acid\nlots:\n"
         "  W: {volume: 50 hL, stage: wine, class: still, colour: white, ethanol: 12 % vol, pH: 3.2, titratable "
         "acidity: 6.4 g/L, sugar: 1 g/L, free SO2: 5 mg/L, total SO2: 30 mg/L}\n"
         "  R: {volume: 5 hL, stage: wine, class: still, colour: red, ethanol: 13 % vol, pH: 3.6, titratable "
         "acidity: 5 g/L, sugar: 1 g/L, free SO2: 5 mg/L, total SO2: 30 mg/L}\n"
         "  X: {volume: 9 hL, stage: wine, class: still, colour: red, ethanol: 13 % vol, pH: 3.6, titratable "
         "acidity: 5 g/L, sugar: 1 g/L, free SO2: 5 mg/L, total SO2: 30 mg/L}\n"
         "steps:\n  - blend.mix: {lots: {W: 40 hL, R: 2 hL}, into: B, colour: " +
         colour + "}\n" +
         "  - sulfite.addition: {lot: B, target free SO2: 25 mg/L}\n"
         "  - sulfite.addition: {lot: W, target free SO2: 25 mg/L}\n" +
         more;
}

const std::string not_dosed = "not dosed: step 1 is not to be done while its check fails";

TEST(MadeLots, NothingIsDosedAfterAJoinThatACheckForbids) {
  TestHouse house;
  const auto sheet = house.run(joined("pink"));
  EXPECT_FALSE(sheet.steps[0].outcome.holds());
  for (const std::size_t step : {1U, 2U}) {
    SCOPED_TRACE(step);
    EXPECT_TRUE(sheet.steps[step].outcome.additions.empty());
    ASSERT_TRUE(sheet.steps[step].withheld);
    EXPECT_EQ(sheet.steps[step].withheld->by, 0U);
    EXPECT_EQ(sheet.steps[step].outcome.checks.back().name, "step 1 comes first");
    EXPECT_FALSE(sheet.steps[step].outcome.checks.back().holds);
    EXPECT_EQ(idle_words(sheet.steps[step]), not_dosed);
  }
  EXPECT_TRUE(sheet.weigh_out.lines.empty());
  const auto text = write_text(sheet, {}), page = write_html(sheet), csv = write_csv(sheet), json = write_json(sheet);
  EXPECT_EQ(count(text, "[ ]"), 0U);
  EXPECT_EQ(count(page, "checkbox"), 0U);
  EXPECT_EQ(count(csv, ",addition,"), 0U);
  EXPECT_EQ(count(text, "- do not join yet: a check of this step fails"), 1U);
  for (const auto& written : {text, page, csv, json}) EXPECT_EQ(count(written, not_dosed), 2U);
  const Json read = Json::parse(json);
  EXPECT_TRUE(read["weigh out"].empty());
  for (const auto& step : read["steps"]) {
    EXPECT_TRUE(step["additions"].empty());
    EXPECT_TRUE(step["work"].empty());
  }
}

// Its figures are on the sheet, so that somebody may take them for an order.
TEST(MadeLots, WhatIsWithheldKeepsItsFiguresAndItsCautions) {
  TestHouse house;
  const auto sheet = house.run(joined("pink"));
  const auto& added = sheet.steps[1].outcome.results[0];
  EXPECT_EQ(added.info->name, "added SO2");
  EXPECT_GT(added.number, 0);
  ASSERT_EQ(sheet.steps[1].reagents.size(), 1U);
  EXPECT_EQ(sheet.steps[1].reagents[0]->facts.id, "potassium metabisulfite");
  EXPECT_EQ(count(write_text(sheet, {}), "HANDLE WITH CARE: potassium metabisulfite"), 1U);
  EXPECT_EQ(count(write_text(sheet, {}), "Handle potassium metabisulfite with care: its cautions are at step 2."), 1U);
  EXPECT_TRUE(sheet.steps[1].outcome.opinions.empty()) << "they tell of grams";
  EXPECT_TRUE(sheet.steps[1].outcome.notes.empty()) << "they tell how to give it";
  EXPECT_FALSE(sheet.steps[0].outcome.notes.empty());
}

TEST(MadeLots, WhatTheLotsWouldBeIsSaidToBeAsIf) {
  TestHouse house;
  const auto text = write_text(house.run(joined("pink")), {});
  for (const auto* title : {"LOT W, as if step 1 were done\n", "LOT R, as if step 1 were done\n", "LOT X\n",
                            "LOT B, made by step 1, as if step 1 were done\n"})
    EXPECT_EQ(count(text, title), 1U) << title;
}

// What it is joined with is not to be drawn either, and no other lot is touched.
TEST(MadeLots, ItGoesOnThroughTheLotsThatAreMadeOfIt) {
  TestHouse house;
  const auto sheet = house.run(joined("pink",
                                      "  - sulfite.addition: {lot: X, target free SO2: 25 mg/L}\n"
                                      "  - blend.mix: {lots: {B: 5 hL, X: 3 hL}, into: C, colour: red}\n"
                                      "  - sulfite.addition: {lot: C, target free SO2: 40 mg/L}\n"
                                      "  - sulfite.addition: {lot: X, target free SO2: 40 mg/L}\n"));
  EXPECT_EQ(sheet.steps[3].outcome.additions.size(), 1U);
  EXPECT_FALSE(sheet.steps[3].withheld);
  EXPECT_EQ(idle_words(sheet.steps[4]), "not to be done: step 1 is not to be done while its check fails");
  for (const std::size_t step : {4U, 5U, 6U}) {
    ASSERT_TRUE(sheet.steps[step].withheld) << step;
    EXPECT_EQ(sheet.steps[step].withheld->by, 0U) << step;
    EXPECT_TRUE(sheet.steps[step].outcome.additions.empty()) << step;
    EXPECT_TRUE(sheet.steps[step].outcome.work.empty()) << step;
  }
  EXPECT_EQ(sheet.weigh_out.lines.size(), 1U);
}

// It is still so with readings that are drawn around their values.
TEST(MadeLots, UncertainReadingsOrderNothingEither) {
  TestHouse house;
  auto text = joined("pink");
  text.replace(text.find("pH: 3.2"), 7, "pH: 3.2 ± 0.02");
  text.replace(text.find("free SO2: 5 mg/L"), 16, "free SO2: 5 ± 1 mg/L");
  for (const Draws& draws : {Draws{}, Draws{100, 1}}) {
    const auto sheet = house.bench().run(read_recipe(Document::read("recipe.yaml", text)), draws);
    EXPECT_GT(sheet.steps[1].result_spreads.at(0).standard, 0);
    EXPECT_TRUE(sheet.steps[1].outcome.additions.empty());
    EXPECT_EQ(count(write_text(sheet, {}), "[ ]"), 0U);
  }
}

TEST(MadeLots, TheProgramSaysItAndVerifyAgrees) {
  const Folder folder;
  const auto recipe = folder.write("r.yaml", joined("pink")).string();
  const auto said = call({"run", recipe, "--format", "json"});
  EXPECT_EQ(said.status, 1);
  const auto same = call({"verify", folder.write("sheet.json", said.out).string()});
  EXPECT_EQ(same.status, 1) << "its checks fail";
  EXPECT_NE(same.out.find("the same figures"), std::string::npos) << same.out << same.err;
  auto forged = said.out;
  forged.replace(forged.find(not_dosed), not_dosed.size(), "weigh 163 g");
  const auto other = call({"verify", folder.write("forged.json", forged).string()});
  EXPECT_EQ(other.status, 1);
  EXPECT_NE((other.out + other.err).find("weigh 163 g"), std::string::npos);
}

// --- the step that makes them holds

TEST(MadeLots, AnAdditionSaysWhatMakesItsLotFirst) {
  TestHouse house;
  const auto sheet = house.run(joined("red", "  - sulfite.addition: {lot: X, target free SO2: 25 mg/L}\n"));
  ASSERT_TRUE(sheet.steps[0].outcome.holds());
  const auto text = write_text(sheet, {});
  EXPECT_EQ(count(on_one_line(text), "lot B; first do step 1 (join); first measure"), 1U) << text;
  EXPECT_EQ(count(text, "lot W; first do step 1 (join)\n"), 1U);
  EXPECT_EQ(count(text, "[ ] first do step 1 (join)\n"), 2U);
  EXPECT_EQ(count(text, "(join)"), 4U) << "another lot does not wait for it";
  EXPECT_EQ(count(write_html(sheet), "first do step 1 (join)"), 4U);
  const auto csv = write_csv(sheet);
  EXPECT_EQ(count(csv, "2,sulfite.addition,B,work,first do step 1 (join),"), 1U);
  EXPECT_EQ(count(csv, "3,sulfite.addition,W,work,first do step 1 (join),"), 1U);
  const Json json = Json::parse(write_json(sheet));
  EXPECT_EQ(json["steps"][1]["first"], "first do step 1 (join)");
  EXPECT_EQ(json["steps"][3]["first"], "");
  // What the join foretells of its lot is measured before a dose rests on it; what it only draws from was measured.
  EXPECT_FALSE(json["steps"][1]["measure first"].empty());
  EXPECT_TRUE(json["steps"][2]["measure first"].empty());
}

TEST(MadeLots, TheWordsFitTheStep) {
  TestHouse house;
  const auto bled = write_text(house.run(contents(source_dir / "recipes/bleeding-a-red-tank.yaml")), {});
  EXPECT_EQ(count(bled, "[ ] first do step 1 (draw)\n"), 1U);
  const auto pressed = write_text(house.run(contents(source_dir / "recipes/press-day.yaml")), {});
  EXPECT_EQ(count(pressed, "[ ] first do step 1 (press)\n"), 1U);
}

// --- steps of plugins that are not here

StepSheet making(const std::string& lot, bool holds) {
  StepSheet step;
  step.lot = lot;
  step.doses = true;
  step.outcome.work = {"run it off"};
  step.outcome.new_lots.push_back({.name = "P", .by = "draw"});
  step.outcome.checks.push_back(check_of("a check", holds));
  return step;
}

// A lot that juice is drawn off says so by being the step's own.
TEST(MadeLots, TheLotOfTheStepIsHeldToo) {
  const TestHouse house;
  for (const auto* lot : {"P", "M"}) {
    std::vector<StepSheet> steps{making("M", false)};
    withhold(steps[0], {});
    EXPECT_TRUE(steps[0].outcome.work.empty());
    EXPECT_EQ(idle_words(steps[0]), "do not draw yet: a check of this step fails");
    StepSheet dosing = step_adding(house, {"tartaric acid"});
    dosing.lot = lot;
    dosing.doses = true;
    withhold(dosing, steps);
    EXPECT_TRUE(dosing.outcome.additions.empty()) << lot;
    EXPECT_EQ(dosing.outcome.reagents, std::vector<std::string>{"tartaric acid"});
    EXPECT_EQ(idle_words(dosing), not_dosed);
  }
}

TEST(MadeLots, AStepThatHoldsOrMakesNoLotKeepsItsWork) {
  const TestHouse house;
  auto sound = making("M", true);
  withhold(sound, {});
  EXPECT_EQ(sound.outcome.work.size(), 1U);
  auto failing = step_adding(house, {"tartaric acid"});
  failing.outcome.checks.push_back(check_of("a check", false));
  withhold(failing, {});
  EXPECT_EQ(failing.outcome.additions.size(), 1U) << "a check of the dose alone: the plugin gave it all the same";
  EXPECT_FALSE(failing.withheld);
}

// However its wine is drawn off, in tenths that a computer cannot hold, a lot that gave all of it is empty: nothing of
// it is left to be dosed.
TEST(MadeLots, WhatIsDrawnToTheLastIsEmpty) {
  TestHouse house;
  std::mt19937 random(9);
  for (int turn = 0; turn < 40; ++turn) {
    const auto parts = 2 + random() % 5;
    std::uint_fast32_t tenths = 0;
    std::string steps;
    for (std::uint_fast32_t part = 0; part < parts; ++part) {
      const auto drawn = 1 + random() % 30;
      tenths += drawn;
      steps +=
          fmt::format("  - blend.mix: {{lots: {{A: {}.{} hL, C: 1 hL}}, into: B{}}}\n", drawn / 10, drawn % 10, part);
    }
    const std::string text = fmt::format(
        "recipe: test\nlots:\n  A: {{stage: wine, volume: {}.{} hL}}\n  C: {{stage: wine, volume: 50 hL}}\nsteps:\n{}",
        tenths / 10, tenths % 10, steps);
    const auto sheet = house.run(text);
    EXPECT_EQ(sheet.lots.at(0).after.at("volume").number, 0.0) << text;
    EXPECT_THROW(house.run(text + "  - cellar.racking: {lot: A, losses: 1 L}\n"), BadInput) << text;
  }
}

}  // namespace made_lots_test
