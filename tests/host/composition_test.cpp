// Composition rules in a file of house rules: what is read, and what is refused at its place.
#include "host/rules/rules.hpp"
#include "tests/host/house.hpp"

#include <gtest/gtest.h>

namespace composition_test {

using namespace vatwright;
using namespace vatwright::test;

class CompositionTest : public testing::Test {
 protected:
  std::vector<CompositionRule> read(const std::string& row, const Analysis& lot = {}) const {
    const auto file = folder.write("mine.yaml", "rules: mine\ncomposition:\n  - {" + row + "}\n");
    return RuleSet(file).composition([&](std::string_view key) -> const Value* {
      const auto at = lot.find(key);
      return at == lot.end() ? nullptr : &at->second;
    });
  }
  std::string complaint(const std::string& row) const {
    try {
      read(row);
    } catch (const BadInput& error) {
      return error.what();
    }
    return {};
  }
  void expect_refused(const std::string& row, const std::string& says) const {
    const auto said = complaint(row);
    EXPECT_NE(said.find(says), std::string::npos) << row << ": " << said;
    EXPECT_NE(said.find("mine.yaml:3:"), std::string::npos) << said;
  }
  Folder folder;
};

TEST_F(CompositionTest, EveryPartOfARow) {
  const auto rules = read(
      "name: two, of: variety, among: [Sorrel, Teasel], at least members: 2, together at least: 70 %, together at "
      "most: "
      "95 %, each at most: 90 %, source: the book, text of: '2026-01-01', standing: from memory");
  ASSERT_EQ(rules.size(), 1U);
  const auto& rule = rules[0];
  EXPECT_EQ(rule.of, "variety");
  EXPECT_EQ(rule.among, (std::vector<std::string>{"Sorrel", "Teasel"}));
  EXPECT_EQ(rule.least_members, 2);
  EXPECT_NEAR(rule.together_at_least.value(), 0.7, 1e-12);
  EXPECT_NEAR(rule.together_at_most.value(), 0.95, 1e-12);
  EXPECT_EQ(rule.each_at_most, 0.9);
  EXPECT_FALSE(rule.never_together);
  EXPECT_EQ(rule.rules, "mine");
  EXPECT_EQ(rule.source, "the book, text of 2026-01-01 (from memory)");
  EXPECT_EQ(in_words(rule),
            "at least 2 of Sorrel, Teasel; together at least 70.0 %; together at most 95.0 %; each at most 90.0 %");
}

TEST_F(CompositionTest, OnlyWhereItsConditionHolds) {
  const std::string row =
      "name: x, of: colour, among: [red, white], never together: true, when: {colour: pink}, source: s";
  Analysis red, pink;
  red["colour"].word = "red";
  pink["colour"].word = "pink";
  EXPECT_EQ(read(row, red).size(), 0U);
  EXPECT_EQ(read(row, pink).size(), 1U);
  EXPECT_EQ(read(row).size(), 1U);  // not stated: it may apply
}

TEST_F(CompositionTest, WhatIsNotInOrder) {
  const std::string whole = "name: x, of: variety, source: s, ";
  EXPECT_EQ(complaint(whole + "each at most: 90 %"), "");
  expect_refused(whole + "each at mots: 90 %", "the nearest known one is 'each at most'");
  expect_refused("of: variety, source: s, each at most: 90 %", "without a name");
  expect_refused("name: x, source: s, each at most: 90 %", "without 'of:'");
  expect_refused("name: x, of: varety, source: s, each at most: 90 %", "'variety'");
  expect_refused("name: x, of: variety, each at most: 90 %", "without a source");
  expect_refused("name: x, of: variety, source: s", "asks for nothing");
  expect_refused(whole + "each at most: 120 %", "expected 0 % to 100 %");
  expect_refused(whole + "each at most: 9 g/L", "9 g/L");
  expect_refused(whole + "together at least: 70 %", "no named set");
  expect_refused(whole + "among: [A, B], together at least: 70 %, together at most: 60 %", "above 'together at most'");
  expect_refused(whole + "among: [A, A], together at least: 70 %", "named twice");
  expect_refused(whole + "among: [A, B], at least members: 3", "of a set of 2");
  expect_refused(whole + "at least members: two", "whole number");
  expect_refused(whole + "among: [A], never together: true", "name two or more");
  expect_refused(whole + "never together: perhaps", "true or false");
}

// A slip in a rule set is found by `check`, before anything is computed.
TEST_F(CompositionTest, ASlipIsFoundByCheck) {
  folder.write("mine.yaml", "rules: mine\ncomposition:\n  - {name: x, of: variety, source: s}\n");
  const auto recipe = folder.write("recipe.yaml", recipe_with("", "  - sulfite.molecular\n", "rules: mine.yaml\n"));
  const auto said = call({"check", recipe.string()});
  EXPECT_EQ(said.status, 2);
  EXPECT_NE(said.err.find("asks for nothing"), std::string::npos) << said.err;
}

TEST_F(CompositionTest, TheTableShowsIt) {
  const auto said = call({"rules", "EU"});
  EXPECT_EQ(said.status, 0);
  EXPECT_NE(said.out.find("red and white joined into pink"), std::string::npos);
}

}  // namespace composition_test
