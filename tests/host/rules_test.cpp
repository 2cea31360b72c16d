// Which figure of which rule set a lot is held against.
#include "host/rules/rules.hpp"

#include <gtest/gtest.h>

#include "host/bench/rule_sets.hpp"
#include "host/plugin/keys.hpp"
#include "host/recipe/value.hpp"
#include "tests/host/house.hpp"

#include <algorithm>
#include <map>
#include <memory>

namespace rules_test {

using namespace vatwright;
using namespace vatwright::test;

constexpr Limit<MassConcentration> total{{.name = "total SO2", .help = "most", .unit = "mg/L"}};

// What is known of a lot, written as in a recipe.
using Lot = std::map<std::string, std::string, std::less<>>;

LotView view_of(const Lot& lot) {
  auto values = std::make_shared<std::map<std::string, Value, std::less<>>>();
  for (const auto& [key, text] : lot) values->emplace(key, read_default(text, *find_lot_key(key)));
  return [values](std::string_view key) -> const Value* {
    const auto at = values->find(key);
    return at == values->end() ? nullptr : &at->second;
  };
}

Applies applies_to(const std::string& when, const Lot& lot) {
  const auto doc = Document::read("when", when);
  return Condition(doc, &doc.root()).applies(view_of(lot));
}

TEST(ConditionTest, Words) {
  EXPECT_EQ(applies_to("{colour: red}", {{"colour", "red"}}), Applies::yes);
  EXPECT_EQ(applies_to("{colour: red}", {{"colour", "pink"}}), Applies::no);
  EXPECT_EQ(applies_to("{colour: [white, pink]}", {{"colour", "pink"}}), Applies::yes);
  EXPECT_EQ(applies_to("{colour: [white, pink]}", {{"colour", "red"}}), Applies::no);
}

TEST(ConditionTest, AllMustHoldAndOneThatFailsDecides) {
  EXPECT_EQ(applies_to("{colour: red, stage: wine}", {{"colour", "red"}, {"stage", "wine"}}), Applies::yes);
  EXPECT_EQ(applies_to("{colour: red, stage: wine}", {{"colour", "red"}, {"stage", "must"}}), Applies::no);
  EXPECT_EQ(applies_to("{colour: red, stage: wine}", {{"stage", "wine"}}), Applies::open);
  EXPECT_EQ(applies_to("{colour: red, stage: wine}", {{"stage", "must"}}), Applies::no);
}

TEST(ConditionTest, NoConditionAlwaysHolds) {
  const auto doc = Document::read("when", "x");
  EXPECT_EQ(Condition(doc, nullptr).applies(view_of({})), Applies::yes);
}

struct Edge {
  const char* condition;
  bool below, at, above;
};

TEST(ConditionTest, ExactEdges) {
  const Edge edges[] = {{"below 5 g/L", true, false, false},
                        {"at most 5 g/L", true, true, false},
                        {"at least 5 g/L", false, true, true},
                        {"above 5 g/L", false, false, true}};
  for (const Edge& edge : edges) {
    const auto holds = [&](const char* sugar) {
      return applies_to("{sugar: " + std::string(edge.condition) + "}", {{"sugar", sugar}}) == Applies::yes;
    };
    EXPECT_EQ(holds("4.999999 g/L"), edge.below) << edge.condition;
    EXPECT_EQ(holds("5 g/L"), edge.at) << edge.condition;
    EXPECT_EQ(holds("5.000001 g/L"), edge.above) << edge.condition;
  }
}

// 500 g/hL is 5 g/L, whatever the last bit of the conversion says.
TEST(ConditionTest, EdgeInAnotherUnit) {
  EXPECT_EQ(applies_to("{sugar: at least 5 g/L}", {{"sugar", "500 g/hL"}}), Applies::yes);
  EXPECT_EQ(applies_to("{sugar: at most 5 g/L}", {{"sugar", "500 g/hL"}}), Applies::yes);
}

TEST(ConditionTest, FaultsAreRefusedWithTheirPlace) {
  const auto said = [](const std::string& when, const Lot& lot) -> std::string {
    try {
      applies_to(when, lot);
    } catch (const BadInput& error) {
      return error.what();
    }
    return "nothing";
  };
  EXPECT_EQ(said("{color: red}", {}).substr(0, 10), "when:1:2: ");
  EXPECT_NE(said("{color: red}", {}).find("'colour'"), std::string::npos);
  EXPECT_EQ(said("{sugar: under 5 g/L}", {{"sugar", "1 g/L"}}).substr(0, 10), "when:1:9: ");
  EXPECT_EQ(said("{sugar: below 5 hL}", {{"sugar", "1 g/L"}}).substr(0, 11), "when:1:15: ");
  // A word that no lot can have would never apply, and its limit would be lost without a sound.
  EXPECT_EQ(said("{colour: pnik}", {{"colour", "pink"}}).substr(0, 11), "when:1:10: ");
  EXPECT_EQ(said("{colour: [white, pnik]}", {{"colour", "pink"}}).substr(0, 11), "when:1:18: ");
  EXPECT_EQ(said("pink", {{"colour", "pink"}}).substr(0, 10), "when:1:1: ");
}

LimitRow limit_in(const std::string& set, const Lot& lot) {
  const auto row = named_rules(rules_dir, set).limit(total, view_of(lot));
  if (!row) throw std::runtime_error("no row");
  return *row;
}

double milligrams(const LimitRow& row) { return row.number * 1e3; }

const Lot dry_pink{{"stage", "wine"}, {"class", "still"}, {"colour", "pink"}, {"sugar", "1.8 g/L"}};

TEST(RulesTest, TheRowOfTheLot) {
  EXPECT_NEAR(milligrams(limit_in("EU", dry_pink)), 200, 1e-9);
  Lot red = dry_pink;
  red["colour"] = "red";
  EXPECT_NEAR(milligrams(limit_in("EU", red)), 150, 1e-9);
  red["sugar"] = "5 g/L";
  EXPECT_NEAR(milligrams(limit_in("EU", red)), 200, 1e-9);
  EXPECT_EQ(limit_in("EU", dry_pink).rules, "EU");
  EXPECT_NE(limit_in("EU", dry_pink).source.find("2019/934"), std::string::npos);
}

TEST(RulesTest, MustHasNoLimitOfWine) {
  Lot must = dry_pink;
  must["stage"] = "must";
  EXPECT_FALSE(named_rules(rules_dir, "EU").limit(total, view_of(must)));
}

TEST(RulesTest, WhatIsNotStatedTakesTheStrictestRowAndSaysSo) {
  Lot lot = dry_pink;
  lot.erase("colour");
  const auto row = limit_in("EU", lot);
  EXPECT_NEAR(milligrams(row), 150, 1e-9);
  EXPECT_NE(row.condition.find("not stated: colour, so the strictest row is taken"), std::string::npos)
      << row.condition;
  EXPECT_EQ(limit_in("EU", dry_pink).condition.find("not stated"), std::string::npos);
}

TEST(RulesTest, TheStrictestOfSeveralSetsWins) {
  Rules rules;
  rules.add(named_rules(rules_dir, "EU"));
  rules.add(named_rules(rules_dir, "EU organic"));
  const auto row = rules.limit(total, view_of(dry_pink));
  ASSERT_TRUE(row);
  EXPECT_NEAR(milligrams(*row), 150, 1e-9);
  EXPECT_EQ(row->rules, "EU organic");
}

TEST(RulesTest, AtLeastTakesTheHighestFigure) {
  const Folder folder;
  const auto file = folder.write("h.yaml",
                                 "rules: house\ntotal SO2:\n"
                                 "  - {at least: 20 mg/L, source: a}\n  - {at least: 35 mg/L, source: b}\n");
  const auto row = RuleSet(file).limit(total, view_of({}));
  ASSERT_TRUE(row);
  EXPECT_EQ(row->sense, Sense::at_least);
  EXPECT_NEAR(milligrams(*row), 35, 1e-9);
}

TEST(RulesTest, UnknownSetNamesTheNearest) {
  try {
    named_rules(rules_dir, "OVI");
    FAIL();
  } catch (const InputError& error) {  // the caller knows the place
    EXPECT_NE(std::string(error.what()).find("no rule set 'OVI'"), std::string::npos) << error.what();
    EXPECT_NE(error.hint().find("the nearest is 'OIV'"), std::string::npos) << error.hint();
  }
}

TEST(RulesTest, NeverOutsideTheFolder) { EXPECT_THROW(named_rules(rules_dir, "../rules/EU"), InputError); }

// Every row of every set that ships is in order: it has a source, a figure and conditions that a
// lot can meet.
TEST(RulesTest, ShippedSetsAreInOrder) {
  const auto names = rule_names(rules_dir);
  EXPECT_GE(names.size(), 5U);
  for (const auto& name : names) {
    const auto set = named_rules(rules_dir, name);
    EXPECT_EQ(set.name(), name);
    EXPECT_FALSE(set.title().empty()) << name;
    EXPECT_FALSE(set.topics().empty()) << name;
    for (const auto topic : set.topics()) {
      EXPECT_FALSE(set.rows(topic).empty()) << name << ": " << topic;
      for (const auto& row : set.rows(topic)) EXPECT_FALSE(row.limit.source.empty()) << name << ": " << topic;
    }
  }
}

// Where a sheet names a rule set, a person takes silence for permission: a row that no calculation asks for is not
// shipped.
TEST(RulesTest, EveryShippedTopicIsHeld) {
  Registry registry({build_dir / "lib/vatwright/plugins"});
  const auto held = held_topics(registry);
  for (const auto& name : rule_names(rules_dir)) {
    const auto set = named_rules(rules_dir, name);
    for (const auto topic : set.topics())
      EXPECT_TRUE(std::binary_search(held.begin(), held.end(), topic)) << name << ": " << topic;
  }
}

// A rule set that nobody has looked at for too long says so, and only then.
TEST(RuleSetTest, SaysThatItsReviewIsDue) {
  const Folder folder;
  for (const auto& [day, due] : {std::pair{"2001-02-03", true}, {"2999-02-03", false}}) {
    const auto file = folder.write(
        "ours.yaml", std::string("rules: ours\ntitle: Ours\nnote: a note\nconfirmed: \"2000-01-02\"\nreview by: \"") +
                         day + "\"\ntotal SO2:\n  - at most: 200 mg/L\n    source: ours\n");
    const std::string told = told_on_a_sheet(RuleSet(file), false);
    EXPECT_EQ(told.find("its review was due by " + std::string(day)) != std::string::npos, due) << told;
    EXPECT_EQ(told.find("last confirmed 2000-01-02") != std::string::npos, due) << told;
  }
}

}  // namespace rules_test
