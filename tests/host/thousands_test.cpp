// "1.200 L" is 1.2 L or 1200 L: refused wherever it can be both, whatever the dimension; drawn over all that a
// recipe may be told.
#include "host/recipe/thousands.hpp"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "host/plugin/lot.hpp"
#include "host/recipe/allowed.hpp"
#include "host/recipe/quantity.hpp"
#include "tests/host/house.hpp"

#include <random>
#include <set>

namespace thousands_test {

using namespace vatwright;
using namespace vatwright::test;

std::string refusal(const std::string& text, const Input& input) {
  try {
    quantity_of(text, input, nullptr);
  } catch (const InputError& error) {
    return std::string(error.what()) + "; " + error.hint();
  }
  return {};
}

TEST(ThousandsTest, RefusedWhereBothReadingsCanBe) {
  TestHouse house;
  std::set<const Input*> inputs(lot::keys.begin(), lot::keys.end());
  for (const auto* plugin : house.registry.all())
    for (const auto& calculation : plugin->calculations)
      for (const auto& need : calculation.inputs) inputs.insert(need.input);
  std::mt19937 random(9);
  std::uniform_int_distribution whole(1, 999), part(0, 999);
  int doubtful = 0, plain = 0;
  for (const Input* input : inputs) {
    if (input->kind != Kind::quantity) continue;
    const Unit unit = parse_unit(input->unit);
    for (int turn = 0; turn < 30; ++turn) {
      const int before = whole(random), after = part(random);
      const std::string of = input->unit == "1" ? "" : " " + std::string(input->unit);
      const std::string grouped = fmt::format("{}.{:03}", before, after);
      const double few = unit.coherent(std::stod(grouped)), many = unit.coherent(1000 * std::stod(grouped));
      if (!can_be(*input, few)) continue;
      const std::string said = refusal(grouped + of, *input);
      SCOPED_TRACE(fmt::format("{}: {}{}: {}", input->name, grouped, of, said));
      const bool two_ways = said.find("can be read in two ways") != std::string::npos;
      if (unit.scale == Scale::linear) {
        EXPECT_EQ(two_ways, can_be(*input, many));
      }
      ++(two_ways ? doubtful : plain);
      if (!two_ways) continue;
      // Both that it offers are taken, and are those two.
      EXPECT_NE(said.find(fmt::format(", {}{:03} where it marks thousands", before, after)), std::string::npos);
      EXPECT_EQ(refusal(fmt::format("{}{:03}{}", before, after, of), *input), "");
      EXPECT_EQ(refusal(grouped + "0" + of, *input), "");
    }
  }
  EXPECT_GT(doubtful, 100);
  EXPECT_GT(plain, 100);
}

// As they stand on a lab slip.
TEST(ThousandsTest, WhatCanBeButOneIsTaken) {
  for (const char* text : {"3.420", "3.421 ± 0.002"}) EXPECT_EQ(refusal(text, lot::ph), "") << text;
  for (const char* text : {"1.081 g/mL", "1081.123 kg/m³"}) EXPECT_EQ(refusal(text, lot::density), "") << text;
  for (const char* text : {"2000 L", "2.00 L", "0.750 L", "2.0000 L", "1234.567 L", "48.0 hL"})
    EXPECT_EQ(refusal(text, lot::volume), "") << text;
}

TEST(ThousandsTest, InAStepsRowsAndBoundsToo) {
  const std::string lot = "{volume: 20 hL, pH: 3.4, titratable acidity: 5 g/L as tartaric acid, ethanol: 12 % vol}";
  for (const char* steps :
       {"blend.mix: {lots: {A: 1.500 L, B: 10 L}, into: C}", "blend.mix: {lots: {A: 1.500 hL, B: 10 L}, into: C}",
        "pink.press: {lot: A, fruit: 4.200 kg, free run: 500 L/t, light press: 100 L/t}"}) {
    const auto said =
        complaint("recipe: test\nlots:\n  A: " + lot + "\n  B: " + lot + "\nsteps:\n  - " + std::string(steps) + "\n");
    EXPECT_NE(said.find("can be read in two ways"), std::string::npos) << said;
  }
}

}  // namespace thousands_test
