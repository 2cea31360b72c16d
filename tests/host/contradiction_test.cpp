// A step never says otherwise than its lot: drawn over all calculations and what they take of a lot.
#include "host/bench/contradiction.hpp"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "host/plugin/lot.hpp"
#include "tests/host/house.hpp"
#include "tests/host/lots_table.hpp"
#include "units/parse.hpp"

#include <cmath>
#include <random>

namespace contradiction_test {

using namespace vatwright;
using namespace vatwright::test;

// The key as it would be written in a recipe.
Value reading(const Input& key, double number, bool with_text) {
  Value value;
  value.number = parse_unit(key.unit).coherent(number);
  if (with_text) value.written = fmt::format("{:.6g} {}", number, key.unit);
  return value;
}

// Whether the step may say `said` of a lot that has `has`.
bool refused(const Manifest& plugin, const Calculation& calculation, const Input& input, const Value& said,
             const Value& has) {
  static const Recipe recipe =
      read_recipe(Document::read("r.yaml", "recipe: test\nlots: {T7: {pH: 3.4}}\nsteps: [sulfite.molecular]\n"));
  BoundStep step{&recipe.steps.at(0), &plugin, &calculation, 0, {}, {}, {}};
  step.given.emplace(&input, said);
  const LotState lot{.name = "T7", .analysis = {{std::string(input.name), has}}, .from = {}};
  try {
    refuse_contradiction(recipe, step, lot);
  } catch (const BadInput&) {
    return true;
  }
  return false;
}

TEST(ContradictionTest, EveryCalculationRefusesASecondValue) {
  TestHouse house;
  std::mt19937 random(15);
  int looked_at = 0;
  for (const auto* plugin : house.registry.all())
    for (const auto& calculation : plugin->calculations)
      for (const auto& need : calculation.inputs) {
        const Input& input = *need.input;
        const Input* key = find_lot_key(input.name);
        if (key == nullptr || input.kind != Kind::quantity) continue;
        SCOPED_TRACE(fmt::format("{}.{}: {}", plugin->name, calculation.name, input.name));
        const auto drawn = [&] { return std::uniform_real_distribution(input.valid->low, input.valid->high)(random); };
        for (int turn = 0; turn < 10; ++turn) {
          const double one = drawn(), other = drawn();
          if (std::abs(one - other) < 1e-4 * (std::abs(one) + std::abs(other))) continue;
          ++looked_at;
          for (const bool text : {false, true}) {
            EXPECT_EQ(refused(*plugin, calculation, input, reading(input, one, text), reading(input, other, text)),
                      !need.anew);
            EXPECT_FALSE(refused(*plugin, calculation, input, reading(input, one, text), reading(input, one, !text)));
          }
        }
      }
  EXPECT_GT(looked_at, 1000);
}

// What a sheet shows of a lot may be copied into a step, in whatever unit.
TEST(ContradictionTest, TheSameWithinTheWrittenDigitsIsNoOtherValue) {
  const auto refusal = [](const std::string& in_lot, const std::string& in_step) {
    return complaint("recipe: test\nacid basis: tartaric acid\nlots: {T7: {pH: 3.4, free SO2: 14 mg/L, " + in_lot +
                     "}}\nsteps:\n  - acid.curve: {" + in_step + "}\n");
  };
  const std::string five = "titratable acidity: 5.1 g/L";
  for (const char* same : {"5.1 g/L", "5.10 g/L", "68 meq/L", "3.33 g/L as sulfuric acid", "5.1 ± 0.1 g/L"})
    EXPECT_EQ(refusal(five, std::string("titratable acidity: ") + same), "") << same;
  for (const char* other : {"5.2 g/L", "5.14 g/L", "70 meq/L", "5.1 g/L as sulfuric acid"})
    EXPECT_NE(refusal(five, std::string("titratable acidity: ") + other), "") << other;
  EXPECT_EQ(refusal(five + ", ethanol: 12.6 % vol", "ethanol: 12.60 % vol"), "");
}

// The first input of a kind that a lot has too, with the calculation that takes it.
template <class Use>
void with_first_of(Kind kind, const Use& use) {
  TestHouse house;
  for (const auto* plugin : house.registry.all())
    for (const auto& calculation : plugin->calculations)
      for (const auto& need : calculation.inputs)
        if (need.input->kind == kind && find_lot_key(need.input->name) != nullptr)
          return use(*plugin, calculation, *need.input);
  FAIL() << "nothing takes such a reading of a lot";
}

// A spectrum is one reading: it is another where one of its points is, or the path.
TEST(ContradictionTest, ASpectrumOfWhichOnePointDiffersIsAnother) {
  with_first_of(Kind::series, [](const Manifest& plugin, const Calculation& calculation, const Input& input) {
    std::mt19937 random(3);
    const auto drawn = [&] { return std::uniform_real_distribution(0.05, 1.5)(random); };
    for (int turn = 0; turn < 100; ++turn) {
      Value lot;
      lot.series.path = 0.01;
      for (const double wavelength : {420e-9, 520e-9, 620e-9}) lot.series.points.emplace_back(wavelength, drawn());
      EXPECT_FALSE(refused(plugin, calculation, input, lot, lot));
      Value said = lot;
      const double by = 1 + std::uniform_real_distribution(-1e-3, 1e-3)(random);
      if (std::abs(by - 1) < 1e-6) continue;
      said.series.points[static_cast<std::size_t>(turn) % 3].second *= by;
      EXPECT_TRUE(refused(plugin, calculation, input, said, lot)) << by;
      said = lot;
      *said.series.path *= by;
      EXPECT_TRUE(refused(plugin, calculation, input, said, lot)) << by;
      said = lot;
      said.series.points.pop_back();
      EXPECT_TRUE(refused(plugin, calculation, input, said, lot));
    }
  });
}

TEST(ContradictionTest, BothValuesAndThePlaceAreNamed) {
  const auto said = complaint(recipe_with("", "  - sulfite.addition: {target free SO2: 30 mg/L, volume: 480 hL}\n"));
  for (const char* words : {"recipe.yaml:9:50: volume of lot 'T7' is 480 hL in this step, and 48 hL in the lot",
                            "leave it out of the step, or correct the lot"})
    EXPECT_NE(said.find(words), std::string::npos) << said;
  for (const char* other : {"colour: red", "stage: must", "sugar: 40 g/L", "total SO2: 20 mg/L", "pH: 3.1"})
    EXPECT_NE(complaint(recipe_with("    colour: white\n    stage: wine\n    sugar: 2 g/L\n",
                                    std::string("  - sulfite.addition: {target free SO2: 30 mg/L, ") + other + "}\n"))
                  .find("in this step, and "),
              std::string::npos)
        << other;
}

// What an earlier step left is the lot's too.
TEST(ContradictionTest, AfterAStepItIsSaidWhichOne) {
  TestHouse house;
  const std::string dose = "  - sulfite.addition: {target free SO2: 30 mg/L}\n";
  try {
    house.run(recipe_with("", dose + "  - sulfite.molecular: {free SO2: 14 mg/L}\n"));
    FAIL() << "the dose is in the lot";
  } catch (const BadInput& error) {
    EXPECT_NE(std::string(error.what()).find("after step 1"), std::string::npos) << error.what();
  }
  EXPECT_NO_THROW(house.run(recipe_with("", dose + "  - sulfite.molecular: {free SO2: 30 mg/L}\n")));
}

TEST(ContradictionTest, NoStepSetsAnAccount) {
  for (const auto* key : lot::keys_that<lot::is_counted_by_law>) {
    if (key->kind != Kind::quantity) continue;
    const std::string figure = "0 " + std::string(key->unit);
    const auto said = complaint("recipe: test\nlots: {T7: {volume: 48 hL, pH: 3.4}}\nsteps:\n  - pink.bleed: {" +
                                std::string(key->name) + ": " + figure + "}\n");
    EXPECT_NE(said.find("is an account of what was done to the lot"), std::string::npos) << said;
  }
  EXPECT_NE(complaint("recipe: test\nlots: {T7: {volume: 48 hL}}\nsteps:\n  - pink.bleed: {treated with: {PVPP: 1 "
                      "g/hL}}\n")
                .find("is an account"),
            std::string::npos);
}

TEST(ContradictionTest, ARowOfATableIsALotToo) {
  const auto answer = run(std::string(head) + "A,48,3.4,14,62,red\nB,4.8,3.4,14,62,red\n",
                          "recipe: test\nsteps: [sulfite.addition: {target free SO2: 30 mg/L, volume: 48 hL}]\n");
  EXPECT_EQ(answer.cell(1, "error"), "");
  EXPECT_TRUE(says(answer.cell(2, "error"), "volume of lot 'B' is 48 hL in this step, and 4.8 hL in the lot"));
}

}  // namespace contradiction_test
