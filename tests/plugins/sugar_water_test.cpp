// sugar.water, sugar.sweetening and sugar.concentration: balances against figures of the law and of the trade.
#include "tests/plugins/run.hpp"

#include <fmt/format.h>

#include <cmath>
#include <random>

namespace vatwright::test {
namespace sugar_water_test {

StepSheet stretched(double acidity, double wanted, const std::string& more = {}) {
  return run_step(fmt::format("volume: 1000 gal, stage: must, soluble solids: 20 °Brix, volatile acidity: 0 meq/L, "
                              "titratable acidity: {} g/L as tartaric acid{}",
                              acidity, more),
                  fmt::format("sugar.water: {{target titratable acidity: {} g/L as tartaric acid}}", wanted), "US");
}

double gallons(const StepSheet& step) { return result(step, "water") / 3.785411784; }

// 20 gal for 1000 gal lower it by 0.1 g/L at the floor of 5.0 g/L; from 7.69 g/L on no more than 538.4 gal go in, which
// are 35 % of the whole. The text adds volumes up; a solution of sugar grows by a hair less.
// Outside check of sugar.water: 4 values within 0.5 %, seen.
// Source: 27 CFR 24.178 (2015).
TEST(SugarWater, GallonsOfTheLaw) {
  EXPECT_NEAR(gallons(stretched(5.1, 5.0)), 20, 0.1);
  EXPECT_NEAR(gallons(stretched(6.0, 5.0)), 200, 0.8);
  EXPECT_NEAR(gallons(stretched(7.69, 5.0)), 538.4, 2.5);
  EXPECT_NEAR(result(stretched(7.69, 5.0), "amelioration"), 35, 0.15);
}

TEST(SugarWater, NoFurtherThanTheLawAllows) {
  const auto sour = stretched(9.0, 5.0);
  EXPECT_TRUE(sour.outcome.additions.empty());
  EXPECT_FALSE(check(sour, "ameliorating water limit, US")->holds);
  EXPECT_TRUE(check(sour, "fixed acidity after amelioration limit, US")->holds);
  // The most that is named is allowed.
  const auto remedy = check(sour, "ameliorating water limit, US")->remedy;
  EXPECT_TRUE(has(remedy, "The limits allow")) << remedy;
  const auto under_eu = run_step("volume: 1000 L, stage: must, soluble solids: 24 °Brix",
                                 "sugar.water: {target soluble solids: 23 °Brix}", "EU");
  EXPECT_TRUE(under_eu.outcome.additions.empty());
  EXPECT_FALSE(check(under_eu, "water added to must limit, EU")->holds);
  EXPECT_TRUE(has(
      refusal("volume: 1000 L, stage: wine, soluble solids: 8 °Brix", "sugar.water: {target soluble solids: 7 °Brix}"),
      "no water goes into a wine"));
}

// Not below 22 °Brix; of a must below 23 °Brix no more than one degree, all water together.
TEST(SugarWater, ToCrushBy) {
  const auto at = [](double solids, double wanted, const std::string& more = {}) {
    return run_step(fmt::format("volume: 1000 L, stage: must, soluble solids: {} °Brix{}", solids, more),
                    fmt::format("sugar.water: {{target soluble solids: {} °Brix}}", wanted), "US");
  };
  EXPECT_FALSE(at(26, 22.1).outcome.additions.empty());
  EXPECT_TRUE(at(26, 21.9).outcome.additions.empty());
  EXPECT_FALSE(at(20, 19.1).outcome.additions.empty());
  EXPECT_TRUE(at(20, 18.9).outcome.additions.empty());
  // What the grapes had counts, not what an earlier bucket left.
  EXPECT_TRUE(at(19.5, 18.9, ", must solids: 20 °Brix").outcome.additions.empty());
  EXPECT_FALSE(at(22.5, 22.1, ", must solids: 26 °Brix").outcome.additions.empty());
}

TEST(SugarWater, TheSameTwiceOrdersOnce) {
  std::mt19937 random(24);
  const auto between = [&](double low, double high) { return std::uniform_real_distribution(low, high)(random); };
  for (int i = 0; i < 30; ++i) {
    const std::string must = fmt::format(
        "volume: {:.0f} L, stage: must, soluble solids: {:.1f} °Brix, titratable acidity: {:.1f} g/L as tartaric acid",
        between(200, 20000), between(23.5, 28), between(7, 12));
    for (const std::string& step :
         {fmt::format("sugar.water: {{target soluble solids: {:.1f} °Brix}}", between(22.1, 23)),
          fmt::format("sugar.water: {{target titratable acidity: {:.1f} g/L as tartaric "
                      "acid}}",
                      between(5.5, 6.6))}) {
      const auto sheet = run(must, {step, step});
      EXPECT_FALSE(sheet.steps.at(0).outcome.additions.empty()) << must << step;
      EXPECT_TRUE(sheet.steps.at(1).outcome.additions.empty()) << must << step;
    }
  }
}

// --- sweetening

StepSheet sweetened(const std::string& step, const std::string& rules = {}, const std::string& more = {}) {
  return run_step("volume: 1000 L, class: still, stage: wine, ethanol: 12 % vol, sugar: 2 g/L" + more,
                  "sugar.sweetening: {" + step + "}", rules);
}

// A kilogram of sucrose becomes 1.0526 kg and takes up 0.62 L: V (c - c0) = m (1.0526 - 0.62 c).
// Outside check of sugar.sweetening: 4 values within 0.3 %, derived.
// Source: a balance of sugar by hand, with 0.62 L for a kilogram (27 CFR 24.181: 13.5 lb for a gallon).
TEST(SugarSweetening, BalanceOfSugar) {
  for (const double wanted : {10.0, 20.0, 45.0, 80.0}) {
    const double kilograms = 1000 * (wanted - 2) / 1000 / (1.0526 - 0.62 * wanted / 1000);
    const auto step = sweetened(fmt::format("substance: sucrose, target sugar: {} g/L", wanted));
    EXPECT_NEAR(result(step, "mass"), kilograms, 0.003 * kilograms);
    EXPECT_NEAR(result(step, "sugar"), wanted, 0.05);
    EXPECT_NEAR(result(step, "ethanol"), 12 * 1000 / (1000 + 0.62 * kilograms), 0.02);
  }
}

TEST(SugarSweetening, HeldToTheLaw) {
  const std::string zone = ", zone: C II, strength gained: 0 % vol";
  const auto must = [](double sugar) { return fmt::format("strength: 65 °Brix, target sugar: {} g/L", sugar); };
  EXPECT_FALSE(sweetened(must(18), "EU", zone).outcome.additions.empty());
  // 4 % vol are 67 g/L by the legal factor.
  EXPECT_TRUE(sweetened(must(80), "EU", zone).outcome.additions.empty());
  const auto sugar = sweetened("substance: sucrose, target sugar: 18 g/L", "EU", zone);
  EXPECT_TRUE(sugar.outcome.additions.empty());
  EXPECT_NE(check(sugar, "sucrose to sweeten, EU"), nullptr);
  EXPECT_FALSE(sweetened("substance: sucrose, target sugar: 18 g/L", "US").outcome.additions.empty());
  EXPECT_TRUE(sweetened("substance: sucrose, target sugar: 140 g/L", "US").outcome.additions.empty());
  EXPECT_FALSE(
      sweetened("substance: sucrose, target sugar: 140 g/L", "US", ", amelioration: 20 %").outcome.additions.empty());
  EXPECT_TRUE(has(refusal("volume: 1 hL, class: sparkling, ethanol: 12 % vol, sugar: 2 g/L",
                          "sugar.sweetening: {target sugar: 8 g/L, strength: 65 °Brix}"),
                  "expedition liqueur"));
}

// --- concentration

// Outside check of sugar.concentration: 6 values within 0.01 % vol and 0.01 %, derived.
// Source: a balance of sugar by hand: what is in 100 L stays in what is left of them.
TEST(SugarConcentration, SugarStays) {
  for (const double off : {2.0, 5.0, 10.0}) {
    const auto step = run_step("volume: 100 hL, stage: must, colour: red, zone: C I, sugar: 168.3 g/L",
                               fmt::format("sugar.concentration: {{water taken off: {} hL}}", off));
    EXPECT_NEAR(result(step, "total strength"), 10 * 100 / (100 - off), 0.01);
    EXPECT_NEAR(result(step, "volume lost"), off, 0.01);
  }
}

TEST(SugarConcentration, HeldToTheLawTwice) {
  const auto sheet =
      run("volume: 100 hL, stage: wine, class: still, ethanol: 12 % vol, sugar: 1 g/L",
          {"sugar.concentration: {water taken off: 9 hL}", "sugar.concentration: {water taken off: 12 hL}"}, "EU");
  EXPECT_TRUE(check(sheet.steps.at(0), "volume lost by concentration limit, EU")->holds);
  EXPECT_TRUE(check(sheet.steps.at(0), "strength gained by concentration limit, EU")->holds);
  const auto* both = check(sheet.steps.at(1), "volume lost by concentration limit, EU");
  EXPECT_FALSE(both->holds);
  EXPECT_NEAR(number(*both->value), 21, 1e-6);
  EXPECT_FALSE(check(sheet.steps.at(1), "strength gained by concentration limit, EU")->holds);
}

// --- colour after decolouring

TEST(Decolouring, EnoughColourStays) {
  for (const char* step :
       {"cellar.dose: {substance: activated carbon, dose: 20 g/hL", "cellar.dose: {substance: PVPP, dose: 20 g/hL",
        "blend.scale: {substance: PVPP, stock: 50 g/L, aliquot: 0.4 mL, sample: 100 mL"}) {
    const auto with = [&](const std::string& more) {
      return run_step("volume: 10 hL, stage: wine, class: still, colour: white", step + more + "}", "US");
    };
    EXPECT_TRUE(noted(with(""), "transmittance")) << step;
    EXPECT_FALSE(with(", transmittance: 94 %").outcome.additions.empty()) << step;
    EXPECT_TRUE(with(", transmittance: 96 %").outcome.additions.empty()) << step;
    EXPECT_FALSE(check(with(", transmittance: 96 %"), "light transmittance")->holds) << step;
  }
  EXPECT_FALSE(noted(
      run_step("volume: 10 hL, stage: wine, colour: white", "cellar.dose: {substance: bentonite, dose: 20 g/hL}", "US"),
      "transmittance"));
}

}  // namespace sugar_water_test
}  // namespace vatwright::test
