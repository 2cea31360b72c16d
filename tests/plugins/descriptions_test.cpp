// Every calculation of every plugin of this tree: what it says of itself is in order, its example
// runs, and it gives the same answer on any thread.
#include "host/cli/compute.hpp"
#include "host/recipe/value.hpp"
#include "tests/plugins/held.hpp"

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <thread>

namespace vatwright::test {
namespace {

TestHouse& house() {
  static TestHouse one;
  return one;
}

template <class Look>
void each_calculation(Look look) {
  const auto plugins = house().registry.all();
  ASSERT_FALSE(plugins.empty());
  EXPECT_TRUE(house().registry.refusals().empty());
  for (const Manifest* plugin : plugins)
    for (const auto& calculation : plugin->calculations) {
      const std::string id = std::string(plugin->name) + "." + std::string(calculation.name);
      SCOPED_TRACE(id);
      look(id, calculation);
    }
}

// An example is one step, or a whole recipe whose last step is the calculation's own.
Worksheet run_example(const std::string& id, const Calculation& calculation) {
  if (!calculation.example_recipe.empty()) return house().run(std::string(calculation.example_recipe));
  return house().bench().run(recipe_of_arguments(id, {calculation.example.begin(), calculation.example.end()}, {"EU"}));
}

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
      EXPECT_EQ(unit.dimension, input.dimension) << input.name << ", " << input.unit;
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

TEST(Descriptions, ExamplesRunAndHold) {
  each_calculation([](const std::string& id, const Calculation& calculation) {
    ASSERT_NE(calculation.example.empty(), calculation.example_recipe.empty());
    const auto sheet = run_example(id, calculation);
    ASSERT_FALSE(sheet.steps.empty());
    EXPECT_EQ(sheet.steps.back().calculation, id);
    EXPECT_EQ(sheet.steps.back().outcome.results.size(), calculation.results.size());
    EXPECT_TRUE(sheet.holds());
  });
}

// --- purity

// The inputs of a step that has run, without the host.
class SameInputs final : public Inputs {
 public:
  explicit SameInputs(const StepSheet& step) : used_(step.inputs) {}
  const Value* find(const Input& input) const override {
    for (const auto& used : used_)
      if (used.input == &input) return &used.value;
    return nullptr;
  }
  std::optional<LimitRow> limit(const LimitInfo&, const Analysis*) const override {
    return LimitRow{0.2, Sense::at_most, "test", "", "a figure of this test"};
  }

 private:
  const std::vector<UsedInput>& used_;
};

// All that an outcome says, to the last bit.
std::string all_of(const Outcome& outcome) {
  std::string out;
  for (const auto& r : outcome.results) out += fmt::format("{} {:a}\n", r.info->name, r.number);
  for (const auto& c : outcome.changes) out += fmt::format("{} {:a}\n", c.key->name, c.value.number);
  for (const auto& a : outcome.additions)
    out += fmt::format("{} {:a} {:a}\n", a.substance, a.mass.value_or(Mass{}).value(),
                       a.volume.value_or(Volume{}).value());
  for (const auto& c : outcome.checks) out += fmt::format("{} {} {}\n", c.name, c.holds, c.remedy);
  for (const auto& o : outcome.opinions) out += fmt::format("{} {:a} {:a}\n", o.name, o.here.number, o.there.number);
  for (const auto& n : outcome.notes) out += n + "\n";
  for (const auto& r : outcome.reagents) out += r + "\n";
  return out;
}

// --- what was decided on is held

TEST(Decided, HeldAtWhatItWasEveryResultIsTheSame) {
  each_calculation([](const std::string& id, const Calculation& calculation) {
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

TEST(Purity, EightThreadsGiveOneAnswer) {
  each_calculation([](const std::string& id, const Calculation& calculation) {
    const auto sheet = run_example(id, calculation);
    const SameInputs inputs(sheet.steps.back());
    const std::string once = all_of(calculation.run(inputs));
    EXPECT_FALSE(once.empty());
    std::array<int, 8> different{};
    std::vector<std::jthread> threads;
    for (auto& count : different)
      threads.emplace_back([&inputs, &calculation, &once, &count] {
        for (int turn = 0; turn < 200; ++turn) count += all_of(calculation.run(inputs)) == once ? 0 : 1;
      });
    threads.clear();
    for (const int count : different) EXPECT_EQ(count, 0);
  });
}

}  // namespace
}  // namespace vatwright::test
