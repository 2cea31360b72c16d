// The day, the person and the samples stand on the sheet, whatever its form.
#include <gtest/gtest.h>

#include "tests/host/house.hpp"

namespace who_and_when_test {

using namespace vatwright;
using namespace vatwright::test;

constexpr char signed_recipe[] =
    "recipe: test\ndate: 2026-09-14\nby: A. Tester\nlots:\n  T7: {sample: bottle 42, volume: 48 hL, pH: 3.4, free SO2: "
    "14 "
    "mg/L, total SO2: 62 mg/L}\nsteps:\n  - sulfite.addition: {target free SO2: 28 mg/L}\n";

// A page holds a date together by marks that nobody sees.
std::string without_joiners(std::string text) {
  const std::string joiner = "\u2060";
  for (auto at = text.find(joiner); at != std::string::npos; at = text.find(joiner, at)) text.erase(at, joiner.size());
  return text;
}

TEST(WhoAndWhenTest, TheyStandOnEverySheet) {
  const Folder folder;
  const auto recipe = folder.write("r.yaml", signed_recipe);
  for (const auto* format : {"text", "html", "json"}) {
    const auto said = call({"run", recipe.string(), "--format", format});
    EXPECT_EQ(said.status, 0) << said.err;
    for (const auto* words : {"2026-09-14", "A. Tester", "bottle 42"})
      EXPECT_NE(without_joiners(said.out).find(words), std::string::npos) << format << " has no " << words;
  }
}

TEST(WhoAndWhenTest, TheSheetThatVerifyNamesHasThemToo) {
  const Folder folder;
  const auto recipe = folder.write("r.yaml", signed_recipe);
  const auto sheet = (folder.path() / "s.json").string();
  ASSERT_EQ(call({"run", recipe.string(), "--format", "json", "--out", sheet}).status, 0);
  const auto said = call({"verify", sheet});
  EXPECT_EQ(said.status, 0) << said.out;
  EXPECT_NE(said.out.find("2026-09-14, by A. Tester\n"), std::string::npos) << said.out;
}

TEST(WhoAndWhenTest, NobodySaidNothing) {
  TestHouse house;
  const auto sheet = house.run(recipe_with("", "  - sulfite.molecular\n"));
  EXPECT_EQ(sheet.date + sheet.by + sheet.lots.at(0).sample, "");
}

TEST(WhoAndWhenTest, WhatIsNoDayOrNoLineIsRefused) {
  const auto said_of = [](const std::string& line) {
    return complaint(recipe_with("", "  - sulfite.molecular\n", line + "\n"));
  };
  EXPECT_EQ(said_of("date: 2026-09-14"), "");
  for (const auto* no_day : {"14.9.2026", "2026-13-01", "2026-02-30", "today", "[2026-09-14]"})
    EXPECT_NE(said_of(std::string("date: ") + no_day), "") << no_day;
  for (const auto* no_line : {"[A, B]", "\"A\\nB\""}) EXPECT_NE(said_of(std::string("by: ") + no_line), "") << no_line;
  EXPECT_NE(said_of("by: " + std::string(101, 'a')), "");
  EXPECT_NE(complaint(recipe_with("    sample: {a: b}\n", "  - sulfite.molecular\n")), "");
}

}  // namespace who_and_when_test
