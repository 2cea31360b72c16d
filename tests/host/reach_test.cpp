// First-order uncertainty runs anew only what a reading can reach: on random recipes of lots, blends and chains of
// steps, each figure is to the last bit what a run of everything gives.
#include "host/bench/course.hpp"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cmath>
#include <random>
#include <string>
#include <vector>

#include "tests/host/house.hpp"

namespace reach_test {

using namespace vatwright;
using namespace vatwright::test;

class RandomRecipe {
 public:
  explicit RandomRecipe(unsigned seed) : random_(seed) {
    text_ = "recipe: random\nrules: EU\nacid basis: tartaric acid\nlots:\n";
    const int lots = 2 + below(4);
    for (int i = 0; i < lots; ++i) lot(fmt::format("L{}", i));
    text_ += "steps:\n";
    const int steps = 2 + below(6);
    for (int i = 0; i < steps; ++i) step(i);
  }

  const std::string& text() const { return text_; }

 private:
  int below(int n) { return static_cast<int>(random_() % static_cast<unsigned>(n)); }
  double draw(double low, double high) { return low + (high - low) * below(1001) / 1000.0; }
  std::string maybe(double standard) { return below(2) == 0 ? fmt::format(" ± {}", standard) : ""; }

  void lot(const std::string& name) {
    text_ += fmt::format(
        "  {}: {{class: still, stage: wine, colour: white, volume: {:.1f}{} hL, pH: {:.2f}{}, titratable acidity: "
        "{:.2f}{} g/L, ethanol: 12.5 % vol, sugar: 1.5 g/L, free SO2: {:.0f}{} mg/L, total SO2: {:.0f}{} mg/L, "
        "potassium: 900 mg/L, tartaric acid: 1.9 g/L, malic acid: 1.5 g/L}}\n",
        name, draw(50, 90), maybe(0.5), draw(3.3, 3.6), maybe(0.02), draw(4.8, 5.6), maybe(0.1), draw(5, 15), maybe(2),
        draw(40, 70), maybe(4));
    names_.push_back(name);
  }

  const std::string& any() { return names_[static_cast<std::size_t>(below(static_cast<int>(names_.size())))]; }

  void step(int number) {
    switch (below(5)) {
      case 0:
        text_ += fmt::format("  - sulfite.molecular: {{lot: {}}}\n", any());
        return;
      case 1:
        text_ += fmt::format("  - sulfite.addition: {{lot: {}, target free SO2: {}{} mg/L}}\n", any(), 20 + below(15),
                             maybe(1));
        return;
      case 2:
        text_ += fmt::format("  - acid.addition: {{lot: {}, target pH: {:.2f}}}\n", any(), draw(3.15, 3.28));
        return;
      case 3:
        text_ += fmt::format("  - cold.tartrate: {{lot: {}, hold at: -4 °C}}\n", any());
        return;
      default: {
        const std::string a = any(), b = any();
        if (a == b) return;
        const std::string blend = fmt::format("B{}", number);
        text_ += fmt::format("  - blend.mix: {{lots: {{{}: {}{} hL, {}: {} hL}}, into: {}}}\n", a, 4 + below(3),
                             maybe(0.1), b, 3 + below(3), blend);
        names_.push_back(blend);
      }
    }
  }

  std::mt19937 random_;
  std::string text_;
  std::vector<std::string> names_;
};

bool alike(double a, double b) { return (std::isnan(a) && std::isnan(b)) || a == b; }

struct Counted {
  std::size_t recipes = 0, readings = 0, steps_run = 0, steps_of_all = 0, impossible = 0;
};

void compare(const Prepared& ready, const Worksheet& sheet, const std::string& text, Counted& counted) {
  Slots slots(ready, sheet);
  const Reach reach(ready, sheet);
  Variant variant(ready);
  const FirstRun first(ready, slots, reach, variant);
  ASSERT_TRUE(first.known()) << text;
  Rerun rerun(first, variant);
  for (std::size_t i = 0; i < variant.readings().size(); ++i) {
    const Reading& reading = variant.readings()[i];
    const auto steps = reading.of_lot ? reach.of_lot(reading.origin) : reach.of_step(reading.origin);
    ++counted.readings;
    counted.steps_run += steps.size();
    counted.steps_of_all += ready.steps.size();
    for (const double way : {-1.0, 1.0, -40.0}) {
      variant.set(i, reading.value + way * reading.standard);
      const FirstRun all(ready, slots, reach, variant);
      auto figures = first.figures();
      const bool possible = rerun(steps, figures);
      ASSERT_EQ(possible, all.known()) << reading.name << "\n" << text;
      if (!possible) ++counted.impossible;
      for (std::size_t s = 0; possible && s < slots.size(); ++s)
        ASSERT_TRUE(alike(figures[s], all.figures()[s])) << reading.name << ", step " << slots[s].step + 1 << ": "
                                                         << figures[s] << " for " << all.figures()[s] << "\n"
                                                         << text;
    }
    variant.reset(i);
  }
}

TEST(Reach, WhatAReadingReachesIsAllThatChanges) {
  TestHouse house;
  Counted counted;
  for (unsigned seed = 1; seed <= 120; ++seed) {
    const std::string text = RandomRecipe(seed).text();
    const Recipe recipe = read_recipe(Document::read("random.yaml", text));
    try {
      const Prepared ready = house.bench().prepare(recipe);
      Worksheet sheet;
      house.bench().run_steps(ready, {}, sheet);
      compare(ready, sheet, text, counted);
      ++counted.recipes;
    } catch (const BadInput&) {
      continue;  // such as a lot that was emptied, or acid for a wine that is sour already
    }
    if (HasFatalFailure()) return;
  }
  // The test has something to say: of most recipes there is an answer, and most runs are spared.
  EXPECT_GT(counted.recipes, 60U);
  EXPECT_GT(counted.readings, 300U);
  EXPECT_LT(2 * counted.steps_run, counted.steps_of_all);
  EXPECT_GT(counted.impossible, 0U);
}

// A blend of A and B hangs on both, and so does what is done to B after it; what is done to C does not.
TEST(Reach, FollowsWineThroughBlends) {
  TestHouse house;
  const std::string lot =
      "{class: still, stage: wine, volume: 50 hL, pH: 3.4, titratable acidity: 5 g/L, ethanol: 12 % vol, "
      "sugar: 1 g/L, free SO2: 10 mg/L, total SO2: 50 mg/L, potassium: 900 mg/L, tartaric acid: 1.9 g/L, malic acid: "
      "1.5 g/L, colour: white}";
  const Recipe recipe = read_recipe(Document::read(
      "recipe.yaml", "recipe: test\nacid basis: tartaric acid\nlots:\n  A: " + lot + "\n  B: " + lot + "\n  C: " + lot +
                         "\nsteps:\n  - sulfite.molecular: {lot: B}\n  - sulfite.molecular: {lot: C}\n"
                         "  - blend.mix: {lots: {A: 10 hL, B: 10 hL}, into: D}\n  - sulfite.molecular: {lot: D}\n"
                         "  - sulfite.molecular: {lot: B}\n  - sulfite.molecular: {lot: C}\n"));
  const Prepared ready = house.bench().prepare(recipe);
  Worksheet sheet;
  house.bench().run_steps(ready, {}, sheet);
  const Reach reach(ready, sheet);
  using Steps = std::vector<std::size_t>;
  EXPECT_EQ(reach.of_lot(0), (Steps{2, 3, 4}));
  EXPECT_EQ(reach.of_lot(1), (Steps{0, 2, 3, 4}));
  EXPECT_EQ(reach.of_lot(2), (Steps{1, 5}));
  EXPECT_EQ(reach.of_step(3), (Steps{3}));
}

}  // namespace reach_test
