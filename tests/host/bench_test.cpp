// How a step comes by its inputs, and what it leaves for the next one.
#include "host/bench/bench.hpp"

#include <gtest/gtest.h>

#include "host/sheet/writers.hpp"
#include "tests/host/house.hpp"

#include <algorithm>
#include <memory>
#include <thread>

namespace bench_test {

using namespace vatwright;
using namespace vatwright::test;

const UsedInput& used(const StepSheet& step, std::string_view name) {
  for (const auto& u : step.inputs)
    if (u.input->name == name) return u;
  throw std::runtime_error("the step did not use '" + std::string(name) + "'");
}

double result(const StepSheet& step, std::string_view name) {
  for (const auto& r : step.outcome.results)
    if (r.info->name == name) return r.number;
  throw std::runtime_error("no result '" + std::string(name) + "'");
}

bool noted(const StepSheet& step, std::string_view words) {
  return std::any_of(step.outcome.notes.begin(), step.outcome.notes.end(),
                     [&](const auto& note) { return note.find(words) != std::string::npos; });
}

TEST(BenchTest, StepBeforeLotBeforeDefault) {
  TestHouse house;
  const auto sheet =
      house.run(recipe_with("", "  - sulfite.molecular: {pH: 3.420, model: OIV}\n  - sulfite.molecular\n"));
  const auto& told = sheet.steps[0];
  EXPECT_EQ(words(used(told, "pH").from), "step");
  EXPECT_EQ(used(told, "pH").value.written, "3.420");
  EXPECT_EQ(words(used(told, "free SO2").from), "lot");
  EXPECT_EQ(words(used(told, "model").from), "step");
  EXPECT_EQ(used(told, "model").value.word, "OIV");
  const auto& untold = sheet.steps[1];
  EXPECT_EQ(words(used(untold, "pH").from), "lot");
  EXPECT_DOUBLE_EQ(used(untold, "pH").value.number, 3.42);
  EXPECT_EQ(words(used(untold, "model").from), "default");
  EXPECT_EQ(used(untold, "model").value.word, "constant");
}

TEST(BenchTest, WhatAStepSaysOfTheLotDoesNotStayInIt) {
  TestHouse house;
  const auto sheet = house.run(recipe_with("", "  - sulfite.molecular: {colour: red}\n"));
  EXPECT_EQ(words(used(sheet.steps[0], "colour").from), "step");
  EXPECT_FALSE(sheet.lots[0].after.contains("colour"));
}

TEST(BenchTest, AChangeFeedsTheNextStep) {
  TestHouse house;
  const auto sheet = house.run(
      recipe_with("    sugar: 1.8 g/L\n", "  - sulfite.addition: {target free SO2: 30 mg/L}\n  - sulfite.molecular\n"));
  const auto& after = used(sheet.steps[1], "free SO2");
  EXPECT_EQ(words(after.from), "step 1");
  EXPECT_DOUBLE_EQ(after.value.number, result(sheet.steps[0], "free SO2"));
  EXPECT_NEAR(after.value.number, 0.030, 0.0002);
  EXPECT_EQ(words(used(sheet.steps[1], "pH").from), "lot");
  EXPECT_DOUBLE_EQ(sheet.lots[0].before.at("free SO2").number, 0.014);
  EXPECT_DOUBLE_EQ(sheet.lots[0].after.at("free SO2").number, after.value.number);
}

TEST(BenchTest, LotsDoNotTouchOneAnother) {
  TestHouse house;
  const std::string facts = "{volume: 10 hL, pH: 3.4, free SO2: 10 mg/L, total SO2: 50 mg/L}";
  const auto sheet = house.run("recipe: two\nlots:\n  A: " + facts + "\n  B: " + facts +
                               "\nsteps:\n  - sulfite.addition: {lot: A, target free SO2: 30 mg/L}\n"
                               "  - sulfite.molecular: {lot: B}\n");
  EXPECT_EQ(words(used(sheet.steps[1], "free SO2").from), "lot");
  EXPECT_DOUBLE_EQ(sheet.lots[1].after.at("free SO2").number, 0.010);
  EXPECT_EQ(sheet.steps[0].lot, "A");
  EXPECT_EQ(sheet.steps[1].lot, "B");
}

// What the step says of the lot also decides which rule holds.
TEST(BenchTest, RulesGoByTheStepToo) {
  TestHouse house;
  const std::string lot = "    class: still\n    stage: wine\n    sugar: 1.8 g/L\n";
  const auto sheet = house.run(recipe_with(
      lot, "  - sulfite.molecular: {colour: white}\n  - sulfite.molecular: {colour: red}\n", "rules: EU\n"));
  EXPECT_NEAR(sheet.steps[0].outcome.checks.at(0).limit->number, 0.200, 1e-12);
  EXPECT_NEAR(sheet.steps[1].outcome.checks.at(0).limit->number, 0.150, 1e-12);
}

TEST(BenchTest, AnUnusualReadingIsNoted) {
  TestHouse house;
  const auto with_ph = [&](const std::string& ph) {
    return house.run("recipe: test\nlots: {T7: {pH: " + ph + ", free SO2: 14 mg/L}}\nsteps: [sulfite.molecular]\n");
  };
  EXPECT_TRUE(noted(with_ph("4.6").steps[0], "pH of 4.6 is outside the usual 2.8 to 4.2"));
  EXPECT_FALSE(noted(with_ph("3.4").steps[0], "outside the usual"));
}

// What is asked of the wine is more than it can be: the figure, the range, the place, no dose.
TEST(BenchTest, ALotThatWouldLeaveItsRangeIsBadInput) {
  TestHouse house;
  const auto refusal = [&](const std::string& text) -> std::string {
    try {
      house.run(text);
    } catch (const BadInput& error) {
      return error.what();
    }
    return "nothing";
  };
  const std::string dose = refusal(
      "recipe: test\nlots:\n  T7: {volume: 48 hL, pH: 4.7, free SO2: 14 mg/L, total SO2: 62 mg/L}\nsteps:\n"
      "  - sulfite.addition: {target molecular SO2: 0.8 mg/L}\n");
  EXPECT_EQ(dose.substr(0, 17), "recipe.yaml:5:5: ") << dose;
  EXPECT_NE(dose.find("free SO2 of lot 'T7' would come to "), std::string::npos) << dose;
  EXPECT_NE(dose.find("which is outside what can be: 0 to "), std::string::npos) << dose;
  EXPECT_NE(dose.find("ask for less, and look at the readings"), std::string::npos) << dose;
  const std::string spirit = refusal(
      "recipe: test\nlots:\n  T9: {volume: 9.9e6 L, density: 1041 kg/m³, ethanol: 6.2 % vol, sugar: 118 g/L, "
      "stage: must}\nsteps:\n  - sugar.fortification: {spirit: 77 % vol, target ethanol: 17 % vol}\n");
  EXPECT_NE(spirit.find("volume of lot 'T9' would come to "), std::string::npos) << spirit;
}

TEST(BenchTest, ADefaultIsNotCalledUnusual) {
  TestHouse house;
  const auto sheet = house.run(recipe_with("", "  - sulfite.addition: {target free SO2: 30 mg/L}\n"));
  EXPECT_FALSE(noted(sheet.steps[0], "outside the usual"));
}

// A change that a step may make and does not: what the next step misses is the reader's to mend,
// and no fault of its plugin.
TEST(BenchTest, AChangeThatWasNotMadeIsMissed) {
  const Folder folder;
  const auto recipe = folder
                          .write("r.yaml",
                                 "recipe: r\nlots: {A: {free SO2: 14 mg/L}}\nsteps:\n  - faulty.idle: {amount: 1}\n"
                                 "  - sulfite.molecular\n")
                          .string();
  const auto said = call({"run", recipe, "--plugins", VATWRIGHT_FIXTURES "/faulty"});
  EXPECT_EQ(said.status, 2);
  EXPECT_EQ(said.out, "");
  EXPECT_EQ(said.err.substr(0, recipe.size() + 6), recipe + ":5:5: ") << said.err;
  EXPECT_NE(said.err.find("'pH'"), std::string::npos) << said.err;
}

TEST(BenchTest, CheckComputesNothingAndFindsTheSame) {
  TestHouse house;
  const auto good = read_recipe(Document::read("r", recipe_with("", "  - sulfite.molecular\n")));
  EXPECT_NO_THROW(house.bench().check(good));
  const auto bad = read_recipe(Document::read("r", recipe_with("", "  - sulfite.addition\n")));
  EXPECT_THROW(house.bench().check(bad), BadInput);
  EXPECT_THROW(house.bench().run(bad), BadInput);
}

// --- purity

std::string demo() { return contents(source_dir / "recipes/before-bottling.yaml"); }

TEST(BenchTest, TheSameRecipeGivesTheSameSheet) {
  TestHouse house, another;
  const auto first = write_json(house.run(demo()));
  EXPECT_EQ(write_json(house.run(demo())), first);
  EXPECT_EQ(write_json(another.run(demo())), first);
}

// Calculations are pure, so that threads do not disturb one another. Each has its own house, read
// before the threads start; the plugins are shared.
TEST(BenchTest, TheSameRecipeGivesTheSameSheetOnEightThreads) {
  constexpr std::size_t threads = 8, times = 20;
  std::vector<std::unique_ptr<TestHouse>> houses;
  std::string expected;
  for (std::size_t i = 0; i < threads; ++i) {
    houses.push_back(std::make_unique<TestHouse>());
    expected = write_json(houses.back()->run(demo()));
  }
  std::vector<std::size_t> alike(threads);
  std::vector<std::thread> workers;
  for (std::size_t i = 0; i < threads; ++i)
    workers.emplace_back([&, i] {
      for (std::size_t n = 0; n < times; ++n) alike[i] += write_json(houses[i]->run(demo())) == expected ? 1 : 0;
    });
  for (auto& worker : workers) worker.join();
  for (std::size_t i = 0; i < threads; ++i) EXPECT_EQ(alike[i], times) << "thread " << i;
}

}  // namespace bench_test
