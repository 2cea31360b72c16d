// label.strength and label.ingredients, by recipe, at the edges of the law.
#include "tests/plugins/run.hpp"

#include <fmt/format.h>

#include <set>

namespace vatwright::test {
namespace label_words_test {

StepSheet strength(double found, const std::string& stated, const std::string& rules) {
  return run_step(fmt::format("volume: 1 hL, class: still, stage: wine, ethanol: {} % vol", found),
                  "label.strength: {" + (stated.empty() ? "" : "stated strength: " + stated + " % vol") + "}", rules);
}

// Outside check of label.strength: 8 values within 1e-9, seen.
// Source: 27 CFR 4.36 (2015).
TEST(LabelStrength, UnitedStates) {
  for (const auto& [found, stated, good] : {std::tuple{14.0, "13.5", true},
                                            {14.1, "13.5", false},
                                            {12.0, "13.5", true},
                                            {11.9, "13.5", false},
                                            {14.1, "14.1", true},
                                            {15.1, "14.1", true},
                                            {15.2, "14.1", false},
                                            {13.9, "14.1", false}})
    EXPECT_EQ(strength(found, stated, "US").outcome.holds(), good) << found << ", stated " << stated;
}

// Outside check of label.strength: 6 values within 1e-9, seen.
// Source: Delegated Regulation (EU) 2019/33, Article 44, in secondary sources.
TEST(LabelStrength, EuropeanUnion) {
  const auto step = strength(12.63, "", "EU");
  EXPECT_NEAR(result(step, "nearest"), 12.5, 1e-9);
  EXPECT_NEAR(result(step, "least"), 12.5, 1e-9);
  EXPECT_NEAR(result(step, "most"), 13.0, 1e-9);
  EXPECT_TRUE(strength(12.63, "13", "EU").outcome.holds());
  EXPECT_FALSE(strength(12.63, "12", "EU").outcome.holds());
  EXPECT_FALSE(strength(12.63, "12.6", "EU").outcome.holds());
}

StepSheet ingredients(const std::string& treatments, const std::string& lot = "volume: 1 hL, total SO2: 80 mg/L") {
  return run_step(lot, "label.ingredients: {treatments: [" + treatments + "]}", "EU");
}

bool says(const StepSheet& step, std::string_view item, std::string_view words) {
  for (const auto& row : step.outcome.tables.at(0).rows)
    if (std::get<std::string>(row.at(0)) == item && has(std::get<std::string>(row.at(1)), words)) return true;
  return false;
}

// Outside check of label.ingredients: 6 values within the words, seen.
// Source: classes and numbers of Delegated Regulation (EU) 2019/934, Annex I, in secondary sources.
TEST(LabelIngredients, ClassesNumbersAndAllergens) {
  const auto step = ingredients(
      "{substance: tartaric acid}, {substance: lactic acid}, {substance: potassium metabisulfite}, {substance: gum "
      "arabic}, {substance: egg albumin}, {substance: bentonite}, {substance: tartaric acid}");
  EXPECT_TRUE(says(step, "ingredient", "grapes"));
  EXPECT_TRUE(says(step, "additive", "acidity regulator: tartaric acid (E 334), lactic acid (E 270)"));
  EXPECT_TRUE(says(step, "additive", "gum arabic (E 414)"));
  EXPECT_TRUE(says(step, "allergen", "contains egg"));
  EXPECT_TRUE(says(step, "allergen", "contains sulfites"));
  EXPECT_FALSE(says(step, "additive", "bentonite"));
  EXPECT_EQ(result(step, "listed"), 5);
  EXPECT_EQ(result(step, "allergens"), 2);
}

TEST(LabelIngredients, SulfitesByWhatIsInTheWine) {
  const std::string treated = "{substance: bentonite}";
  EXPECT_FALSE(says(ingredients(treated, "volume: 1 hL, total SO2: 9.9 mg/L"), "allergen", "sulfites"));
  EXPECT_TRUE(says(ingredients(treated, "volume: 1 hL, total SO2: 10 mg/L"), "allergen", "sulfites"));
  EXPECT_FALSE(says(ingredients(treated, "volume: 1 hL"), "allergen", "sulfites"));
  EXPECT_TRUE(says(ingredients("{substance: potassium metabisulfite}", "volume: 1 hL"), "allergen", "sulfites"));
}

// Every treatment that the law counts: an additive is on the list by the lot's account alone, a processing aid is not.
TEST(LabelIngredients, WhatTheAccountHoldsIsOnTheList) {
  const TestHouse house;
  for (const auto name : lot::counted_treatments) {
    const Substance* substance = house.catalogue.find(name);
    ASSERT_NE(substance, nullptr) << name;
    const bool listed = substance->facts.label.is == "additive";
    const auto with = [&](const char* amount) {
      return run_step(fmt::format("volume: 1 hL, total SO2: 80 mg/L, treated with: {{{}: {}}}", name, amount),
                      "label.ingredients: {}", "EU");
    };
    EXPECT_EQ(says(with("10 mg/L"), "additive", name), listed) << name;
    EXPECT_FALSE(says(with("0 mg/L"), "additive", name)) << name;
    EXPECT_EQ(result(with("10 mg/L"), "listed"), listed ? 2 : 1) << name;
  }
}

// What earlier steps of the recipe add, in the lot and in one that it is joined to.
TEST(LabelIngredients, WhatEarlierStepsAddedIsOnTheList) {
  TestHouse house;
  const auto sheet = house.run(
      "recipe: test\nlots: {T7: {volume: 10 hL, pH: 3.4}, T8: {volume: 10 hL, pH: 3.3}}\nsteps:\n"
      "  - cellar.dose: {lot: T7, substance: gum arabic, dose: 10 g/hL}\n"
      "  - cellar.dose: {lot: T8, substance: egg albumin, dose: 5 g/hL}\n"
      "  - label.ingredients: {lot: T7}\n"
      "  - blend.mix: {lots: {T7: 5 hL, T8: 5 hL}, into: J}\n"
      "  - label.ingredients: {lot: J, treatments: [{substance: ascorbic acid}]}\n");
  EXPECT_TRUE(says(sheet.steps.at(2), "additive", "gum arabic (E 414)"));
  EXPECT_FALSE(says(sheet.steps.at(2), "allergen", "egg"));
  for (const auto* words : {"gum arabic (E 414)", "ascorbic acid"})
    EXPECT_TRUE(says(sheet.steps.at(4), "additive", words)) << words;
  EXPECT_TRUE(says(sheet.steps.at(4), "allergen", "egg"));
  EXPECT_TRUE(
      noted(sheet.steps.at(4), "what went into lot J, by its book and by earlier steps: gum arabic, egg albumin"));
}

TEST(LabelIngredients, OfNothingKnownItSaysSo) {
  const auto step = run_step("volume: 1 hL", "label.ingredients: {}", "EU");
  EXPECT_EQ(result(step, "listed"), 1);
  EXPECT_TRUE(noted(step, "nothing is known of what was added"));
}

// By each rule set: where it stands, the article, and how sure that is.
TEST(LabelIngredients, EveryItemHasItsArticleAndStanding) {
  const auto step = ingredients("{substance: tartaric acid}, {substance: casein}, {substance: nitrogen}",
                                "volume: 1 hL, total SO2: 80 mg/L, class: still, sugar: 3 g/L");
  std::set<std::string> sets;
  for (const auto& row : step.outcome.tables.at(0).rows) {
    ASSERT_EQ(row.size(), 6U);
    for (const auto& cell : row) EXPECT_FALSE(std::get<std::string>(cell).empty());
    sets.insert(std::get<std::string>(row.at(3)));
  }
  EXPECT_EQ(sets, (std::set<std::string>{"EU", "US"}));
  EXPECT_TRUE(noted(step, "sweetness term of EU"));
}

// Of acid and sugar the lot's books know that some went in, not which: the list must have one that it can be.
TEST(LabelIngredients, TheListIsHeldAgainstTheLotsBooks) {
  const auto holds = [](const std::string& lot, const std::string& rows) {
    return run_step("volume: 10 hL, total SO2: 80 mg/L" + lot, "label.ingredients: {treatments: [" + rows + "]}", "EU")
        .outcome.holds();
  };
  const std::string sulfite = "{substance: potassium metabisulfite}";
  EXPECT_TRUE(holds("", sulfite));
  EXPECT_TRUE(holds(", acid added: 0 g/L as tartaric acid, strength gained: 0 % vol", sulfite));
  EXPECT_FALSE(holds(", acid added: 1 g/L as tartaric acid", sulfite));
  EXPECT_TRUE(holds(", acid added: 1 g/L as tartaric acid", sulfite + ", {substance: lactic acid}"));
  EXPECT_FALSE(holds(", strength gained: 1 % vol", sulfite));
  EXPECT_TRUE(holds(", strength gained: 1 % vol", sulfite + ", {substance: sucrose}"));
}

}  // namespace label_words_test
}  // namespace vatwright::test
