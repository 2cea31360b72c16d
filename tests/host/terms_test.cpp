// The reader of sweetness terms: what a row says, where its bounds lie, what is refused.
#include "host/rules/terms.hpp"

#include "host/bench/rule_sets.hpp"
#include "host/rules/rules.hpp"
#include "tests/host/house.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace vatwright::test {
namespace terms_test {

const LotView nothing = [](std::string_view) { return nullptr; };

std::vector<TermLine> read(const std::string& row) {
  return read_terms(Document::read("house.yaml", "sweetness terms:\n  - " + row), "house", nothing);
}
std::string complaint_of(const std::string& row) {
  try {
    read(row);
  } catch (const BadInput& error) {
    return error.what();
  }
  return {};
}
bool says(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

TEST(Terms, ARow) {
  const auto lines = read(
      "{term: dry, sugar at most: 9 g/L, sugar less acidity: at most 2 g/L, source: page 3, text of: 2020, standing: "
      "from memory}");
  ASSERT_EQ(lines.size(), 1u);
  const auto& row = lines[0].row;
  EXPECT_EQ(row.word, "dry");
  EXPECT_EQ(row.least_sugar, 0);
  EXPECT_DOUBLE_EQ(row.most_sugar, 9);
  ASSERT_TRUE(row.most_over_acidity);
  EXPECT_DOUBLE_EQ(*row.most_over_acidity, 2);
  EXPECT_EQ(row.rules, "house");
  EXPECT_EQ(row.source, "page 3, text of 2020 (from memory)");
  EXPECT_EQ(lines[0].figures, "sugar at most 9 g/L, sugar less acidity at most 2 g/L");
}

// "below 12" leaves 12 out, "at most 12" does not; 1200 g/hL is the same figure.
TEST(Terms, Edges) {
  EXPECT_LT(read("{term: x, sugar below: 12 g/L, source: s}")[0].row.most_sugar, 12);
  EXPECT_DOUBLE_EQ(read("{term: x, sugar below: 1200 g/hL, source: s}")[0].row.most_sugar, 12);
  EXPECT_EQ(read("{term: x, sugar at most: 12 g/L, source: s}")[0].row.most_sugar, 12);
  EXPECT_GT(read("{term: x, sugar above: 12 g/L, source: s}")[0].row.least_sugar, 12);
  EXPECT_EQ(read("{term: x, sugar at least: 12 g/L, source: s}")[0].row.least_sugar, 12);
  EXPECT_TRUE(std::isinf(read("{term: x, sugar at least: 12 g/L, source: s}")[0].row.most_sugar));
}

TEST(Terms, SlipsAreRefusedWithTheirPlace) {
  const auto typo = complaint_of("{term: dry, sugar at mots: 9 g/L, source: s}");
  EXPECT_TRUE(says(typo, "house.yaml:2:17")) << typo;
  EXPECT_TRUE(says(typo, "a rule has no 'sugar at mots'") && says(typo, "'sugar at most'")) << typo;
  EXPECT_TRUE(says(complaint_of("{term: dry, sugar at most: 9 g/L}"), "without a source"));
  EXPECT_TRUE(says(complaint_of("{sugar at most: 9 g/L, source: s}"), "without its word"));
  EXPECT_TRUE(says(complaint_of("{term: dry, source: s}"), "without a figure"));
  EXPECT_TRUE(says(complaint_of("{term: dry, sugar at most: 9 hL, source: s}"), "expected"));
  EXPECT_TRUE(
      says(complaint_of("{term: dry, sugar at most: 9 g/L, sugar below: 8 g/L, source: s}"), "keep one of the two"));
  EXPECT_TRUE(says(complaint_of("{term: dry, sugar at most: 4 g/L, sugar at least: 9 g/L, source: s}"), "swapped"));
  EXPECT_TRUE(says(complaint_of("{term: dry, sugar at most: 9 g/L, sugar less acidity: 2 g/L, source: s}"),
                   "expected 'at most'"));
  EXPECT_TRUE(says(complaint_of("{term: dry, sugar at most: 9 g/L, when: {clas: still}, source: s}"), "'class'"));
  EXPECT_TRUE(says(complaint_of("dry"), "expected a sweetness term"));
}

TEST(Terms, CarryWhatElseTheRowAsksFor) {
  const auto lines = read("{term: brut nature, sugar below: 3 g/L, meaning: no sugar added, source: s}");
  ASSERT_EQ(lines.size(), 1u);
  EXPECT_EQ(lines[0].row.meaning, "no sugar added");
}

TEST(Terms, OfTheRuleSets) {
  const auto eu = named_rules(rules_dir, "EU");
  EXPECT_EQ(eu.terms(nothing).size(), 13u);
  EXPECT_TRUE(named_rules(rules_dir, "US").terms(nothing).empty());
  for (const auto topic : eu.topics()) EXPECT_NE(topic, terms_section);
  Value sparkling;
  sparkling.word = "sparkling";
  Rules rules;
  rules.add(named_rules(rules_dir, "EU"));
  rules.add(named_rules(rules_dir, "OIV"));
  const auto rows = rules.sweetness_terms([&](std::string_view key) { return key == "class" ? &sparkling : nullptr; });
  EXPECT_EQ(rows.size(), 7u);
}

TEST(Terms, TheTableShowsThem) {
  const auto shown = call({"rules", "EU"});
  EXPECT_TRUE(says(shown.out, "sweetness terms"));
  EXPECT_TRUE(says(shown.out, "brut nature: sugar below 3 g/L for class sparkling (no sugar added"));
}

}  // namespace terms_test
}  // namespace vatwright::test
