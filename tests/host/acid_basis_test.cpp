// What `acid basis` of a recipe reaches, and what not: drawn over figures and acids.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include "host/plugin/lot.hpp"
#include "host/recipe/quantity.hpp"
#include "tests/host/lots_table.hpp"

#include <random>

namespace acid_basis_test {

using namespace vatwright;
using namespace vatwright::test;

double equivalents(const std::string& text) { return parse(text).value; }

TEST(AcidBasisTest, VolatileAcidityIsAcetic) {
  std::mt19937 random(3);
  std::uniform_real_distribution<> grams(0.05, 2);
  for (const auto& basis : bases()) {
    if (basis.counts != Counts::acid_equivalents) continue;
    const std::string of_the_recipe = " as " + std::string(basis.name);
    for (int turn = 0; turn < 20; ++turn) {
      const std::string figure = fmt::format("{:.3f} g/L", grams(random));
      const auto unsaid = quantity_of(figure, lot::volatile_acidity, &basis);
      EXPECT_DOUBLE_EQ(unsaid.number, equivalents(figure + " as acetic acid"));
      EXPECT_EQ(unsaid.written, figure + " as acetic acid");
      EXPECT_EQ(quantity_of(figure, lot::volatile_acidity, nullptr).number, unsaid.number);
      EXPECT_DOUBLE_EQ(quantity_of(figure + of_the_recipe, lot::volatile_acidity, nullptr).number,
                       equivalents(figure + of_the_recipe));
      EXPECT_DOUBLE_EQ(quantity_of(figure, lot::titratable_acidity, &basis).number,
                       equivalents(figure + of_the_recipe));
    }
  }
}

// 1.20 g/L is above the limit of 18 meq/L, 1.08 g/L as acetic acid, whatever the other acidities are counted as.
TEST(AcidBasisTest, ThePastVinegarIsNotPassed) {
  TestHouse house;
  for (const char* basis : {"", "acid basis: tartaric acid\n", "acid basis: sulfuric acid\n"}) {
    const auto sheet = house.run(std::string(basis) +
                                 "recipe: test\nrules: EU\nlots:\n  A: {volume: 10 hL, volatile acidity: 1.20 g/L, "
                                 "colour: white, stage: wine}\n  B: {volume: 10 hL, volatile acidity: 1.20 g/L, "
                                 "colour: white, stage: wine}\nsteps: [blend.mix: {lots: [A, B], into: C}]\n");
    EXPECT_FALSE(sheet.holds()) << basis;
  }
}

TEST(AcidBasisTest, AColumnNeedsNoAcidEither) {
  const auto answer =
      run("lot,volume [hL],volatile acidity [g/L],free SO2 [mg/L],total SO2 [mg/L],pH\nA,48,0.4,14,62,3.4\n");
  EXPECT_EQ(answer.said.status, 0) << answer.said.err;
}

}  // namespace acid_basis_test
