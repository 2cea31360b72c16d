// What is to be done, as every writer says it: work before additions, into what and when, what to
// measure between two of them, and that nothing is to be added.
#include <fmt/format.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "host/sheet/csv.hpp"
#include "host/sheet/to_do.hpp"
#include "host/sheet/writers.hpp"
#include "tests/host/sheets.hpp"

#include <regex>
#include <sstream>

namespace to_do_test {

using namespace vatwright;
using namespace vatwright::test;
using Json = nlohmann::json;

const std::string dosing = VATWRIGHT_FIXTURES "/dosing";

constexpr char of_dosing[] = "recipe: test\nlots: {M1: {volume: 32 hL}}\nsteps: [dosing.portions, dosing.enough]\n";

std::string with_single_spaces(const std::string& text) {
  std::istringstream in(text);
  std::string out, word;
  while (in >> word) out += word + " ";
  return out;
}

std::string words_of(const std::string& page) {
  const auto words = std::regex_replace(page.substr(page.find("<body>")), std::regex("<[^>]*>"), " ");
  return with_single_spaces(std::regex_replace(words, std::regex("\u00a0"), " "));
}

// The sheet of `text` as the program prints it.
std::string printed(const std::string& format, const std::string& text = of_dosing) {
  const Folder folder;
  const auto said = call({"run", folder.write("r.yaml", text).string(), "--plugins", dosing, "--format", format});
  EXPECT_LE(said.status, 1) << said.err;
  return said.out;
}

// That all of `parts` are in `text`, in this order.
void expect_in_order(const std::string& text, const std::vector<std::string>& parts) {
  std::size_t at = 0;
  for (const auto& part : parts) {
    at = text.find(part, at);
    ASSERT_NE(at, std::string::npos) << part << "\nnot, or not here, in\n" << text;
  }
}

TEST(ToDo, WorkComesFirstAndWhatWaitsComesLast) {
  expect_in_order(with_single_spaces(printed("text")),
                  {"WEIGH-OUT LIST", "1. thiamine hydrochloride 1.28 g 1 lot M1 [ ]",
                   "2. calcium carbonate (double-salt treatment) 936 g 1 2750 L taken out of lot M1 [ ]",
                   "3. diammonium phosphate 482 g 1 lot M1, portion 1 of 2, when the density has fallen by 10 kg/m³",
                   "4. diammonium phosphate 481 g 1 lot M1, portion 2 of 2, when a third of the sugar is gone",
                   "nothing to add: lot M1 (step 2)", "TO DO [ ] draw 720 L off as lot P [ ] 1.28 g of thiamine",
                   "936 g of calcium carbonate (double-salt treatment) into 2750 L taken out of lot M1 (dose",
                   "482 g of diammonium phosphate into lot M1, portion 1 of 2, when the density has fallen by "
                   "10 kg/m³ (dose",
                   "portion 2 of 2", "STEP 2", "TO DO - nothing to add"});
  expect_in_order(
      words_of(printed("html")),
      {"Weigh-out list", "thiamine hydrochloride", "2750 L taken out of lot M1", "portion 1 of 2, when",
       "portion 2 of 2, when", "Nothing to add: lot M1 (step 2)", "To do draw 720 L off as lot P To do 1.28 g",
       "936 g of calcium carbonate (double-salt treatment) into 2750 L taken out of lot M1 (dose",
       "482 g of diammonium phosphate into lot M1, portion 1 of 2, when the density has fallen by "
       "10 kg/m³ (dose",
       "portion 2 of 2", "Step 2", "To do nothing to add"});
}

TEST(ToDo, EveryItemCanBeTicked) {
  const auto page = printed("html");
  const auto step = page.substr(page.find("id=\"step-1\""), page.find("id=\"step-2\"") - page.find("id=\"step-1\""));
  std::size_t ticks = 0;
  for (auto at = step.find("type=\"checkbox\""); at != std::string::npos; at = step.find("type=\"checkbox\"", at + 1))
    ++ticks;
  EXPECT_EQ(ticks, 5U);  // a task and four additions
}

TEST(ToDo, JsonSaysItToo) {
  const Json sheet = Json::parse(printed("json"));
  const Json& step = sheet["steps"][0];
  EXPECT_EQ(step["work"], Json{"draw 720 L off as lot P"});
  ASSERT_EQ(step["additions"].size(), 4U);
  EXPECT_EQ(step["additions"][0]["when"], "");
  EXPECT_EQ(step["additions"][1]["into"], "2750 L taken out of lot M1");
  EXPECT_EQ(step["additions"][1]["substance"], "double-salt treatment");
  EXPECT_EQ(step["additions"][1]["product"], "calcium carbonate");
  EXPECT_EQ(step["additions"][3]["when"], "portion 2 of 2, when a third of the sugar is gone");
  EXPECT_TRUE(sheet["steps"][1]["work"].empty());
  for (const auto& total : sheet["weigh out"])
    if (total["substance"] == "diammonium phosphate") {
      EXPECT_EQ(total["lines"][1]["when"], "portion 2 of 2, when a third of the sugar is gone");
    }
}

TEST(ToDo, CsvSaysItToo) {
  expect_in_order(printed("csv"), {"1,dosing.portions,M1,work,draw 720 L off as lot P,",
                                   "1,dosing.portions,M1,addition,thiamine hydrochloride,1.28,g,",
                                   "addition,calcium carbonate (double-salt treatment),936,g,",
                                   ",2750 L taken out of lot M1,,\"Stir the", "addition,diammonium phosphate,482,g,",
                                   ",\"portion 1 of 2, when the density has fallen by 10 kg/m³\",",
                                   "2,dosing.enough,M1,work,nothing to add,"});
}

TEST(ToDo, VerifySeesAChangedWord) {
  const Folder folder;
  const auto recipe = folder.write("r.yaml", of_dosing).string();
  const auto said = call({"run", recipe, "--plugins", dosing, "--format", "json"});
  EXPECT_EQ(call({"verify", folder.write("good.json", said.out).string(), "--plugins", dosing}).status, 0);
  for (const auto* part : {"portion 2 of 2", "2750 L taken", "draw 720 L"}) {
    std::string bad = said.out;
    ASSERT_NE(bad.find(part), std::string::npos) << part;
    bad.replace(bad.find(part), 1, "X");
    const auto verdict = call({"verify", folder.write("bad.json", bad).string(), "--plugins", dosing});
    EXPECT_EQ(verdict.status, 1) << part;
    EXPECT_NE((verdict.out + verdict.err).find(std::string("X") + (part + 1)), std::string::npos) << part;
  }
}

// --- nothing to add

TEST(ToDo, AStepThatNeedsNothingSaysSo) {
  TestHouse house;
  const auto sheet = house.run(contents(source_dir / "recipes/six-lots.yaml"));
  const auto text = write_text(sheet, {});
  expect_in_order(text, {"nothing to add: lot T1 (step 1), lot T4 (step 4)", "STEP 1", "TO DO\n  - nothing to add",
                         "STEP 2", "[ ] 73.4 g", "STEP 4", "TO DO\n  - nothing to add", "STEP 5"});
  expect_in_order(words_of(write_html(sheet)), {"Step 1, lot T1", "To do nothing to add Numbers used", "Step 2, lot T2",
                                                "To do 73.4 g", "Step 4, lot T4", "To do nothing to add Numbers used"});
}

TEST(ToDo, WhatACheckRefusedIsNotCalledEnough) {
  TestHouse house;
  const auto text = write_text(house.run(contents(source_dir / "recipes/over-the-limit.yaml")), {});
  expect_in_order(text, {"FAILS:", "TO DO\n  - refused by a check of this step"});
}

// A lot that has what was asked for needs none, whatever else is amiss with it.
TEST(ToDo, WhatIsRefusedStandsApartFromWhatIsEnough) {
  TestHouse house;
  const auto sheet = house.run(
      "recipe: test\nrules: EU\nlots:\n"
      "  A: {volume: 10 hL, pH: 3.4, free SO2: 40 mg/L, total SO2: 90 mg/L, sugar: 1 g/L, stage: wine, colour: pink}\n"
      "  B: {volume: 10 hL, pH: 3.4, free SO2: 10 mg/L, total SO2: 190 mg/L, sugar: 1 g/L, stage: wine, colour: pink}\n"
      "  C: {volume: 10 hL, pH: 3.4, free SO2: 40 mg/L, total SO2: 290 mg/L, sugar: 1 g/L, stage: wine, colour: pink}\n"
      "steps:\n  - sulfite.addition: {lot: A, target free SO2: 30 mg/L}\n"
      "  - sulfite.addition: {lot: B, target free SO2: 30 mg/L}\n"
      "  - sulfite.addition: {lot: C, target free SO2: 30 mg/L}\n");
  EXPECT_EQ(idle_steps(sheet), (std::vector<std::string>{"nothing to add: lot A (step 1), lot C (step 3)",
                                                         "refused by a check: lot B (step 2)"}));
  EXPECT_EQ(idle_in_a_row(sheet), std::vector<std::string>{"step 2: refused by a check"});
  EXPECT_EQ(idle_words(sheet.steps[2]), "nothing to add; a check of this step fails");
  EXPECT_EQ(Json::parse(write_json(sheet))["steps"][1]["not done"], "refused by a check of this step");
}

// A step that only looks, and one that draws wine off, have nothing to add by their nature.
TEST(ToDo, OtherStepsSayNothingOfIt) {
  TestHouse house;
  EXPECT_EQ(write_text(house.run(recipe_with("", "  - sulfite.molecular\n")), {}).find("TO DO"), std::string::npos);
  const auto bled = write_text(house.run(contents(source_dir / "recipes/bleeding-a-red-tank.yaml")), {});
  EXPECT_EQ(bled.find("nothing to add"), std::string::npos);
}

// --- two doses in one lot

TEST(ToDo, BetweenTwoDosesTheForecastIsMeasured) {
  TestHouse house;
  const auto sheet = house.run(contents(source_dir / "recipes/acid-saves-sulfite.yaml"));
  ASSERT_TRUE(sheet.steps[1].measure_first);
  EXPECT_EQ(sheet.steps[1].measure_first->after, 0U);
  EXPECT_EQ(sheet.steps[1].measure_first->figures, std::vector<std::string_view>{"pH"});
  EXPECT_FALSE(sheet.steps[0].measure_first);
  EXPECT_FALSE(sheet.steps[2].measure_first) << "another lot, as it was measured";
  const auto text = with_single_spaces(write_text(sheet, {}));
  expect_in_order(text, {"1. tartaric acid", "2. potassium metabisulfite", "lot T11; first mix, wait and measure pH",
                         "3. potassium metabisulfite", "lot T12 ! tartaric",
                         "TO DO [ ] first mix what step 1 adds, wait as its handling says, and measure pH"});
  expect_in_order(words_of(write_html(sheet)),
                  {"lot T11; first mix, wait and measure pH", "To do first mix what step 1 adds, wait"});
  EXPECT_EQ(Json::parse(write_json(sheet))["steps"][1]["measure first"], Json{"pH"});
}

// It says what was forecast; a step that says otherwise is refused.
TEST(ToDo, AReadingOfTheStepItselfNeedsNoOther) {
  TestHouse house;
  const auto sheet = house.run(
      "recipe: test\nlots: {A: {volume: 10 hL, pH: 3.5, titratable acidity: 5 g/L as tartaric acid, free SO2: 10 mg/L, "
      "total SO2: 50 mg/L, ethanol: 12 % vol, stage: wine}}\nsteps:\n  - acid.addition: {target pH: 3.4}\n"
      "  - sulfite.addition: {pH: 3.40, target free SO2: 25 mg/L}\n");
  EXPECT_FALSE(sheet.steps[1].measure_first);
}

// What the lot's books keep of additions is not measured.
TEST(ToDo, BooksAreNotMeasured) {
  TestHouse house;
  const auto sheet = house.run(
      "recipe: test\nlots: {A: {volume: 10 hL, pH: 3.6, titratable acidity: 5 g/L as tartaric acid, ethanol: 12 % vol, "
      "stage: wine}}\nsteps:\n  - acid.addition: {target pH: 3.5}\n  - acid.addition: {target pH: 3.4}\n");
  ASSERT_TRUE(sheet.steps[1].measure_first);
  const auto& figures = sheet.steps[1].measure_first->figures;
  EXPECT_NE(std::find(figures.begin(), figures.end(), "titratable acidity"), figures.end());
  const bool booked = std::any_of(
      sheet.steps[1].inputs.begin(), sheet.steps[1].inputs.end(),
      [](const UsedInput& used) { return used.input->name == "acid added" && words(used.from) == "step 1"; });
  EXPECT_TRUE(booked);
  EXPECT_EQ(std::find(figures.begin(), figures.end(), "acid added"), figures.end());
}

// --- what stands on the sack

TEST(Product, EveryWriterNamesIt) {
  TestHouse house;
  const auto sheet = house.run(contents(source_dir / "recipes/sour-must.yaml"));
  const std::string name = "calcium carbonate (double-salt treatment)";
  EXPECT_NE(write_text(sheet, {}).find(" of " + name + " into "), std::string::npos);
  EXPECT_NE(write_text(sheet, {}).find("] 1. " + name), std::string::npos);
  EXPECT_NE(words_of(write_html(sheet)).find(" of " + name + " into "), std::string::npos);
  EXPECT_NE(write_csv(sheet).find(",addition," + name + ","), std::string::npos);
  EXPECT_NE(call({"substances", "double-salt treatment"}).out.find("calcium carbonate"), std::string::npos);
  std::istringstream list(call({"substances"}).out);
  for (std::string line; std::getline(list, line);)
    if (line.starts_with("double-salt treatment")) {
      EXPECT_NE(line.find("calcium carbonate"), std::string::npos);
    }
}

// A step that is on no lot, such as a gas over tanks, says where to all the same.
TEST(ToDo, WhatGoesIntoNoLotHasAPlace) {
  TestHouse house;
  const auto sheet = house.run(
      "recipe: test\nlots: {A: {volume: 1 hL}, B: {volume: 1 hL}}\nsteps:\n"
      "  - cellar.gas: {headspace: 900 L, gas: nitrogen, wanted oxygen: 0.5 %}\n");
  const std::string place = "of nitrogen into the vessel, into the head space";
  EXPECT_NE(with_single_spaces(write_text(sheet, {})).find(place), std::string::npos);
  EXPECT_NE(words_of(write_html(sheet)).find(place), std::string::npos);
  EXPECT_EQ(with_single_spaces(write_text(sheet, {})).find("lot ,"), std::string::npos);
}

}  // namespace to_do_test
