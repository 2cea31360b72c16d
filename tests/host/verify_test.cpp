// A sheet in JSON is recomputed from what it carries: every changed digit is found.
#include "host/cli/verify.hpp"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <cctype>

#include "host/cli/compute.hpp"
#include "host/sheet/writers.hpp"
#include "tests/host/house.hpp"

namespace verify_test {

using namespace vatwright;
using namespace vatwright::test;

constexpr char chain[] =
    "recipe: test\nrules: EU\nlots:\n  T7: {volume: 48 hL, pH: 3.42 ± 0.02, free SO2: 14 ± 2 mg/L, total SO2: 62 "
    "mg/L}\n"
    "steps:\n  - sulfite.addition: {target free SO2: 28 mg/L}\n";

struct Sheets {
  TestHouse house;
  Folder folder;

  std::string sheet(const Draws& draws = {}) {
    return write_json(house.bench().run(read_recipe(Document::read("no such file.yaml", chain)), draws));
  }
  Verdict verify(const std::string& text) { return verify_sheet(house.bench(), folder.write("sheet.json", text)); }
  // Differences, or the complaint.
  std::string found(const std::string& text) {
    try {
      std::string all;
      for (const auto& difference : verify(text).differences) all += difference + "\n";
      return all;
    } catch (const BadInput& error) {
      return error.what();
    }
  }
};

std::string with(std::string text, const std::string& from, const std::string& to) {
  const auto at = text.find(from);
  if (at == std::string::npos) throw std::runtime_error("no " + from);
  return text.replace(at, from.size(), to);
}

bool says(const std::string& text, const std::string& part) {
  if (text.find(part) != std::string::npos) return true;
  ADD_FAILURE() << text;
  return false;
}

TEST(Verify, ASheetHolds) {
  Sheets sheets;
  const auto verdict = sheets.verify(sheets.sheet());
  EXPECT_TRUE(verdict.differences.empty()) << verdict.differences.front();
  EXPECT_GT(verdict.compared, 50U);
}

// Which sheet it is stands before the verdict; what could not be compared is not said to hold.
TEST(Verify, TheSheetIsNamed) {
  const Folder folder;
  const auto recipe = folder.write("r.yaml", chain);
  const auto sheet = folder.path() / "s.json";
  ASSERT_EQ(call({"run", recipe.string(), "--format", "json", "--out", sheet.string()}).status, 0);
  const auto good = call({"verify", sheet.string()});
  for (const char* words :
       {"test\n", "(SHA-256 ", "rules: EU\n", "lot T7: ", " of potassium metabisulfite", ": holds: "})
    EXPECT_TRUE(says(good.out, words));
  fs::remove(recipe);
  const auto alone = call({"verify", sheet.string()});
  EXPECT_TRUE(says(alone.out, "not compared: the recipe file "));
  EXPECT_EQ(alone.out.find("holds"), std::string::npos) << alone.out;
  EXPECT_EQ(alone.status, 0);
}

TEST(Verify, ADrawnSheetHolds) {
  Sheets sheets;
  EXPECT_EQ(sheets.found(sheets.sheet({3'000, 11})), "");
}

// Of a figure, the digits that no sheet shows do not count: past the sixth, and past the second behind the point.
bool is_shown(const std::string& sheet, std::size_t at) {
  const auto here = sheet.begin() + static_cast<std::ptrdiff_t>(at);
  const auto line = sheet.begin() + static_cast<std::ptrdiff_t>(sheet.rfind('\n', at) + 1);
  if (std::count(line, here, '"') % 2 == 1) return true;  // within a text
  const auto start = sheet.find_last_not_of("0123456789.", at) + 1;
  constexpr std::size_t most_digits = 6, most_behind = 2;
  const std::string before = sheet.substr(start, at - start);
  const auto point = before.find('.');
  return before.size() < most_digits && (point == std::string::npos || before.size() - point <= most_behind);
}

TEST(Verify, EveryChangedDigitThatIsShownIsFound) {
  Sheets sheets;
  const std::string sheet = sheets.sheet();
  const auto plugins = sheet.find("\"plugins\"");
  std::size_t digits = 0;
  for (std::size_t i = 0; i < sheet.size(); ++i) {
    if (std::isdigit(static_cast<unsigned char>(sheet[i])) == 0 || !is_shown(sheet, i)) continue;
    if (i > plugins && i < sheet.find(']', plugins)) continue;  // of a plugin that was built elsewhere
    ++digits;
    std::string changed = sheet;
    changed[i] = changed[i] == '9' ? '1' : static_cast<char>(changed[i] + 1);
    ASSERT_NE(sheets.found(changed), "") << sheet.substr(i < 40 ? 0 : i - 40, 60);
  }
  EXPECT_GT(digits, 400U);
}

TEST(Verify, DifferencesAreNamed) {
  Sheets sheets;
  const std::string sheet = sheets.sheet();
  EXPECT_TRUE(says(sheets.found(with(sheet, "\"vatwright 0.", "\"vatwright 7.")), "program: the sheet says"));
  EXPECT_TRUE(
      says(sheets.found(with(sheet, "\"sulfite 0.1.0\"", "\"sulfite 9.9.9\"")), "steps 1, plugin: the sheet says"));
  EXPECT_TRUE(says(sheets.found(with(sheet, "\"holds\": true", "\"holds\": false")), "holds"));
  EXPECT_TRUE(says(sheets.found(with(sheet, "target free SO2: 28", "target free SO2: 29")), "do not belong together"));
  EXPECT_TRUE(says(sheets.found(with(sheet, "\"notes\"", "\"nots\"")), "computed anew there is none"));
  EXPECT_TRUE(says(sheets.found(with(sheet, "T7: {volume", "T7: {volum")), "does not run"));
}

TEST(Verify, WhatIsNoSheetIsRefused) {
  Sheets sheets;
  const std::string sheet = sheets.sheet();
  EXPECT_TRUE(says(sheets.found("{}"), "not a vatwright worksheet"));
  EXPECT_TRUE(says(sheets.found("{\"sheet\": 2}"), "not version 1"));
  EXPECT_TRUE(says(sheets.found("{\"sheet\": 1}"), "its recipe has no"));
  EXPECT_TRUE(says(sheets.found("recipe: test"), "expected a worksheet in JSON; this is something else\n"));
  EXPECT_TRUE(says(sheets.found("recipe: test"), "--format json"));
  EXPECT_TRUE(says(sheets.found(""), "this is empty"));
  EXPECT_TRUE(says(sheets.found(sheet.substr(0, sheet.size() / 2)), "this is not JSON, or not all of it"));
  EXPECT_EQ(sheets.found(sheet.substr(0, sheet.size() / 2)).find("json.exception"), std::string::npos);
  EXPECT_TRUE(
      says(sheets.found("{\"a\": " + std::string(1000, '[') + std::string(1000, ']') + "}"), "nested deeper than"));
  std::string long_list = "{\"a\": [0";
  for (int i = 0; i < 2'000'000; ++i) long_list += ",0";
  EXPECT_TRUE(says(sheets.found(long_list + "]}"), "more than 2000000 values"));
  EXPECT_TRUE(
      says(sheets.found(with(sheet, "\"sheet\": 1,", "\"sheet\": 1, \"holds\": true,")), "'holds' is there twice"));
}

TEST(Verify, AChangedRecipeFileIsNamed) {
  const Folder folder;
  const auto recipe = folder.write("r.yaml", chain);
  const auto sheet = folder.path() / "s.json";
  ASSERT_EQ(call({"run", recipe.string(), "--format", "json", "--out", sheet.string()}).status, 0);
  const auto good = call({"verify", sheet.string()});
  EXPECT_EQ(good.status, 0) << good.out;
  folder.write("r.yaml", with(chain, "48 hL", "47 hL"));
  const auto bad = call({"verify", sheet.string()});
  EXPECT_EQ(bad.status, 1);
  EXPECT_TRUE(says(bad.out, "has changed since the sheet was written"));
}

TEST(Verify, AChangedRuleIsNamed) {
  const Folder folder;
  const std::string rules =
      "rules: mine\ntitle: mine\nnote: none\ntotal SO2:\n  - at most: 100 mg/L\n    source: the cellar book\n";
  folder.write("mine.yaml", rules);
  const auto recipe = folder.write("r.yaml", with(chain, "rules: EU", "rules: mine.yaml"));
  const auto sheet = folder.path() / "s.json";
  ASSERT_EQ(call({"run", recipe.string(), "--format", "json", "--out", sheet.string()}).status, 0);
  EXPECT_EQ(call({"verify", sheet.string()}).status, 0);
  folder.write("mine.yaml", with(rules, "100 mg/L", "110 mg/L"));
  const auto bad = call({"verify", sheet.string()});
  EXPECT_EQ(bad.status, 1);
  EXPECT_TRUE(says(bad.out, "rule texts 1, sha256"));
}

// What a sheet was made with: the tables of substances and pairs, the typical uncertainties where they are asked for,
// and the plugins. Any of them may be another one where the sheet is verified. A plugin that was built elsewhere, or
// has no file since it is linked in, is told; what it computes is compared.
TEST(Verify, AnotherTableOrPluginIsNamed) {
  Sheets sheets;
  const std::string typical = "uncertainty: typical\n" + std::string(chain);
  const std::string sheet =
      write_json(sheets.house.bench().run(read_recipe(Document::read("no such file.yaml", typical)), {}));
  EXPECT_EQ(sheets.found(sheet), "");
  const auto json = nlohmann::json::parse(sheet);
  ASSERT_EQ(json["tables"].size(), 3U);
  ASSERT_EQ(json["plugins"].size(), 1U);
  const auto hash_of = [](const nlohmann::json& file) { return file["sha256"].get<std::string>(); };
  for (const auto& file : json["tables"]) {
    const auto hash = hash_of(file);
    ASSERT_EQ(hash.size(), 64U) << file;
    EXPECT_TRUE(says(sheets.found(with(sheet, hash, std::string(hash.rbegin(), hash.rend()))), "tables "));
  }
  const auto hash = hash_of(json["plugins"][0]);
  ASSERT_EQ(hash.size(), 64U);
  for (const auto& other : {std::string(hash.rbegin(), hash.rend()), std::string()}) {
    const auto verdict = sheets.verify(with(sheet, hash, other));
    EXPECT_TRUE(verdict.differences.empty()) << verdict.differences.front();
    ASSERT_EQ(verdict.not_compared.size(), 2U);  // and the recipe file, which is not there
    EXPECT_TRUE(says(verdict.not_compared[1], "the file of the plugin sulfite"));
  }
  EXPECT_TRUE(says(sheets.found(with(sheet, hash, "anything")), "plugins 1, sha256"));
}

TEST(Verify, AnOlderSheetIsToldWhatWasNotCompared) {
  Sheets sheets;
  auto json = nlohmann::ordered_json::parse(sheets.sheet());
  json.erase("tables");
  json.erase("plugins");
  const auto verdict = sheets.verify(json.dump());
  EXPECT_TRUE(verdict.differences.empty()) << verdict.differences.front();
  ASSERT_EQ(verdict.not_compared.size(), 3U);  // and the recipe file, which is not there
  EXPECT_TRUE(says(verdict.not_compared[1], "the tables that it was made with"));
  EXPECT_TRUE(says(verdict.not_compared[2], "the plugins that it was made with"));
}

// The same figures, and a check that fails: nobody may read "holds" and dose.
TEST(Verify, ASheetWhoseChecksFailIsNamed) {
  const Folder folder;
  const auto recipe = folder.write("r.yaml", with(chain, "total SO2: 62", "total SO2: 198"));
  const auto sheet = folder.path() / "s.json";
  ASSERT_EQ(call({"run", recipe.string(), "--format", "json", "--out", sheet.string()}).status, 1);
  const auto said = call({"verify", sheet.string()});
  EXPECT_EQ(said.status, 1);
  EXPECT_TRUE(says(said.out, "the same figures"));
  EXPECT_TRUE(says(said.out, " checks of this sheet FAIL"));
  EXPECT_EQ(said.out.find("holds"), std::string::npos) << said.out;
}

TEST(Verify, ASheetOfComputeHolds) {
  const Folder folder;
  const auto sheet = folder.path() / "s.json";
  ASSERT_EQ(call({"compute", "sulfite.molecular", "pH=3.40 ± 0.02", "free SO2=30 mg/L", "colour=pink", "--rules", "EU",
                  "--format", "json", "--out", sheet.string()})
                .status,
            0);
  const auto said = call({"verify", sheet.string()});
  EXPECT_EQ(said.status, 0) << said.out;
}

}  // namespace verify_test
