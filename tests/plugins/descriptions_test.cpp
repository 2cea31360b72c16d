// Every calculation of every plugin of this tree: what it says of itself is in order, and its
// example runs.
#include "host/loader/manifest.hpp"
#include "host/recipe/value.hpp"
#include "tests/plugins/examples.hpp"
#include "tests/plugins/held.hpp"
#include "units/measures.hpp"

#include <cmath>
#include <map>
#include <string>

namespace vatwright::test {
namespace descriptions_test {

TEST(Descriptions, AreInOrder) {
  for (const Manifest* plugin : house().registry.all()) EXPECT_EQ(fault_in(*plugin), "");
}

// `vatwright show` tells the cautions of what a substance input offers and of the reagents: what a
// calculation can add is among them.
TEST(Descriptions, WhatTheExampleAddsIsDeclared) {
  each_calculation([](const std::string& id, const Calculation& calculation) {
    const auto sheet = run_example(id, calculation);
    for (const auto& addition : sheet.steps.back().outcome.additions) {
      bool declared = std::ranges::find(calculation.reagents, addition.substance) != calculation.reagents.end();
      for (const auto& need : calculation.inputs)
        if (need.input->kind == Kind::substance)
          declared =
              declared || std::ranges::find(need.input->choices, addition.substance) != need.input->choices.end();
      EXPECT_TRUE(declared) << addition.substance;
    }
  });
}

TEST(Descriptions, InputUnitsAreOfTheInputsDimension) {
  each_calculation([](const std::string&, const Calculation& calculation) {
    for (const auto& need : calculation.inputs) {
      const Input& input = *need.input;
      if (input.kind != Kind::quantity && input.kind != Kind::series) continue;
      const Unit unit = parse_unit(input.unit);
      EXPECT_TRUE(measures(unit, input.dimension)) << input.name << ", " << input.unit;
      EXPECT_EQ(unit.counted, input.counted) << input.name;
      ASSERT_TRUE(input.valid) << input.name;
      EXPECT_LT(input.valid->low, input.valid->high) << input.name;
      if (!input.usual) continue;
      EXPECT_GE(input.usual->low, input.valid->low) << input.name;
      EXPECT_LE(input.usual->high, input.valid->high) << input.name;
    }
  });
}

TEST(Descriptions, DefaultsAreReadAndInRange) {
  each_calculation([](const std::string&, const Calculation& calculation) {
    for (const auto& need : calculation.inputs)
      if (!need.fallback.empty()) {
        EXPECT_FALSE(need.required) << need.input->name;
        EXPECT_NO_THROW(read_default(need.fallback, *need.input)) << need.input->name;
      }
  });
}

TEST(Descriptions, ResultAndLimitUnitsAreOfTheirDimension) {
  each_calculation([](const std::string&, const Calculation& calculation) {
    EXPECT_FALSE(calculation.results.empty());
    for (const auto* result : calculation.results)
      EXPECT_EQ(parse_unit(result->unit).dimension, result->dimension) << result->name;
    for (const auto* limit : calculation.limits)
      EXPECT_EQ(parse_unit(limit->unit).dimension, limit->dimension) << limit->name;
  });
}

TEST(Descriptions, SourcesSubstancesAndLotKeysAreKnown) {
  each_calculation([](const std::string&, const Calculation& calculation) {
    EXPECT_FALSE(calculation.sources.empty());
    for (const auto& source : calculation.sources) EXPECT_FALSE(source.title.empty());
    for (const auto* changed : calculation.changes) {
      const Input* key = find_lot_key(changed->name);
      ASSERT_NE(key, nullptr) << changed->name;
      EXPECT_EQ(key->dimension, changed->dimension) << changed->name;
    }
    for (const auto id : calculation.reagents) EXPECT_NE(house().catalogue.find(id), nullptr) << id;
    for (const auto& need : calculation.inputs) {
      if (need.input->kind != Kind::substance) continue;
      for (const auto id : need.input->choices) EXPECT_NE(house().catalogue.find(id), nullptr) << id;
    }
  });
}

// Every result, but for those that only some lots have and the example's has not.
TEST(Descriptions, ExamplesRunAndHold) {
  const std::map<std::string, std::size_t> of_other_lots{{"sugar.enrichment", 2},  // in the bottles of a cuvée
                                                         {"cellar.dose", 1},       // of a liquid
                                                         {"cellar.racking", 1},    // wine out of the lees
                                                         {"cellar.cooling", 1}};   // while it ferments
  each_calculation([&](const std::string& id, const Calculation& calculation) {
    ASSERT_NE(calculation.example.empty(), calculation.example_recipe.empty());
    const auto sheet = run_example(id, calculation);
    ASSERT_FALSE(sheet.steps.empty());
    EXPECT_EQ(sheet.steps.back().calculation, id);
    const auto others = of_other_lots.contains(id) ? of_other_lots.at(id) : 0;
    EXPECT_EQ(sheet.steps.back().outcome.results.size() + others, calculation.results.size());
    EXPECT_TRUE(sheet.holds());
  });
}

// --- what was decided on is held

TEST(Decided, HeldAtWhatItWasEveryResultIsTheSame) {
  each_calculation([](const std::string& id, const Calculation& calculation) {
    if (id == "label.strength") return;  // its answer is the law's, and no law is asked here
    const auto sheet = run_example(id, calculation);
    const auto& first = sheet.steps.back().outcome;
    const auto again = HeldStep(sheet.steps.back()).run();
    ASSERT_EQ(again.results.size(), first.results.size());
    for (std::size_t i = 0; i < first.results.size(); ++i) {
      EXPECT_EQ(again.results[i].info, first.results[i].info);
      EXPECT_NEAR(again.results[i].number, first.results[i].number, 1e-12 + 1e-9 * std::abs(first.results[i].number))
          << first.results[i].info->name;
    }
  });
}

}  // namespace descriptions_test
}  // namespace vatwright::test
