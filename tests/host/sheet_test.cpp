// The worksheet on paper: no dose without its cautions, trouble before work, and a page's width.
#include <gtest/gtest.h>

#include <algorithm>
#include <functional>
#include <sstream>

#include "host/cli/compute.hpp"
#include "host/sheet/writers.hpp"
#include "tests/host/house.hpp"

namespace sheet_test {

using namespace vatwright;
using namespace vatwright::test;

// Words with single spaces between them, so that a wrapped line is found as it was written.
std::string unwrapped(const std::string& text) {
  std::istringstream in(text);
  std::string out, word;
  while (in >> word) out += (out.empty() ? "" : " ") + word;
  return out;
}

std::size_t width(const std::string& line) {
  return static_cast<std::size_t>(std::count_if(line.begin(), line.end(), [](char c) { return (c & 0xC0) != 0x80; }));
}

void expect_fits(const std::string& text) {
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);) EXPECT_LE(width(line), 96U) << line;
}

const Calculation& addition(TestHouse& house) {
  std::string close;
  return *house.registry.find("sulfite.addition", close).calculation;
}

Worksheet dose_of(TestHouse& house, std::string_view substance) {
  std::vector<std::string> arguments{"volume=48 hL",
                                     "pH=3.42",
                                     "free SO2=14 mg/L",
                                     "total SO2=62 mg/L",
                                     "target free SO2=30 mg/L",
                                     "sugar=1.8 g/L",
                                     "substance=" + std::string(substance)};
  if (house.catalogue.find(substance)->active_by_strength) arguments.emplace_back("strength=60 g/L");
  return house.bench().run(recipe_of_arguments("sulfite.addition", arguments, {}));
}

// For everything that sulfite.addition may add.
void for_every_substance(const std::function<void(TestHouse&, std::string_view)>& test) {
  TestHouse house;
  int seen = 0;
  for (const auto& need : addition(house).inputs)
    if (need.input->kind == Kind::substance)
      for (const auto id : need.input->choices) {
        test(house, id);
        ++seen;
      }
  EXPECT_GE(seen, 4);
}

TEST(SheetTest, NoAdditionWithoutItsCautions) {
  for_every_substance([](TestHouse& house, std::string_view id) {
    const auto sheet = dose_of(house, id);
    ASSERT_EQ(sheet.steps[0].outcome.additions.size(), 1U) << id;
    const auto page = unwrapped(write_text(sheet, {}));
    // A solution is nothing without its strength.
    const std::string strength = id == "sulfur dioxide solution" ? " (60.0 g/L SO2)" : "";
    const auto dose = page.find("of " + std::string(id) + strength + " into lot");
    ASSERT_NE(dose, std::string::npos) << id;
    const auto end_of_work = page.find("NUMBERS USED");
    // As it is handled: the hazards of its strength, the limit at work of its rules.
    const Substance& substance = *sheet.steps[0].added.at(0);
    ASSERT_EQ(substance.facts.id, id);
    ASSERT_FALSE(substance.hazards.empty());
    ASSERT_EQ(substance.cautions.size(), house.catalogue.find(id)->cautions.size());
    for (const auto& caution : substance.cautions) {
      const auto at = page.find("! " + caution, dose);
      EXPECT_LT(at, end_of_work) << id << ": " << caution;
    }
    for (const auto& hazard : substance.hazards)
      EXPECT_LT(page.find("! " + hazard.code + " " + hazard.text, dose), end_of_work) << id << ": " << hazard.code;
    for (const auto& handling : substance.handling)
      EXPECT_LT(page.find(". " + handling, dose), end_of_work) << id << ": " << handling;
  });
}

// A sheet whose step doses although a check fails.
Worksheet failing(const TestHouse& house) {
  Worksheet sheet;
  sheet.title = "a failing check";
  StepSheet step;
  step.calculation = "sulfite.addition";
  step.plugin = "sulfite 0.1.0";
  step.lot = "T7";
  Addition added{.substance = "tartaric acid"};
  added.mass = Mass::from_value(1.25);
  added.dose = figure(Density::from_value(0.5), "g/L", 1);
  step.outcome.additions.push_back(added);
  Check holds, fails;
  holds.name = "first check";
  holds.holds = true;
  fails.name = "second check";
  fails.remedy = "pour nothing";
  step.outcome.checks = {holds, fails};
  step.added = {house.catalogue.find("tartaric acid")};
  sheet.steps.push_back(std::move(step));
  return sheet;
}

TEST(SheetTest, TheFailingCheckComesBeforeAnythingToDo) {
  const TestHouse house;
  const auto page = write_text(failing(house), {});
  const auto verdict = page.find("1 of 2 FAIL");
  const auto fails = page.find("FAILS:");
  const auto to_do = page.find("TO DO");
  ASSERT_NE(verdict, std::string::npos) << page;
  ASSERT_NE(fails, std::string::npos) << page;
  ASSERT_NE(to_do, std::string::npos) << page;
  EXPECT_LT(verdict, fails);
  EXPECT_LT(fails, to_do);
  EXPECT_LT(page.find("pour nothing"), to_do) << "what to do about it comes with it";
}

TEST(SheetTest, VerdictWhenAllHold) {
  TestHouse house;
  const auto page = write_text(dose_of(house, "potassium metabisulfite"), {});
  EXPECT_NE(page.find("1 of 1 hold"), std::string::npos) << page;
  EXPECT_EQ(page.find("FAIL"), std::string::npos);
}

// A limit of the rules is kept, what was asked for is met.
TEST(SheetTest, SaysOfWhatAChanceIs) {
  TestHouse house;
  const auto page_of = [&](const std::string& free) {
    return unwrapped(write_text(
        house.run("recipe: test\nrules: EU\nlots:\n  T7: {class: still, colour: white, stage: wine, volume: 48 hL, pH: "
                  "3.42, sugar: 1 g/L, total SO2: 98 ± 4 mg/L, free SO2: " +
                  free + "}\nsteps:\n  - sulfite.addition: {target free SO2: 30 mg/L}\n"),
        {}));
  };
  const auto reached = page_of("31 ± 1 mg/L");
  EXPECT_NE(reached.find(" met: target free SO2"), std::string::npos) << reached;
  EXPECT_NE(page_of("20 ± 1 mg/L").find(" kept: total SO2 limit, EU"), std::string::npos);
}

TEST(SheetTest, SaysWhenNoRuleWasAskedFor) {
  TestHouse house;
  const auto page = write_text(dose_of(house, "potassium metabisulfite"), {});
  EXPECT_NE(page.find("no legal limit has been checked"), std::string::npos);
}

TEST(SheetTest, TwoSignaturesAndTheFoot) {
  TestHouse house;
  const auto page = write_text(house.run(recipe_with("", "  - sulfite.molecular\n")), {});
  EXPECT_NE(page.find("computed by ____"), std::string::npos);
  EXPECT_NE(page.find("verified by ____"), std::string::npos);
  EXPECT_NE(unwrapped(page).find("safety data sheet, the law in force where you are"), std::string::npos);
}

TEST(SheetTest, DemoDataIsMarkedAtTheTop) {
  TestHouse house;
  const auto demo = write_text(house.run(contents(source_dir / "recipes/before-bottling.yaml")), {});
  EXPECT_LT(demo.find("DEMO DATA: "), demo.find("STEP 1"));
  EXPECT_EQ(write_text(house.run(recipe_with("", "  - sulfite.molecular\n")), {}).find("DEMO"), std::string::npos);
}

TEST(SheetTest, NoLineIsWiderThanThePage) {
  for_every_substance([](TestHouse& house, std::string_view id) { expect_fits(write_text(dose_of(house, id), {})); });
  TestHouse house;
  expect_fits(write_text(house.run(contents(source_dir / "recipes/before-bottling.yaml")), {}));
}

TEST(SheetTest, LongNamesAreWrappedToo) {
  TestHouse house;
  const std::string title =
      "Pink wine of the lower terraces, tanks seven to nine and the small oval cask, before the "
      "first bottling of the year";
  const std::string lot =
      "the small oval cask behind the old press, lower terraces and what was left of the fourth row";
  const std::string page = write_text(
      house.run(
          "recipe: \"" + title + "\"\nlots:\n  \"" + lot +
          "\": {volume: 48 hL, pH: 3.42, free SO2: 14 mg/L, total SO2: 62 mg/L, varieties: {Sorrel from the lower "
          "terraces: 40 %, Blackthorn from the upper terraces: 35 %, Whitethorn from the old walls: 25 %}}\n"
          "steps:\n  - sulfite.addition: {target free SO2: 30 mg/L}\n"),
      {});
  expect_fits(page);
  EXPECT_NE(unwrapped(page).find(title), std::string::npos);
  EXPECT_NE(unwrapped(page).find(lot), std::string::npos);
}

TEST(SheetTest, ColourOnlyWhenAskedFor) {
  const TestHouse house;
  const auto plain = write_text(failing(house), {});
  EXPECT_EQ(plain.find('\033'), std::string::npos);
  TextStyle style;
  style.colour = true;
  auto coloured = write_text(failing(house), style);
  ASSERT_NE(coloured.find('\033'), std::string::npos);
  // Without its codes it is the same page: colour is never the only sign, and moves nothing.
  for (auto at = coloured.find('\033'); at != std::string::npos; at = coloured.find('\033'))
    coloured.erase(at, coloured.find('m', at) - at + 1);
  EXPECT_EQ(coloured, plain);
}

// A name may not move the cursor or repaint the terminal.
TEST(SheetTest, AControlCodeInARecipeDoesNotReachThePage) {
  TestHouse house;
  const std::string title = R"(recipe: "a\e[2Jb")";
  const std::string rest = "\nlots:\n  T7: {pH: 3.42, free SO2: 14 mg/L}\nsteps:\n  - sulfite.molecular\n";
  try {
    EXPECT_EQ(write_text(house.run(title + rest), {}).find('\033'), std::string::npos);
  } catch (const BadInput& error) {
    EXPECT_EQ(std::string(error.what()).find('\033'), std::string::npos) << "refused, which is as good";
  }
}

// Nobody measures again what the page no longer names.
TEST(SheetTest, AValueThatAStepMakesUnknownIsNotLeftOut) {
  TestHouse house;
  const auto sheet = house.run(
      "recipe: test\nlots:\n  T7: {volume: 20 hL, sugar: 172 g/L, stage: must, turbidity: 120 NTU}\n"
      "steps:\n  - sugar.enrichment: {target potential alcohol: 11.5 % vol}\n");
  EXPECT_NE(unwrapped(write_text(sheet, {})).find("turbidity 120 NTU -> not known"), std::string::npos)
      << write_text(sheet, {});
  EXPECT_NE(write_html(sheet).find("not known"), std::string::npos);
}

}  // namespace sheet_test
