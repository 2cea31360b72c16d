// What calculations say of themselves, as JSON: whole, in order, and by its schema.
#include "host/describe/describe.hpp"
#include "tests/host/house.hpp"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <cctype>
#include <set>

namespace describe_test {

using namespace vatwright;
using namespace vatwright::test;
using Json = nlohmann::json;

bool is_of_lots(std::string_view name) {
  return std::any_of(lot::keys.begin(), lot::keys.end(), [&](const Input* key) { return key->name == name; });
}

Json whole() {
  const auto said = call({"describe"});
  EXPECT_EQ(said.status, 0) << said.err;
  return Json::parse(said.out);
}

// Against the schema as it is installed; 9: no validator.
Said validated(const std::vector<Json>& documents) {
  const Folder folder;
  std::vector<std::string> arguments{"-c",
                                     "import json, sys\n"
                                     "try:\n  import jsonschema\n"
                                     "except ImportError:\n  sys.exit(9)\n"
                                     "schema = json.load(open(sys.argv[1]))\n"
                                     "for name in sys.argv[2:]: jsonschema.validate(json.load(open(name)), schema)\n",
                                     (build_dir / "share/vatwright/describe.schema.json").string()};
  for (std::size_t i = 0; i < documents.size(); ++i)
    arguments.push_back(folder.write("d" + std::to_string(i) + ".json", documents[i].dump()).string());
  const auto verdict = run_program("python3", arguments);
  EXPECT_NE(verdict.status, 9) << "install the package python3-jsonschema to run this test";
  return verdict;
}

// Every calculation, alone and with all others, and of a plugin by others.
TEST(DescribeTest, EveryCalculationIsValid) {
  std::vector<Json> all{whole()};
  for (const auto& plugin : all[0]["plugins"])
    for (const auto& calculation : plugin["calculations"]) {
      const auto said = call({"describe", calculation["id"].get<std::string>()});
      ASSERT_EQ(said.status, 0) << said.err;
      all.push_back(Json::parse(said.out));
      EXPECT_EQ(all.back()["plugins"][0]["calculations"], Json::array({calculation}));
    }
  const auto others = call({"describe", "--plugins", VATWRIGHT_FIXTURES "/dosing"});
  ASSERT_EQ(others.status, 0) << others.err;
  EXPECT_NE(others.out.find("\"dosing.portions\""), std::string::npos);
  all.push_back(Json::parse(others.out));
  const auto verdict = validated(all);
  EXPECT_EQ(verdict.status, 0) << verdict.err;
}

// The schema is not one that takes everything.
TEST(DescribeTest, AnInputWithoutItsRangeIsNot) {
  const Json right = whole();
  const auto refused = [&](const char* pointer) {
    Json wrong = right;
    const Json::json_pointer at(pointer);
    wrong[at.parent_pointer()].erase(at.back());
    return validated({wrong}).status == 1;
  };
  for (const auto* member : {"/facts/0/valid", "/facts/0/label", "/units/0/dimension",
                             "/plugins/0/calculations/0/inputs", "/plugins/0/calculations/0/inputs/0/required",
                             "/plugins/0/calculations/0/results/0/unit", "/plugins/0/calculations/0/sources"})
    EXPECT_TRUE(refused(member)) << member;
}

// What was declared and what is told are the same, in the same order.
TEST(DescribeTest, NothingIsLeftOut) {
  TestHouse house;
  const Json all = whole();
  const auto plugins = house.registry.all();
  ASSERT_EQ(all["plugins"].size(), plugins.size());
  EXPECT_EQ(all["facts"].size(), lot::keys.size());
  EXPECT_EQ(all["substances"], Json(house.catalogue.names()));
  const auto same = [](const Json& told, std::span<const Need> declared, const auto& again) -> void {
    ASSERT_EQ(told.size(), declared.size());
    for (std::size_t i = 0; i < declared.size(); ++i) {
      const Input& input = *declared[i].input;
      EXPECT_EQ(told[i]["name"], input.name);
      EXPECT_EQ(told[i]["help"], input.help);
      EXPECT_EQ(told[i]["required"], declared[i].required);
      EXPECT_EQ(told[i].value("default", ""), declared[i].fallback);
      if (input.valid) {
        EXPECT_EQ(told[i]["valid"], (Json{{"low", input.valid->low}, {"high", input.valid->high}}));
      }
      EXPECT_EQ(told[i].value("choices", Json::array()).size(), input.choices.size());
      EXPECT_EQ(told[i]["fact"].get<bool>(), is_of_lots(input.name));
      again(told[i].value("each", Json::array()), input.each, again);
    }
  };
  for (std::size_t p = 0; p < plugins.size(); ++p) {
    const auto& calculations = all["plugins"][p]["calculations"];
    ASSERT_EQ(calculations.size(), plugins[p]->calculations.size());
    for (std::size_t c = 0; c < calculations.size(); ++c) {
      const Calculation& declared = plugins[p]->calculations[c];
      SCOPED_TRACE(declared.name);
      same(calculations[c]["inputs"], declared.inputs, same);
      EXPECT_EQ(calculations[c]["results"].size(), declared.results.size());
      EXPECT_EQ(calculations[c]["one of"].size(), declared.one_of.size());
      EXPECT_EQ(calculations[c]["changes"].size(), declared.changes.size());
      EXPECT_EQ(calculations[c]["limits"].size(), declared.limits.size());
      EXPECT_EQ(calculations[c].contains("example"), !declared.example.empty() || !declared.example_recipe.empty());
    }
  }
}

TEST(DescribeTest, LabelsAliasesAndChoices) {
  EXPECT_EQ(label_of(lot::free_so2), "Free SO2");
  EXPECT_EQ(label_of(lot::ph), "pH");
  constexpr std::string_view others[] = {"warmth"};
  constexpr std::string_view words[] = {"low", "high"}, help[] = {"below 10 °C", "above it"};
  const Choice own{{.name = "heat",
                    .help = "made up",
                    .label = "How warm?",
                    .aliases = others,
                    .choices_help = help,
                    .choices = words}};
  EXPECT_EQ(label_of(own), "How warm?");
  EXPECT_EQ(aliases_of(own), std::vector<std::string_view>{"warmth"});
  const auto of_acidity = aliases_of(lot::titratable_acidity);
  EXPECT_NE(std::ranges::find(of_acidity, "ta"), of_acidity.end());
  const Need needs_own[] = {needs(own)};
  const Calculation calculation{.name = "made", .help = "made up", .inputs = needs_own};
  const Manifest plugin{.magic = 0,
                        .interface = 0,
                        .toolchain = "",
                        .name = "own",
                        .version = "1",
                        .help = "made up",
                        .calculations = {&calculation, 1}};
  const auto told = description_of(plugin, calculation)["plugins"][0]["calculations"][0];
  EXPECT_EQ(told["label"], "Made up");
  EXPECT_EQ(told["group"], "own");
  EXPECT_EQ(told["inputs"][0]["choices"][1]["help"], "above it");
}

TEST(DescribeTest, AnUnknownCalculationIsAnsweredWithTheNearest) {
  const auto said = call({"describe", "sulfite.adition"});
  EXPECT_EQ(said.status, 2);
  EXPECT_NE(said.err.find("sulfite.addition"), std::string::npos) << said.err;
}

// What a form alone needs, and what stands in other words: no words of it are looked for in help and manual page.
const std::set<std::string> of_forms{"label",           "group",      "aliases", "kind",    "dimension",
                                     "first dimension", "counted as", "band",    "measure", "example",
                                     "reagents",        "renamed",    "says"};

// All words of a description under members that are not of forms alone. A member that is new is looked for at once.
void gather(const Json& json, std::vector<std::string>& out) {
  if (json.is_string()) out.push_back(json);
  if (json.is_array())
    for (const auto& one : json) gather(one, out);
  if (json.is_object())
    for (const auto& [member, one] : json.items())
      if (!of_forms.contains(member)) gather(one, out);
}

std::string without_spaces(std::string text) {
  std::erase_if(text, [](unsigned char c) { return std::isspace(c) != 0; });
  return text;
}

// A sample of them: each is worked through, which takes a while.
TEST(DescribeTest, HelpTellsAllThatACalculationSays) {
  std::vector<Json> all;
  const Json described = whole();
  for (const auto& plugin : described["plugins"])
    for (const auto& one : plugin["calculations"]) all.push_back(one);
  std::size_t told = 0;
  for (std::size_t i = 0; i < all.size(); i += 8U * fewer) {
    const auto id = all[i]["id"].get<std::string>();
    SCOPED_TRACE(id);
    const auto help = call({"show", id});
    ASSERT_EQ(help.status, 0) << help.err;
    const auto text = without_spaces(help.out);
    for (auto& limit : all[i]["limits"]) limit.erase("unit");  // its figures are those of the rules
    std::vector<std::string> words;
    gather(all[i], words);
    for (const auto& one : words)
      EXPECT_TRUE(one == "1" || text.find(without_spaces(one)) != std::string::npos) << one;  // "1": a plain number
    told += words.size();
  }
  EXPECT_GT(told, 200U / fewer);
}

}  // namespace describe_test
