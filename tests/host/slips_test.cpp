// All slips of a file at once, each with its line; the same as JSON.
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <random>
#include <set>

#include "host/yaml/sections.hpp"
#include "tests/host/house.hpp"

namespace slips_test {

using namespace vatwright;
using namespace vatwright::test;
using Json = nlohmann::json;

std::vector<Problem> problems_of(const std::string& text) {
  static TestHouse house;
  try {
    Slips slips;
    const Recipe recipe = read_recipe(Document::read("recipe.yaml", text), slips);
    house.bench().check(recipe, slips);
  } catch (const BadInput& error) {
    return error.problems();
  }
  return {};
}

// A line of a recipe, and what a slip makes of it; none: it is always right.
struct Line {
  std::string right;
  std::vector<std::string> wrong{};
};

std::vector<Line> lot_lines(const std::string& name) {
  return {{"  " + name + ":"},
          {"    volume: 48 hL", {"    volume: 48 mg/L", "    volume: 48,5 hL", "    volume: -3 hL", "    volume:"}},
          {"    pH: 3.42", {"    pH: 34.2", "    pH: 3,42", "    ph: 3.42"}},
          {"    titratable acidity: 5.1 g/L", {"    titratable acidity: 5.1 hL", "    titratable acidity: high"}},
          {"    ethanol: 12.6 % vol", {"    ethanol: 12.6", "    ethanol: 126 % vol", "    ethanl: 12.6 % vol"}},
          {"    free SO2: 14 mg/L", {"    free SO2: 14 hL", "    fre SO2: 14 mg/L", "    free SO2: 14 ng/"}},
          {"    total SO2: 62 mg/L", {"    total SO2: 62 mgg/L", "    total SO2: [62 mg/L]"}},
          {"    stage: wine", {"    stage: wien", "    stage: 12 hL"}},
          {"    colour: pink", {"    colour: yellow", "    color: pink"}}};
}

std::vector<Line> step_lines(const std::string& lot) {
  return {{"  - sulfite.addition:", {"  - sulfite.adition:", "  - sulfit.addition:"}},
          {"      lot: " + lot, {"      lot: Z9", "      lot:"}},
          {"      target molecular SO2: 0.6 mg/L",
           {"      target molecular SO2: 0.6 hL", "      target moleculr SO2: 0.6 mg/L",
            "      target molecular SO2: 60 g/L"}},
          {"      substance: potassium metabisulfite", {"      substance: potassium metabisulfate"}},
          {"      # the end of the step", {"      flavour: 3 g/L"}}};
}

std::vector<Line> valid_recipe() {
  std::vector<Line> all{{"recipe: many slips", {"recipe:"}},
                        {"acid basis: tartaric acid", {"acid basis: tartric acid", "acid bases: tartaric acid"}},
                        {"rules: EU", {"rules: UE", "rules: not there.yaml"}},
                        {"lots:"}};
  for (const std::string lot : {"T1", "T2", "T3"})
    for (auto& line : lot_lines(lot)) all.push_back(std::move(line));
  all.push_back({"steps:"});
  for (const std::string lot : {"T1", "T2", "T3", "T1"})
    for (auto& line : step_lines(lot)) all.push_back(std::move(line));
  return all;
}

// So many slips, each in a line of its own: so many problems, each with its line, in order.
TEST(SlipsTest, AsManyAsWerePlanted) {
  const auto right = valid_recipe();
  const auto text_of = [&](const std::vector<std::string>& lines) {
    std::string text;
    for (const auto& line : lines) text += line + "\n";
    return text;
  };
  std::vector<std::string> lines;
  std::vector<std::size_t> places;
  for (std::size_t i = 0; i < right.size(); ++i) {
    lines.push_back(right[i].right);
    if (!right[i].wrong.empty()) places.push_back(i);
  }
  ASSERT_TRUE(problems_of(text_of(lines)).empty());
  std::mt19937 random(14);
  for (int round = 0; round < 300; ++round) {
    std::ranges::shuffle(places, random);
    const std::size_t count = 1 + random() % 12;
    auto slipped = lines;
    std::set<int> planted;
    for (std::size_t i = 0; i < count; ++i) {
      const auto& wrong = right[places[i]].wrong;
      slipped[places[i]] = wrong[random() % wrong.size()];
      planted.insert(static_cast<int>(places[i]) + 1);
    }
    std::vector<int> found;
    const auto problems = problems_of(text_of(slipped));
    for (const auto& problem : problems) found.push_back(problem.place.line);
    std::string told;
    for (const auto& problem : problems) told += words_of(problem) + "\n";
    ASSERT_EQ(found, std::vector<int>(planted.begin(), planted.end())) << text_of(slipped) << told;
  }
}

// What a step misses is told beside the slips of others, and not where it only could not be read.
TEST(SlipsTest, WhatIsMissingToo) {
  const std::string text =
      "recipe: r\nlots:\n  A: {pH: 3.4}\n  B: {pH: 34}\nsteps:\n  - sulfite.molecular: {lot: A}\n"
      "  - sulfite.molecular: {lot: B, free SO2: 30 mg/L}\n  - sulfite.molecular: {lot: B}\n";
  const auto problems = problems_of(text);
  ASSERT_EQ(problems.size(), 3U);
  EXPECT_EQ(problems[0].place.line, 4);
  EXPECT_EQ(problems[1].place.line, 6);
  EXPECT_NE(problems[1].message.find("misses 'free SO2'"), std::string::npos) << problems[1].message;
  EXPECT_EQ(problems[2].place.line, 8);
}

// A lot that a misspelt step would have made is not called unknown as well.
TEST(SlipsTest, LotsOfAStepThatCannotBeRead) {
  const auto problems = problems_of(
      "recipe: r\nlots: {A: {volume: 9 hL, pH: 3.4}, B: {volume: 9 hL, pH: 3.5}}\nsteps:\n"
      "  - blend.mux: {lots: {A: 60 %, B: 40 %}, into: C}\n  - sulfite.molecular: {lot: C}\n");
  ASSERT_EQ(problems.size(), 1U) << words_of(problems.back());
  EXPECT_EQ(problems[0].place.line, 4);
}

TEST(SlipsTest, InFlowStyleADecimalCommaIsOne) {
  const auto problems = problems_of(
      "recipe: r\nlots:\n  A: {volume: 48,5 hL, pH: 3,42, free SO2: 30 mg/L}\nsteps:\n  - sulfite.molecular: {}\n");
  ASSERT_EQ(problems.size(), 2U);
  for (const auto& problem : problems) EXPECT_NE(problem.message.find("decimal comma"), std::string::npos);
}

TEST(SlipsTest, AtMostFiftyInWords) {
  std::vector<Problem> many;
  for (int i = 0; i < 60; ++i) many.push_back({{.file = "r.yaml", .line = i + 1, .column = 1}, "wrong", ""});
  const std::string words = BadInput(many).what();
  EXPECT_EQ(std::ranges::count(words, '\n'), 50);
  EXPECT_TRUE(words.ends_with("... and 10 more")) << words;
}

// --- as JSON

int valid(const std::string& json) {
  const Folder folder;
  const auto file = folder.write("problems.json", json);
  return run_program("python3", {"-c",
                                 "import json, sys, jsonschema\n"
                                 "jsonschema.validate(json.load(open(sys.argv[1])), json.load(open(sys.argv[2])))\n",
                                 file.string(), (build_dir / "share/vatwright/problems.schema.json").string()})
      .status;
}

TEST(SlipsTest, AsJson) {
  const Folder folder;
  const auto file = folder.write("r.yaml",
                                 "recipe: r\nlots:\n  A: {pH: 34, free SO2: 30 hL}\nsteps:\n"
                                 "  - sulfite.molecular: {pK2: 7}\n");
  for (const char* command : {"run", "check"}) {
    const auto said = call({command, file.string(), "--format", "json"});
    EXPECT_EQ(said.status, 2);
    const Json json = Json::parse(said.out);
    EXPECT_EQ(valid(said.out), 0) << said.out;
    EXPECT_EQ(json["status"], 2);
    ASSERT_EQ(json["problems"].size(), 3U) << said.out;
    EXPECT_EQ(json["problems"][0]["line"], 3);
    EXPECT_EQ(json["problems"][0]["column"], 11);
    EXPECT_EQ(json["problems"][2]["line"], 5);
    EXPECT_NE(said.err.find("3 slips"), std::string::npos) << said.err;
  }
  const auto right = call({"check", (source_dir / "recipes/before-bottling.yaml").string(), "--format", "json"});
  EXPECT_EQ(right.status, 0);
  EXPECT_TRUE(Json::parse(right.out)["problems"].empty());
  EXPECT_EQ(valid(right.out), 0);
}

TEST(SlipsTest, ThatNoFileHasAsJson) {
  const auto nowhere = call({"run", "nowhere.yaml", "--format", "json"});
  EXPECT_EQ(nowhere.status, 2);
  EXPECT_EQ(Json::parse(nowhere.out)["problems"][0]["file"], "nowhere.yaml");
  EXPECT_EQ(valid(nowhere.out), 0) << nowhere.out;
  const auto no_plugin = call({"compute", "nothing.like-it", "pH=3.4", "--format", "json"});
  EXPECT_EQ(no_plugin.status, 3);
  EXPECT_EQ(Json::parse(no_plugin.out)["status"], 3);
  EXPECT_EQ(valid(no_plugin.out), 0) << no_plugin.out;
}

// --- rule files in another style

TEST(SectionsTest, AnyStyleOfYamlIsTheSame) {
  const Folder folder;
  const std::string block =
      "rules: ours\ntitle: \"our house\"\ntotal SO2 limit:\n  - {at most: 120 mg/L, source: us}\n";
  const std::string flow = "{rules: ours, title: 'our house',\n total SO2 limit: [{at most: 120 mg/L, source: us}]}\n";
  const std::vector<std::string> styles{
      block,
      "\xEF\xBB\xBF" + block,
      "---\n" + block,
      flow,
      "\xEF\xBB\xBF" + flow,
      "&all\n" + block,
      "? rules\n: ours\n" + block.substr(block.find('\n') + 1),
      "rules: ours\ntitle: &t \"our house\"\nnote: *t\n" + block.substr(block.find("total"))};
  for (const auto& style : styles) {
    SCOPED_TRACE(style);
    const Sections sections(folder.write("ours.yaml", style));
    EXPECT_EQ(sections.text(), style);
    const auto names = sections.names();
    for (const std::string_view name : {"rules", "title", "total SO2 limit"})
      EXPECT_NE(std::ranges::find(names, name), names.end()) << name;
    const auto rows = sections.find("total SO2 limit");
    ASSERT_TRUE(rows.has_value());
    const Node* list = rows->root().find("total SO2 limit");
    ASSERT_NE(list, nullptr);
    ASSERT_EQ(list->items.size(), 1U);
    EXPECT_EQ(list->items[0].find("at most")->text, "120 mg/L");
    EXPECT_EQ(sections.find("title")->root().find("title")->text, "our house");
    EXPECT_FALSE(sections.find("nothing").has_value());
  }
  EXPECT_THROW(Sections(folder.write("list.yaml", "[a, b]\n")), BadInput);
}

}  // namespace slips_test
