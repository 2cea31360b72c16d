// The short form: what to do, in order, with its cautions once; it fits one page, and leaves nothing out that is to be
// done.
#include "host/sheet/blocks.hpp"
#include "host/sheet/html_markup.hpp"
#include "host/sheet/no_break.hpp"
#include "host/sheet/writers.hpp"
#include "tests/host/program.hpp"
#include "tests/host/sheets.hpp"
#include "tests/host/words.hpp"

#include <gtest/gtest.h>

#include <algorithm>

namespace short_test {

using namespace vatwright;
using namespace vatwright::test;

constexpr long lines_of_a_page = 66;  // A4, 6 lines to the inch, less its margins

std::vector<fs::path> recipes() {
  std::vector<fs::path> out;
  for (const auto& entry : fs::directory_iterator(source_dir / "recipes"))
    if (entry.path().extension() == ".yaml") out.push_back(entry.path());
  std::sort(out.begin(), out.end());
  return out;
}

TEST(ShortTest, EveryRecipeHasAllOfItsWorkAndCautionsOnce) {
  TestHouse house;
  for (const auto& recipe : recipes()) {
    SCOPED_TRACE(recipe.filename());
    const Worksheet sheet = house.bench().run(read_recipe(Document::open(recipe.string())));
    const auto brief = blocks::in_short(sheet);
    const std::string text = on_one_line(write_short_text(sheet, {}));
    std::size_t additions = 0;
    for (const auto& step : sheet.steps) {
      additions += step.outcome.additions.size();
      for (const auto& check : step.outcome.checks) EXPECT_TRUE(check.holds || count(text, "FAILS: ") > 0);
      for (const auto* list : {&step.added, &step.reagents})
        for (const auto* one : *list)
          for (const auto& caution : one->cautions) EXPECT_EQ(count(text, "! " + caution), count(text, caution));
      for (const auto& work : step.outcome.work) EXPECT_NE(text.find(work.substr(0, 30)), std::string::npos) << work;
    }
    EXPECT_EQ(sheet.weigh_out.lines.size(), additions);
    EXPECT_EQ(count(text, "(dose "), additions);
    EXPECT_NE(text.find("computed by"), std::string::npos);
    const auto page = write_short_html(sheet);
    for (const auto& section : brief.sections) {
      const auto title = escaped(held_together(section.title.words()));
      EXPECT_NE(page.find(title), std::string::npos) << title;
    }
  }
}

TEST(ShortTest, OneLotWithOneAdditionFitsOnePage) {
  const auto said = call({"run", (source_dir / "recipes/before-bottling.yaml").string(), "--short"});
  EXPECT_EQ(said.status, 0) << said.err;
  EXPECT_LE(std::count(said.out.begin(), said.out.end(), '\n'), lines_of_a_page);
  EXPECT_NE(said.out.find("184 g of potassium metabisulfite into lot T7"), std::string::npos) << said.out;
  EXPECT_NE(said.out.find("H318"), std::string::npos);
}

TEST(ShortTest, IsAPageAlone) {
  const auto recipe = (source_dir / "recipes/before-bottling.yaml").string();
  for (const char* format : {"json", "csv"}) EXPECT_EQ(call({"run", recipe, "--short", "--format", format}).status, 2);
  EXPECT_EQ(call({"run", recipe, "--short", "--format", "html"}).status, 0);
}

// What a sheet handles and does not add is told once: fourteen titrations, one set of cautions.
TEST(ReagentTest, CautionsStandOnceASheet) {
  std::string steps;
  for (int i = 0; i < 14; ++i)
    steps +=
        "  - sulfite.titration: {method: iodine, titrant: 2.10 mL, titrant concentration: 0.010 mol/L, sample: 50 "
        "mL}\n";
  TestHouse house;
  const Worksheet sheet = house.run("recipe: r\nlots: {A: {pH: 3.4}}\nsteps:\n" + steps);
  ASSERT_FALSE(sheet.steps.at(0).reagents.empty());
  for (const auto& page : {on_one_line(write_text(sheet, {})), on_one_line(write_html(sheet))})
    for (const auto* reagent : sheet.steps[0].reagents)
      for (const auto& caution : reagent->cautions) {
        // First aid of one class is that of all who are of it.
        const auto has = std::ranges::count_if(sheet.steps[0].reagents, [&](const Substance* one) {
          return std::ranges::find(one->cautions, caution) != one->cautions.end();
        });
        EXPECT_LE(count(page, caution), 2U * static_cast<std::size_t>(has)) << caution;
      }
}

// One addition stands at the top too, whichever step it is of.
TEST(ReagentTest, WhatToDoComesFirstForOneAdditionToo) {
  TestHouse house;
  const Worksheet sheet = house.run(
      "recipe: r\nlots: {A: {volume: 48 hL, pH: 3.42, free SO2: 14 mg/L, total SO2: 62 mg/L, sugar: 1 g/L}}\nsteps:\n"
      "  - sulfite.molecular\n  - sulfite.addition: {target molecular SO2: 0.6 mg/L}\n");
  const auto text = write_text(sheet, {});
  EXPECT_LT(text.find("potassium metabisulfite"), text.find("STEP 1"));
}

}  // namespace short_test
