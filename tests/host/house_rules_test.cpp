// A cellar's own rules: a file beside the recipe, joined to the law, refused when it is broken.
#include "tests/host/house.hpp"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

namespace house_rules_test {

using namespace vatwright::test;

const std::string pink = "    class: still\n    colour: pink\n    stage: wine\n    sugar: 1.8 g/L\n";

class HouseRulesTest : public testing::Test {
 protected:
  Said run(const std::string& house, const std::string& rules = "my house.yaml", const std::string& before = {}) const {
    folder.write("my house.yaml", house);
    const auto recipe =
        folder.write("recipe.yaml", recipe_with(pink, "  - sulfite.molecular\n", "rules: " + rules + "\n"));
    return call({"run", recipe.string(), "--format", "json"}, before);
  }
  // Status 2, the place in the rules file, nothing on standard output.
  void expect_broken(const std::string& house, int line, const std::string& says) const {
    const auto said = run(house);
    EXPECT_EQ(said.status, 2) << house;
    EXPECT_TRUE(shows_nothing(said)) << said.out;
    const std::string place = (folder.path() / "my house.yaml").string() + ":" + std::to_string(line) + ":";
    EXPECT_EQ(said.err.substr(0, place.size()), place) << said.err;
    EXPECT_NE(said.err.find(says), std::string::npos) << said.err;
  }
  Folder folder;
};

TEST_F(HouseRulesTest, StandBesideTheRecipe) {
  const auto said =
      run("rules: mine\ntotal SO2:\n  - {at most: 50 mg/L, source: cellar book}\n", "[EU, my house.yaml]");
  EXPECT_EQ(said.status, 1) << said.err;
  const auto sheet = nlohmann::json::parse(said.out);
  EXPECT_EQ(sheet["rules"], (nlohmann::json{"EU", "mine"}));
  const auto& check = sheet["steps"][0]["checks"][0];
  EXPECT_EQ(check["holds"], false);
  EXPECT_EQ(check["limit"]["value"], 50.0);
  EXPECT_EQ(check["source"], "cellar book");
}

TEST_F(HouseRulesTest, AreNotLookedForInTheWorkingFolder) {
  const Folder elsewhere;
  const auto said = run("rules: mine\ntotal SO2:\n  - {at most: 50 mg/L, source: cellar book}\n", "my house.yaml",
                        "cd " + quoted(elsewhere.path().string()) + " &&");
  EXPECT_EQ(said.status, 1) << said.err;
}

TEST_F(HouseRulesTest, MissingFile) {
  const auto said = run("", "no house.yaml");
  EXPECT_EQ(said.status, 2);
  EXPECT_NE(said.err.find("no house.yaml'\n"), std::string::npos) << said.err;
}

// Misspelt, or a limit that nothing holds: it would be gone without a sound.
TEST_F(HouseRulesTest, TopicThatNobodyHolds) {
  expect_broken("rules: mine\ntotl SO2:\n  - {at most: 50 mg/L, source: s}\n", 2,
                "no calculation holds a limit on 'totl SO2'\n");
  const auto close = run("rules: mine\ntotl SO2:\n  - {at most: 50 mg/L, source: s}\n");
  EXPECT_NE(close.err.find("'total SO2'"), std::string::npos) << close.err;
  expect_broken("rules: mine\nmolecular SO2:\n  - {at most: 0.8 mg/L, source: s}\n", 2, "no calculation holds");
  // Of another plugin than the recipe's: known, and not asked for.
  EXPECT_EQ(run("rules: mine\nPVPP:\n  - {at most: 50 g/hL, source: s}\n").status, 0);
}

TEST_F(HouseRulesTest, TwoSensesInOneRule) {
  expect_broken("rules: mine\ntotal SO2:\n  - {at least: 10 mg/L, at most: 50 mg/L, source: s}\n", 3,
                "two figures in one rule");
}

TEST_F(HouseRulesTest, AreShownAsTheyStand) {
  const auto file =
      folder.write("my house.yaml", "rules: mine\ntotal SO2:\n  - {at most: 50 mg/L, source: cellar book}\n");
  const auto said = call({"rules", file.string()});
  EXPECT_EQ(said.status, 0) << said.err;
  EXPECT_NE(said.out.find("at most 50 mg/L [cellar book]"), std::string::npos) << said.out;
}

TEST_F(HouseRulesTest, WithoutAName) {
  const auto said = run("total SO2:\n  - {at most: 50 mg/L, source: s}\n");
  EXPECT_EQ(said.status, 2);
  EXPECT_NE(said.err.find("'rules: NAME'"), std::string::npos) << said.err;
}

TEST_F(HouseRulesTest, RowWithoutSource) {
  expect_broken("rules: mine\ntotal SO2:\n  - {at most: 50 mg/L}\n", 3, "without a source");
}
TEST_F(HouseRulesTest, RowWithoutFigure) {
  expect_broken("rules: mine\ntotal SO2:\n  - {source: s}\n", 3, "'at most: ...'");
}
TEST_F(HouseRulesTest, FigureOfAnotherKind) {
  expect_broken("rules: mine\ntotal SO2:\n  - {at most: 50 hL, source: s}\n", 3, "50 hL");
}
TEST_F(HouseRulesTest, NotYaml) {
  expect_broken("rules: mine\ntotal SO2:\n  - at most: 50 mg/L\n   source: s\n", 4, "not YAML");
}

// Each of these would switch a limit off without a sound.
TEST_F(HouseRulesTest, UnknownKeyInARow) {
  expect_broken("rules: mine\ntotal SO2:\n  - {at most: 50 mg/L, source: s, wen: {colour: pink}}\n", 3, "'wen'");
}
TEST_F(HouseRulesTest, UnknownWordInACondition) {
  expect_broken("rules: mine\ntotal SO2:\n  - {at most: 50 mg/L, source: s, when: {colour: pnik}}\n", 3, "'pnik'");
}
// Where nothing is near, the words that there are stand in the hint.
TEST_F(HouseRulesTest, WordsThatAreLikeNoneAreAnsweredWithTheList) {
  const std::string row = "rules: mine\ntotal SO2:\n  - {at most: 50 mg/L, source: s, ";
  expect_broken(row + "when: {colour: zzzzzzzzz}}\n", 3, "a lot's colour is one of: red, white, pink");
  expect_broken(row + "when: {zzzzzzzzz: pink}}\n", 3, "a lot has volume, temperature, ");
  expect_broken(row + "zzzzzzzzz: pink}\n", 3, "it may have: ");
}
TEST_F(HouseRulesTest, TopicThatIsNoList) {
  expect_broken("rules: mine\ntotal SO2: {at most: 50 mg/L, source: s}\n", 2, "");
}
TEST_F(HouseRulesTest, TopicTwice) {
  expect_broken(
      "rules: mine\ntotal SO2:\n  - {at most: 90 mg/L, source: s}\ntotal SO2:\n  - {at most: 50 mg/L, source: s}\n", 4,
      "a second time");
}

// One figure is held against a limit: the other of the two would be lost.
TEST_F(HouseRulesTest, AtMostAndAtLeastUnderOneTopic) {
  expect_broken("rules: mine\ntotal SO2:\n  - {at most: 90 mg/L, source: s}\n  - {at least: 70 mg/L, source: s}\n", 4,
                "at least");
}
TEST_F(HouseRulesTest, TopicInQuotesIsTheSameTopic) {
  EXPECT_EQ(run("rules: mine\n\"total SO2\":\n  - {at most: 50 mg/L, source: s}\n").status, 1);
}

// 'check' finds what 'run' would stumble over.
TEST_F(HouseRulesTest, CheckReadsTheRulesToo) {
  folder.write("my house.yaml", "rules: mine\ntotal SO2:\n  - {at most: 50 hL, source: s}\n");
  const auto recipe =
      folder.write("recipe.yaml", recipe_with(pink, "  - sulfite.molecular\n", "rules: my house.yaml\n"));
  EXPECT_EQ(call({"check", recipe.string()}).status, 2);
}

}  // namespace house_rules_test
