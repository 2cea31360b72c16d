// The commands and their exit statuses: 0 all checks hold, 1 a check fails, 2 bad input, 3 a plugin
// is missing, refused or failed.
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <sstream>

#include "tests/host/house.hpp"

namespace cli_test {

using namespace vatwright::test;

bool has(const std::string& text, const std::string& words) { return text.find(words) != std::string::npos; }

void expect_bad(const std::vector<std::string>& command, const std::string& place, const std::string& says) {
  const auto said = call(command);
  EXPECT_EQ(said.status, 2) << said.err;
  EXPECT_EQ(said.out, "");
  EXPECT_EQ(said.err.substr(0, place.size()), place) << said.err;
  EXPECT_TRUE(has(said.err, says)) << said.err;
}

const std::string demo = (source_dir / "recipes/before-bottling.yaml").string();

TEST(StatusTest, AllChecksHold) { EXPECT_EQ(call({"run", demo}).status, 0); }

TEST(StatusTest, ACheckFails) {
  const std::vector<std::string> command{
      "compute",    "sulfite.molecular", "pH=3.4",     "free SO2=30 mg/L", "total SO2=400 mg/L",
      "stage=wine", "class=still",       "colour=red", "--rules",          "EU"};
  const auto said = call(command);
  EXPECT_EQ(said.status, 1) << said.err;
  EXPECT_TRUE(has(said.out, "FAILS")) << said.out;
}

TEST(StatusTest, BadInput) { expect_bad({"run", "/nonexistent.yaml"}, "/nonexistent.yaml: ", "no such file"); }

TEST(StatusTest, PluginIsMissing) {
  const auto said = call({"compute", "moonlight.bathe", "pH=3.4"});
  EXPECT_EQ(said.status, 3);
  EXPECT_EQ(said.out, "");
  EXPECT_TRUE(has(said.err, "there is no plugin 'moonlight'; 'vatwright list' shows what there is")) << said.err;
}

TEST(StatusTest, WrongUseOfTheCommandLine) {
  for (const auto& command : std::vector<std::vector<std::string>>{
           {}, {"brew"}, {"run"}, {"run", demo, "--format", "sonnet"}, {"run", demo, "--speed", "9"}, {"show"}}) {
    const auto said = call(command);
    EXPECT_EQ(said.status, 2) << said.err;
    EXPECT_EQ(said.out, "");
    EXPECT_NE(said.err, "");
  }
}

TEST(StatusTest, AnUnknownCommandNamesTheNearest) {
  expect_bad({"rnu", demo}, "there is no command 'rnu'", "the nearest known one is 'run'");
  expect_bad({"--plugins", "folder", "verfy", "s.json"}, "there is no command 'verfy'", "'verify'");
  expect_bad({"brew"}, "there is no command 'brew'", "'vatwright --help' lists the commands");
}

TEST(StatusTest, ASlipInACommandNamesWhatWasMeant) {
  expect_bad({}, "expected a command", "'vatwright --help' lists the commands");
  expect_bad({"--verison"}, "there is no option '--verison'", "the nearest known one is '--version'");
  expect_bad({"run", demo, "--fromat", "json"}, "there is no option '--fromat'", "the nearest known one is '--format'");
  expect_bad({"run", demo, "--sonnet=9"}, "there is no option '--sonnet'", "'vatwright run --help' lists the options");
  expect_bad({"run"}, "'vatwright run' needs RECIPE", "'vatwright run --help' says what that is");
  expect_bad({"run", demo, "twice"}, "'twice' is more than 'vatwright run' takes", "write 'vatwright run RECIPE'");
  expect_bad({"list", "all"}, "'all' is more than 'vatwright list' takes", "leave it out");
}

TEST(StatusTest, ASlipInComputeStandsAtItsArgument) {
  const std::vector<std::string> good{"compute", "sulfite.molecular", "pH=3.4", "free SO2=30 mg/L"};
  const auto with = [&](std::initializer_list<std::string> more) {
    auto all = good;
    all.insert(all.end(), more);
    return all;
  };
  expect_bad(with({"--rules", "eu"}), "argument:4:9: no rule set 'eu'", "the nearest is 'EU'");
  expect_bad(with({"temperature="}), "argument:4:13: temperature: nothing is written here", "such as °C");
  expect_bad(with({"warmth=20 °C"}), "argument:4:1: ", "has no input 'warmth'");
  expect_bad(with({"pH"}), "argument:4:1: expected NAME=VALUE, read 'pH'", "such as 'pH=3.40'");
  expect_bad({"compute", "molecular", "pH=3.4"}, "argument:1:1: no calculation 'molecular'",
             "the nearest known one is 'sulfite.molecular'");
}

TEST(StatusTest, HelpAndVersion) {
  const auto help = call({"--help"});
  EXPECT_EQ(help.status, 0);
  for (const auto* command : {"run", "compute", "check", "list", "show", "units", "substances", "rules"})
    EXPECT_TRUE(has(help.out, command)) << command;
  const auto version = call({"--version"});
  EXPECT_EQ(version.status, 0);
  EXPECT_TRUE(has(version.out, "0.1.0")) << version.out;
}

// --- list and show

std::vector<std::string> calculations() {
  std::vector<std::string> ids;
  std::istringstream in(call({"list"}).out);
  for (std::string line; std::getline(in, line);)
    if (line.starts_with("  ")) ids.push_back(line.substr(2, line.find(' ', 2) - 2));
  return ids;
}

TEST(ShowTest, EveryCalculationIsExplainedAndItsExampleRun) {
  const auto ids = calculations();
  EXPECT_GE(ids.size(), 4U);
  for (const auto& id : ids) {
    const auto said = call({"show", id});
    EXPECT_EQ(said.status, 0) << id << ": " << said.err;
    for (const auto* heading : {"INPUTS THAT MUST BE GIVEN", "RESULTS", "CAUTIONS", "SOURCES", "WORKED EXAMPLE"})
      EXPECT_TRUE(has(said.out, heading)) << id << ": " << heading;
    // The answer stands under the command, or under the recipe and a blank line: a row with a figure.
    const auto recipe = said.out.find("WORKED EXAMPLE, a recipe");
    const bool whole = recipe != std::string::npos;
    const auto example = said.out.substr(whole ? recipe : said.out.find("vatwright compute " + id));
    const auto answer = example.rfind(whole ? "\n\n" : "'\n");
    ASSERT_NE(answer, std::string::npos) << id;
    EXPECT_NE(example.find_first_of("0123456789", answer), std::string::npos) << id << " gives no answer";
  }
}

// What is given within another input is explained as fully as what stands by itself.
TEST(ShowTest, InputsWithinOthers) {
  std::istringstream in(call({"show", "blend.design"}).out);
  std::string text;
  for (std::string word; in >> word;) text += word + " ";
  EXPECT_TRUE(has(text, "available hL how much of the lot may be used; without it all of its volume; valid 0 to"))
      << text;
  EXPECT_TRUE(
      has(text, "tank a word whether part of the lot may stay behind: in part | whole or not at all; default in part"))
      << text;
  EXPECT_TRUE(has(text, "price plain number of one hL, a plain number in any one currency; valid 0 to"));
  EXPECT_TRUE(has(text, "L* plain number lightness of the blend, 100 for clear; valid 0 to 100"));
}

TEST(ShowTest, UnknownCalculationNamesTheNearest) {
  expect_bad({"show", "sulfite.adition"}, "no calculation 'sulfite.adition'", "'sulfite.addition'");
}

// --- tables

TEST(TablesTest, Units) {
  const auto said = call({"units"});
  EXPECT_EQ(said.status, 0);
  for (const auto* unit : {"hL", "gal", "°Brix", "proof", "as tartaric acid"}) EXPECT_TRUE(has(said.out, unit)) << unit;
}

TEST(TablesTest, Substances) {
  EXPECT_TRUE(has(call({"substances"}).out, "potassium metabisulfite"));
  const auto one = call({"substances", "potassium metabisulfite"});
  EXPECT_EQ(one.status, 0);
  for (const auto* words : {"K2S2O5", "57.63 %", "EUH031", "CAUTIONS", "HANDLING", "Source:"})
    EXPECT_TRUE(has(one.out, words)) << words;
  expect_bad({"substances", "tartric acid"}, "no substance 'tartric acid'", "'tartaric acid'");
}

TEST(TablesTest, EverySubstanceCanBeShown) {
  const TestHouse house;
  for (const auto id : house.catalogue.names()) EXPECT_EQ(call({"substances", std::string(id)}).status, 0) << id;
}

TEST(TablesTest, Rules) {
  const auto all = call({"rules"});
  EXPECT_EQ(all.status, 0);
  for (const auto* set : {"EU", "US", "OIV"}) EXPECT_TRUE(has(all.out, set)) << set;
  const auto eu = call({"rules", "EU"});
  EXPECT_EQ(eu.status, 0);
  EXPECT_TRUE(has(eu.out, "at most 150 mg/L")) << eu.out;
  EXPECT_TRUE(has(eu.out, "2019/934")) << eu.out;
  expect_bad({"rules", "OVI"}, "no rule set 'OVI'", "'OIV'");
}

// --- check

TEST(CheckTest, ComputesNothing) {
  const auto said = call({"check", demo});
  EXPECT_EQ(said.status, 0) << said.err;
  EXPECT_TRUE(has(said.out, "1 lot, 2 steps; nothing was computed")) << said.out;
  for (const auto* dose : {"TO DO", "g/hL", "molecular"}) EXPECT_FALSE(has(said.out, dose)) << dose;
}

TEST(CheckTest, DoesNotCallThePlugin) {
  const Folder folder;
  const auto recipe =
      folder.write("r.yaml", "recipe: r\nlots: {A: {pH: 3.4}}\nsteps:\n  - faulty.exception: {amount: 1}\n");
  EXPECT_EQ(call({"check", recipe.string(), "--plugins", VATWRIGHT_FIXTURES "/faulty"}).status, 0);
  EXPECT_EQ(call({"run", recipe.string(), "--plugins", VATWRIGHT_FIXTURES "/faulty"}).status, 3);
}

TEST(CheckTest, FindsBadInput) {
  const Folder folder;
  const auto recipe = folder.write("r.yaml", recipe_with("", "  - sulfite.addition: {}\n")).string();
  expect_bad({"check", recipe}, recipe + ":9:5: ", "takes one of");
}

// --- draws

// A minus sign would make a large number of it without a word.
TEST(DrawsTest, TheSeedIsAWholeNumber) {
  for (const auto* seed : {"-3", "+3", "7.5", "1e3", "seven", "99999999999999999999"})
    expect_bad({"run", demo, "--draws", "100", std::string("--seed=") + seed}, "", "write such as '--seed 7'");
  EXPECT_EQ(call({"run", demo, "--draws", "100", "--seed", "0"}).status, 0);
}

// --- compute

TEST(ComputeTest, Figures) {
  const auto said =
      call({"compute", "sulfite.molecular", "pH=3.40", "free SO2=30 mg/L", "pK1=1.81", "--format", "json"});
  ASSERT_EQ(said.status, 0) << said.err;
  const auto results = nlohmann::json::parse(said.out)["steps"][0]["results"];
  // 30 / (1 + 10^(3.40 - 1.81)) = 0.7518, by hand.
  EXPECT_NEAR(results["molecular SO2"]["value"].get<double>(), 0.7518, 0.00005);
  EXPECT_EQ(results["molecular SO2"]["unit"], "mg/L");
  EXPECT_NEAR(results["molecular share"]["value"].get<double>(), 100 * 0.7518 / 30, 0.0002);
}

TEST(ComputeTest, MessagesPointAtTheArgument) {
  const std::string id = "sulfite.molecular";
  expect_bad({"compute", id, "pH"}, "argument:2:1: ", "expected NAME=VALUE, read 'pH'");
  expect_bad({"compute", id, "=3.4"}, "argument:2:1: ", "expected NAME=VALUE");
  expect_bad({"compute", id, "pH=3.4", "pH=3.5"}, "argument:3:1: ", "'pH' is given a second time");
  expect_bad({"compute", id, "pH=3.4", "free S02=30 mg/L"}, "argument:3:1: ", "'free SO2'");
  expect_bad({"compute", id, "pH=34", "free SO2=30 mg/L"}, "argument:2:4: ", "'34'");
  expect_bad({"compute", id, "pH=3.4", "free SO2=30"}, "argument:3:12: ", "write '30 mg/L'");
  expect_bad({"compute", id, "pH=3,4", "free SO2=30 mg/L"}, "argument:2:5: ", "decimal comma");
  expect_bad({"compute", id, "pH=3.4"}, "argument:1:1: ", "'free SO2'");
  expect_bad({"compute", "sulfite.moleclar", "pH=3.4"}, "argument:1:1: ", "'sulfite.molecular'");
}

// In a map the place is counted from the beginning of the argument, as it is shown.
TEST(ComputeTest, MessagesPointIntoAMap) {
  const std::vector<std::string> start{"compute", "sulfite.molecular", "pH=3.4", "free SO2=30 mg/L"};
  auto unit = start, sum = start, twice = start;
  unit.emplace_back("varieties={Sorrel: 60, Blackthorn: 40 %}");
  expect_bad(unit, "argument:4:22: ", "no unit");
  sum.emplace_back("varieties={Sorrel: 60 %, Blackthorn: 30 %}");
  expect_bad(sum, "argument:4:11: ", "expected 100 %");
  twice.emplace_back("varieties={Sorrel: 60 %, Sorrel: 40 %}");
  expect_bad(twice, "argument:4:26: ", "a second time");
}

// The one lot of a command line has a name that a sentence can take.
TEST(ComputeTest, TheLotIsCalledA) {
  const auto said = call({"compute", "sulfite.addition", "volume=10 hL", "pH=3.4", "free SO2=10 mg/L",
                          "total SO2=40 mg/L", "target free SO2=30 mg/L"});
  EXPECT_EQ(said.status, 0) << said.err;
  EXPECT_TRUE(has(said.out, "of potassium metabisulfite into lot A")) << said.out;
  EXPECT_FALSE(has(said.out, "lot lot")) << said.out;
}

TEST(ComputeTest, AcidBasisAndMaps) {
  const auto said = call({"compute", "sulfite.molecular", "pH=3.4", "free SO2=30 mg/L", "acid basis=tartaric acid",
                          "titratable acidity=6 g/L", "varieties={Sorrel: 60 %, Blackthorn: 40 %}"});
  EXPECT_EQ(said.status, 0) << said.err;
  EXPECT_TRUE(has(said.out, "6 g/L as tartaric acid")) << said.out;
}

TEST(ComputeTest, UnknownRules) {
  expect_bad({"compute", "sulfite.molecular", "pH=3.4", "free SO2=30 mg/L", "--rules", "OVI"}, "", "'OIV'");
}

TEST(ColourTest, NoneWhenItIsNoTerminal) {
  for (const auto& command : std::vector<std::vector<std::string>>{{"run", demo}, {"units"}, {"rules", "EU"}})
    EXPECT_FALSE(has(call(command).out, "\033"));
}

}  // namespace cli_test
