// The dose protocol as all calculations that dose share it: the same step twice in a recipe orders once, and what
// cannot be weighed well enough is not ordered.
#include "host/sheet/to_do.hpp"
#include "tests/plugins/examples.hpp"

#include <fmt/format.h>

#include <cmath>
#include <random>
#include <set>

namespace vatwright::test {
namespace dose_twice_test {

// A dose that is itself what is asked for: each step is one dose of it, and the lot's books count them all.
const std::set<std::string> stated{"blend.scale",  "cellar.dose",    "cellar.gas",
                                   "cold.protein", "cold.treatment", "ferment.yeast"};
const std::set<std::string> aimed{"acid.addition",    "acid.reduction",      "nutrient.nitrogen", "sugar.dosage",
                                  "sugar.enrichment", "sugar.fortification", "sugar.sweetening",  "sulfite.addition"};

void expect_once(const Worksheet& sheet) {
  const auto &first = sheet.steps.at(sheet.steps.size() - 2), &second = sheet.steps.back();
  EXPECT_FALSE(first.outcome.additions.empty());
  EXPECT_TRUE(second.outcome.additions.empty());
  EXPECT_TRUE(second.outcome.work.empty());
  EXPECT_EQ(idle_words(second), nothing_to_add);
  EXPECT_TRUE(second.outcome.holds());
}

TEST(DoseTwice, EveryExampleOrdersOnce) {
  std::set<std::string> seen;
  each_calculation([&](const std::string& id, const Calculation& calculation) {
    if (!calculation.example_recipe.empty()) return;
    auto recipe = recipe_of_arguments(id, {calculation.example.begin(), calculation.example.end()}, {"EU"});
    if (house().bench().run(recipe).steps.back().outcome.additions.empty() || stated.contains(id)) return;
    seen.insert(id);
    recipe.steps.push_back(recipe.steps.back());
    expect_once(house().bench().run(recipe));
  });
  EXPECT_EQ(seen, aimed);
}

// --- lots and targets at random

class Dice {
 public:
  explicit Dice(unsigned seed) : random_(seed) {}
  double between(double low, double high) { return std::uniform_real_distribution(low, high)(random_); }
  double litres(double least = 100) { return least * std::pow(10, between(0, 3)); }
  template <std::size_t N>
  std::string one_of(const char* const (&words)[N]) {
    return words[std::uniform_int_distribution<std::size_t>(0, N - 1)(random_)];
  }

 private:
  std::mt19937 random_;
};

// Twice, where the first time orders something; says whether it did.
bool orders_once(const std::string& lot, const std::string& step) {
  SCOPED_TRACE(lot + " / " + step);
  try {
    const auto sheet = run(lot, {step, step});
    if (sheet.steps.at(0).outcome.additions.empty()) return false;
    expect_once(sheet);
    return true;
  } catch (const BadInput& error) {
    EXPECT_TRUE(has(error.what(), "step") || has(error.what(), ":")) << error.what();
    return false;
  }
}

template <class Turn>
void often(unsigned seed, int turns, Turn turn) {
  Dice dice(seed);
  int ordered = 0;
  for (int i = 0; i < turns; ++i)
    if (turn(dice)) ++ordered;
  EXPECT_GT(ordered, turns / 3);
}

TEST(DoseTwice, Sulfite) {
  often(31, 400, [](Dice& dice) {
    const auto lot =
        fmt::format("volume: {:.1f} L, pH: {:.2f}, free SO2: {:.1f} mg/L, total SO2: 95 mg/L, sugar: {:.1f} g/L",
                    dice.litres(), dice.between(2.9, 3.9), dice.between(0, 40), dice.between(0, 20));
    const auto target = dice.between(0, 1) < 0.5
                            ? fmt::format("target free SO2: {:.1f} mg/L", dice.between(10, 90))
                            : fmt::format("target molecular SO2: {:.2f} mg/L", dice.between(0.3, 1.2));
    const auto with = dice.one_of({"potassium metabisulfite", "sodium metabisulfite", "sulfur dioxide gas",
                                   "sulfur dioxide solution, strength: 55 g/L"});
    return orders_once(lot, fmt::format("sulfite.addition: {{{}, substance: {}}}", target, with));
  });
}

TEST(DoseTwice, Acid) {
  often(32, 150, [](Dice& dice) {
    const double ph = dice.between(3.0, 3.8), acidity = dice.between(4.0, 8.0);
    const auto lot = fmt::format(
        "volume: {:.1f} L, pH: {:.2f}, titratable acidity: {:.2f} g/L as tartaric acid, stage: {}, ethanol: 11 % vol",
        dice.litres(), ph, acidity, dice.one_of({"must", "wine"}));
    const bool up = dice.between(0, 1) < 0.5;
    const auto target = dice.between(0, 1) < 0.5
                            ? fmt::format("target pH: {:.2f}", ph + (up ? -1 : 1) * dice.between(0.02, 0.3))
                            : fmt::format("target titratable acidity: {:.2f} g/L as tartaric acid",
                                          acidity + (up ? 1 : -1) * dice.between(0.1, up ? 3.5 : 1.5));
    const auto with =
        up ? dice.one_of({"tartaric acid", "malic acid", "lactic acid, strength: 80 % mass", "citric acid"})
           : dice.one_of(
                 {"calcium carbonate", "potassium bicarbonate", "potassium carbonate", "double-salt treatment"});
    return orders_once(lot, fmt::format("acid.{}: {{{}, substance: {}}}", up ? "addition" : "reduction", target, with));
  });
}

TEST(DoseTwice, Enrichment) {
  often(33, 200, [](Dice& dice) {
    const bool tirage = dice.between(0, 1) < 0.3;
    const auto lot = fmt::format("volume: {:.1f} L, ", dice.litres()) +
                     (tirage ? fmt::format("sugar: {:.1f} g/L, ethanol: {:.2f} % vol, stage: wine, class: sparkling",
                                           dice.between(0, 3), dice.between(9, 11))
                             : fmt::format("sugar: {:.1f} g/L, stage: must", dice.between(140, 220)));
    const auto with = dice.one_of({"sucrose", "rectified concentrated must, strength: 65 °Brix"});
    return orders_once(lot, fmt::format("sugar.enrichment: {{target potential alcohol: {:.2f} % vol, substance: {}}}",
                                        tirage ? dice.between(10.5, 12.3) : dice.between(10, 15), with));
  });
}

TEST(DoseTwice, Fortification) {
  often(34, 200, [](Dice& dice) {
    const double now = dice.between(0, 15);
    return orders_once(fmt::format("volume: {:.1f} L, ethanol: {:.2f} % vol", dice.litres(), now),
                       fmt::format("sugar.fortification: {{spirit: {:.1f} % vol, target ethanol: {:.2f} % vol}}",
                                   dice.between(52, 96.5), now + dice.between(1, 10)));
  });
}

TEST(DoseTwice, Nitrogen) {
  often(35, 200, [](Dice& dice) {
    const auto lot =
        fmt::format("volume: {:.1f} L, sugar: {:.0f} g/L, stage: must", dice.litres(2000), dice.between(150, 250));
    const auto found = dice.between(0, 1) < 0.5
                           ? fmt::format("assimilable nitrogen: {:.0f} mg/L as nitrogen", dice.between(40, 200))
                           : fmt::format("amino nitrogen: {:.0f} mg/L as nitrogen, ammonium: 30 mg/L, ammonium as: NH4",
                                         dice.between(40, 150));
    const auto with =
        dice.one_of({"diammonium phosphate", "ammonium sulfate", "yeast autolysate, nitrogen share: 6 %"});
    // What the lot has stands in the lot: a step that said it would say so again.
    const bool of_lot = found.starts_with("assimilable");
    return orders_once(
        lot + (of_lot ? ", " + found : ""),
        fmt::format("nutrient.nitrogen: {{{}portions: {}, target nitrogen: {:.0f} mg/L as nitrogen, "
                    "substance: {}}}",
                    of_lot ? "" : found + ", ", dice.one_of({"one", "two"}), dice.between(150, 320), with));
  });
}

// --- what a sheet shows to be missing is dosed

TEST(DoseTwice, ADifferenceThatNoRoundingLeavesIsDosed) {
  const struct {
    const char *lot, *step;
  } rows[] = {
      {"volume: 10 hL, pH: 3.4, free SO2: 29.6 mg/L, total SO2: 90 mg/L",
       "sulfite.addition: {target free SO2: 30 mg/L}"},
      {"volume: 10 hL, sugar: 200 g/L, stage: must", "sugar.enrichment: {target potential alcohol: 11.90 % vol}"},
      {"volume: 10 hL, ethanol: 17.94 % vol", "sugar.fortification: {spirit: 77 % vol, target ethanol: 18 % vol}"},
      {"volume: 10 hL, stage: must, assimilable nitrogen: 197 mg/L as nitrogen",
       "nutrient.nitrogen: {target nitrogen: 200 mg/L as nitrogen}"}};
  for (const auto& row : rows) EXPECT_FALSE(run_step(row.lot, row.step).outcome.additions.empty()) << row.step;
}

// What is short of the target by less is said to be.
TEST(DoseTwice, ARestIsNamed) {
  const auto step = run_step("volume: 10 hL, pH: 3.4, free SO2: 29.93 mg/L, total SO2: 90 mg/L",
                             "sulfite.addition: {target free SO2: 30 mg/L}");
  EXPECT_TRUE(step.outcome.additions.empty());
  EXPECT_TRUE(noted(step, "no more than the rounding of a dose leaves"));
  const auto past = run_step("volume: 10 hL, pH: 3.4, free SO2: 31 mg/L, total SO2: 90 mg/L",
                             "sulfite.addition: {target free SO2: 30 mg/L}");
  EXPECT_FALSE(noted(past, "no more than the rounding of a dose leaves"));
}

// --- the closing check

// A lot so small that the balance moves the target: nothing is ordered, nothing changed, and the sheet says what to do.
TEST(DoseClosing, WhatCannotBeWeighedWellIsNotOrdered) {
  const struct {
    const char *lot, *step;
  } rows[] = {
      {"volume: 0.75 L, pH: 3.4, free SO2: 10 mg/L, total SO2: 40 mg/L",
       "sulfite.addition: {target free SO2: 20 mg/L}"},
      {"volume: 0.02 L, pH: 3.4, titratable acidity: 5 g/L as tartaric acid, stage: wine, ethanol: 12 % vol",
       "acid.addition: {target titratable acidity: 5.25 g/L as tartaric acid}"},
      {"volume: 0.02 L, pH: 3.4, titratable acidity: 7 g/L as tartaric acid, stage: wine, ethanol: 12 % vol",
       "acid.reduction: {target titratable acidity: 6.75 g/L as tartaric acid}"},
      {"volume: 0.0011 L, sugar: 180 g/L, stage: must", "sugar.enrichment: {target potential alcohol: 11 % vol}"},
      {"volume: 0.0011 L, sugar: 1 g/L, ethanol: 12 % vol, stage: wine",
       "sugar.sweetening: {substance: sucrose, target sugar: 6 g/L}"},
      {"volume: 0.05 L, stage: must, assimilable nitrogen: 100 mg/L as nitrogen",
       "nutrient.nitrogen: {target nitrogen: 160 mg/L as nitrogen}"},
      {"volume: 0.25 L, stage: wine", "cold.treatment: {substance: mannoproteins, wanted dose: 100 mg/L}"},
      {"volume: 0.05 L", "cellar.dose: {substance: pectolytic enzyme, dose: 1 g/hL}"},
      {"volume: 0.1 L", "cold.protein: {series: {0 g/hL: 20 NTU, 37 g/hL: 1 NTU}}"},
      {"volume: 0.1 L", "blend.scale: {substance: bentonite, stock: 50 g/L, aliquot: 0.7 mL, sample: 100 mL}"}};
  std::set<std::string> tried;
  for (const auto& row : rows) {
    SCOPED_TRACE(row.step);
    const auto sheet = run(row.lot, {row.step});
    const auto& step = sheet.steps.at(0);
    tried.insert(step.calculation);
    const auto* closing = check(step, "closing check");
    ASSERT_NE(closing, nullptr);
    EXPECT_FALSE(closing->holds);
    EXPECT_TRUE(has(closing->remedy, "nothing was dosed: the dose is too small to be weighed")) << closing->remedy;
    EXPECT_TRUE(step.outcome.additions.empty() && step.outcome.work.empty());
    EXPECT_TRUE(has(idle_words(step), "refused")) << idle_words(step);
    for (const auto& value : step.outcome.results)
      if (value.info->decided && value.info->name != "free share") {
        EXPECT_EQ(value.number, 0) << value.info->name;
      }
    for (const auto& [key, value] : sheet.lots.at(0).before) {
      const auto then = sheet.lots[0].after.find(key);
      ASSERT_NE(then, sheet.lots[0].after.end()) << key;
      EXPECT_EQ(then->second.number, value.number) << key;
    }
  }
  // Spirit and liqueur are measured out, gas goes by its meter, and yeast is strewn by the packet.
  EXPECT_EQ(tried.size() + 4, stated.size() + aimed.size());
}

// Whatever is ordered comes near enough to what was asked for.
TEST(DoseClosing, WhatIsOrderedCloses) {
  Dice dice(36);
  for (int i = 0; i < 400; ++i) {
    const auto lot = fmt::format("volume: {:.4f} L, pH: 3.4, free SO2: 5 mg/L, total SO2: 60 mg/L, sugar: 1 g/L",
                                 std::pow(10, dice.between(-1, 2)));
    const auto step =
        run_step(lot, fmt::format("sulfite.addition: {{target free SO2: {:.1f} mg/L}}", dice.between(8, 60)));
    SCOPED_TRACE(lot);
    const auto* closing = check(step, "closing check");  // none where nobody can measure out so little
    EXPECT_EQ(step.outcome.additions.empty() && !step.outcome.holds(), closing == nullptr || !closing->holds);
  }
}

}  // namespace dose_twice_test
}  // namespace vatwright::test
