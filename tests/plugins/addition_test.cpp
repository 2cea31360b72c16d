// sulfite.addition, run by recipe: doses by arithmetic from atomic weights, rounding, what stays free.
#include "tests/plugins/run.hpp"

#include <fmt/format.h>

#include <cmath>
#include <random>

namespace vatwright::test {
namespace addition_test {

// Standard atomic weights, abridged (IUPAC CIAAW 2021), g/mol.
constexpr double o = 15.999, na = 22.990, s = 32.06, k = 39.098;
constexpr double so2 = s + 2 * o;
constexpr double so2_in_potassium_salt = 2 * so2 / (2 * k + 2 * s + 5 * o);
constexpr double so2_in_sodium_salt = 2 * so2 / (2 * na + 2 * s + 5 * o);

// 30 mg/L of free sulfur dioxide are missing in 1000 L.
const std::string thirty_missing = "volume: 1000 L, pH: 3.40, free SO2: 10 mg/L, total SO2: 40 mg/L, sugar: 1 g/L";
const std::string all_stays_free = "sulfite.addition: {target free SO2: 40 mg/L, free share: 100 %";

double grams(const StepSheet& step) { return step.outcome.additions.at(0).mass.value().value() * 1000; }
double millilitres(const StepSheet& step) { return step.outcome.additions.at(0).volume.value().value() * 1e6; }

TEST(SulfiteAddition, PotassiumSalt) {
  const auto step = run_step(thirty_missing, all_stays_free + "}");
  ASSERT_EQ(step.outcome.additions.size(), 1u);
  EXPECT_EQ(step.outcome.additions[0].substance, "potassium metabisulfite");
  EXPECT_NEAR(30 / so2_in_potassium_salt, 52.05, 0.01);  // 57.63 %
  EXPECT_NEAR(grams(step), 30 / so2_in_potassium_salt, 0.05 + 1e-9);
  EXPECT_NEAR(number(step.outcome.additions[0].dose), grams(step) / 10, 1e-9);  // g/hL
}

// What the rounding of a dose leaves is not dosed again.
TEST(SulfiteAddition, TheSameStepTwiceAddsOnce) {
  for (int tenth = 350; tenth < 400; ++tenth) {
    const auto step =
        "sulfite.addition: {free share: 50 %, target free SO2: " + std::to_string(tenth / 10.0) + " mg/L}";
    SCOPED_TRACE(step);
    const auto sheet = run(thirty_missing, {step, step});
    EXPECT_EQ(sheet.steps.at(0).outcome.additions.size(), 1u);
    EXPECT_TRUE(sheet.steps.at(1).outcome.additions.empty());
    EXPECT_TRUE(sheet.holds());
  }
}

// 0.098 mg/L molecular is shown as 0.10, and is two parts in a hundred short of it: no rounding leaves that.
TEST(SulfiteAddition, ASmallTargetIsNotTakenForMet) {
  const auto step = run_step("volume: 1000 hL, pH: 3.40, free SO2: 3.91 mg/L, total SO2: 20 mg/L, sugar: 1 g/L",
                             "sulfite.addition: {target molecular SO2: 0.1 mg/L}");
  EXPECT_EQ(step.outcome.additions.size(), 1u);
}

TEST(SulfiteAddition, SodiumSaltGasAndSolution) {
  const auto salt = run_step(thirty_missing, all_stays_free + ", substance: sodium metabisulfite}");
  EXPECT_NEAR(grams(salt), 30 / so2_in_sodium_salt, 0.05 + 1e-9);
  const auto gas = run_step(thirty_missing, all_stays_free + ", substance: sulfur dioxide gas}");
  EXPECT_NEAR(grams(gas), 30, 1e-9);
  EXPECT_TRUE(noted(gas, "metering device"));
  const auto solution =
      run_step(thirty_missing, all_stays_free + ", substance: sulfur dioxide solution, strength: 60 g/L}");
  EXPECT_FALSE(solution.outcome.additions.at(0).mass);
  EXPECT_NEAR(millilitres(solution), 30.0 / 60 * 1000, 1e-6);
  EXPECT_EQ(solution.outcome.additions.at(0).strength, "60.0 g/L SO2");
  for (const auto& step : {salt, gas, solution}) {
    ASSERT_EQ(step.added.size(), 1u);
    EXPECT_FALSE(step.added[0]->cautions.empty());
    EXPECT_EQ(opinion(step, "potassium metabisulfite by the rule"), nullptr);
  }
}

// All results are those of what is weighed, not of what was reckoned.
TEST(SulfiteAddition, ResultsAreThoseOfTheRoundedAmount) {
  const auto sheet = run("volume: 225 L, pH: 3.40, free SO2: 12 mg/L, total SO2: 40 mg/L, sugar: 1 g/L",
                         {"sulfite.addition: {target molecular SO2: 0.6 mg/L, free share: 60 %}"});
  const auto& step = sheet.steps.at(0);
  const double share = 1 / (1 + std::pow(10, 3.40 - 1.81));
  const double exact = (0.6 / share - 12) / 0.6 * 225 / 1000 / so2_in_potassium_salt;
  EXPECT_NEAR(grams(step), std::round(exact * 100) / 100, 1e-9);  // below 20 g, to 0.01 g
  EXPECT_GT(std::abs(grams(step) - exact), 1e-4);
  const double added = grams(step) * so2_in_potassium_salt * 1000 / 225;
  EXPECT_NEAR(result(step, "added SO2"), added, 1e-9);
  EXPECT_NEAR(result(step, "free SO2"), 12 + 0.6 * added, 1e-9);
  EXPECT_NEAR(result(step, "total SO2"), 40 + added, 1e-9);
  EXPECT_NEAR(result(step, "molecular SO2"), (12 + 0.6 * added) * share, 1e-9);
  EXPECT_NEAR(after(sheet, "free SO2", "mg/L"), 12 + 0.6 * added, 1e-9);
  EXPECT_NEAR(after(sheet, "total SO2", "mg/L"), 40 + added, 1e-9);
}

TEST(SulfiteAddition, FreeShareByStageSugarAndWhatIsThere) {
  constexpr double half = 50, two_thirds = 200.0 / 3, between = (half + two_thirds) / 2;
  const struct {
    std::string lot;
    double percent;
    std::string why;
  } rows[] = {{"free SO2: 40 mg/L, sugar: 4 g/L, stage: wine", two_thirds, "half in wine with 20 mg/L or less"},
              {"free SO2: 30 mg/L, sugar: 4 g/L, stage: wine", between, "half in wine with 20 mg/L or less"},
              {"free SO2: 20 mg/L, sugar: 4 g/L, stage: wine", half, "half in wine"},
              {"free SO2: 40 mg/L, sugar: 5 g/L, stage: wine", between, "half in wine"},
              {"free SO2: 40 mg/L, sugar: 6 g/L, stage: wine", half, "half in wine"},
              {"free SO2: 40 mg/L, stage: wine", two_thirds, "half in wine"},
              {"free SO2: 40 mg/L, sugar: 1 g/L, stage: must", half, "must"},
              {"free SO2: 40 mg/L, sugar: 1 g/L", two_thirds, "half in wine"}};
  for (const auto& row : rows) {
    const auto step = run_step("volume: 1000 L, pH: 3.40, total SO2: 60 mg/L, " + row.lot,
                               "sulfite.addition: {target free SO2: 45 mg/L}");
    EXPECT_NEAR(result(step, "free share"), row.percent, 1e-9) << row.lot;
    EXPECT_TRUE(noted(step, "is taken to stay free: " + row.why)) << row.lot;
    EXPECT_EQ(noted(step, "sugar was not given"), !has(row.lot, "sugar")) << row.lot;
  }
}

// Two readings a hair apart order two doses that are as near: no dose jumps, and more that is there is never more
// that is added.
TEST(SulfiteAddition, NoJumpOfTheDoseWithFreeSulfurDioxideOrSugar) {
  std::mt19937 random(20261);
  std::uniform_real_distribution<double> anything_free(5, 55), anything_sweet(0, 12);
  const auto dose = [](double free, double sugar) {
    return grams(run_step(fmt::format("volume: 1000 hL, pH: 3.40, total SO2: 120 mg/L, stage: wine, free SO2: {:.4f} "
                                      "mg/L, sugar: {:.4f} g/L",
                                      free, sugar),
                          "sulfite.addition: {target free SO2: 60 mg/L}"));
  };
  for (int i = 0; i < 40; ++i) {
    const double free = anything_free(random), sugar = anything_sweet(random);
    const double here = dose(free, sugar);
    EXPECT_NEAR(dose(free + 0.01, sugar), here, 0.002 * here + 100) << free << ", " << sugar;
    EXPECT_NEAR(dose(free, sugar + 0.01), here, 0.002 * here + 100) << free << ", " << sugar;
    EXPECT_LE(dose(free + 0.5, sugar), here + 100) << free << ", " << sugar;
  }
}

// One mole of the salt has two of potassium and of sulfur dioxide: 0.6103 mg a milligram.
TEST(SulfiteAddition, BringsPotassium) {
  const auto sheet = run(thirty_missing + ", potassium: 900 mg/L", {all_stays_free + "}"});
  const double ratio = (after(sheet, "potassium", "mg/L") - 900) / result(sheet.steps.at(0), "added SO2");
  EXPECT_NEAR(ratio, 0.6103, 0.0006);
  EXPECT_NEAR(ratio, k / so2, 1e-9);
  EXPECT_TRUE(noted(sheet.steps[0], "of potassium, which counts for cold stability"));
  const auto unknown = run(thirty_missing, {all_stays_free + "}"});
  EXPECT_FALSE(unknown.lots[0].after.contains("potassium"));
  EXPECT_TRUE(noted(unknown.steps[0], "of potassium"));
}

TEST(SulfiteAddition, BringsSodiumOrNothing) {
  const std::string lot = thirty_missing + ", potassium: 900 mg/L, sodium: 20 mg/L";
  const auto salt = run(lot, {all_stays_free + ", substance: sodium metabisulfite}"});
  EXPECT_NEAR((after(salt, "sodium", "mg/L") - 20) / result(salt.steps.at(0), "added SO2"), na / so2, 1e-9);
  EXPECT_NEAR(after(salt, "potassium", "mg/L"), 900, 1e-9);
  const auto gas = run(lot, {all_stays_free + ", substance: sulfur dioxide gas}"});
  EXPECT_NEAR(after(gas, "sodium", "mg/L"), 20, 1e-9);
  EXPECT_NEAR(after(gas, "potassium", "mg/L"), 900, 1e-9);
}

TEST(SulfiteAddition, EnoughAlready) {
  const std::string lot = "volume: 1000 L, pH: 3.40, total SO2: 90 mg/L, free SO2: 40";
  for (const char* target :
       {"target free SO2: 40 mg/L", "target free SO2: 35 mg/L", "target molecular SO2: 0.8 mg/L"}) {
    const auto sheet = run(lot + " mg/L", {std::string("sulfite.addition: {") + target + "}"});
    const auto& step = sheet.steps.at(0);
    EXPECT_TRUE(step.outcome.additions.empty()) << target;
    EXPECT_TRUE(step.outcome.changes.empty()) << target;
    EXPECT_TRUE(sheet.holds()) << target;
    EXPECT_TRUE(noted(step, "enough already: 40.0 mg/L of free SO2")) << target;
    EXPECT_EQ(result(step, "added SO2"), 0) << target;
    EXPECT_NEAR(result(step, "free SO2"), 40, 1e-9) << target;
  }
}

TEST(SulfiteAddition, StrengthBelongsToASolutionAlone) {
  const auto missing = refusal(thirty_missing, all_stays_free + ", substance: sulfur dioxide solution}");
  EXPECT_TRUE(has(missing, "a sulfur dioxide solution needs its strength")) << missing;
  for (const char* other : {"potassium metabisulfite", "sodium metabisulfite", "sulfur dioxide gas"}) {
    const auto said = refusal(thirty_missing, all_stays_free + ", strength: 60 g/L, substance: " + other + "}");
    EXPECT_TRUE(has(said, std::string("strength was given, but ") + other + " has none")) << said;
  }
}

TEST(SulfiteAddition, HalfOfTheWeightStandsBeside) {
  const auto step = run_step(thirty_missing, all_stays_free + "}");
  const auto* rule = opinion(step, "potassium metabisulfite by the rule that half of its weight counts");
  ASSERT_NE(rule, nullptr);
  EXPECT_NEAR(number(rule->there), 2 * 30, 1e-9);
  EXPECT_NEAR(number(rule->here), grams(step), 1e-9);
  EXPECT_FALSE(rule->matters);  // always 15 % more
}

// An alarm that never stops is not read: on usual wines the second opinions stand beside, and say nothing in bold.
TEST(SulfiteAddition, UsualWinesRaiseNoAlarm) {
  std::mt19937 random(13);
  std::uniform_real_distribution<double> ph(3.0, 3.7), ethanol(10, 14.5), free(5, 12), celsius(20, 25);
  for (int i = 0; i < 60; ++i) {
    const auto lot = fmt::format(
        "volume: 20 hL, stage: wine, pH: {:.2f}, ethanol: {:.1f} % vol, free SO2: {:.1f} mg/L, total SO2: 60 mg/L, "
        "sugar: 1 "
        "g/L, temperature: {:.1f} °C",
        ph(random), ethanol(random), free(random), celsius(random));
    const auto step = run_step(lot, "sulfite.addition: {target molecular SO2: 0.6 mg/L}");
    EXPECT_FALSE(step.outcome.opinions.empty());
    for (const auto& one : step.outcome.opinions) EXPECT_FALSE(one.matters) << one.name << "\n" << lot;
  }
  // Another way puts the lot where it is smelt: that changes what is done.
  const auto strong = run_step(
      "volume: 20 hL, stage: wine, pH: 3.10, ethanol: 13 % vol, free SO2: 30 mg/L, total SO2: 60 mg/L, sugar: 1 g/L",
      "sulfite.addition: {target molecular SO2: 1.6 mg/L}");
  EXPECT_TRUE(opinion(strong, "molecular SO2 by OIV")->matters);
}

TEST(SulfiteAddition, ADoseTooSmallToWeighFailsItsClosingCheck) {
  const auto step = run_step("volume: 1 L, pH: 3.40, free SO2: 10 mg/L, total SO2: 40 mg/L, sugar: 1 g/L",
                             "sulfite.addition: {target free SO2: 14 mg/L}");
  ASSERT_NE(check(step, "closing check"), nullptr);
  EXPECT_FALSE(check(step, "closing check")->holds);
  EXPECT_TRUE(has(check(step, "closing check")->remedy, "too small to be weighed"));
}

TEST(SulfiteAddition, OneTargetIsDue) {
  EXPECT_TRUE(has(refusal(thirty_missing, "sulfite.addition"), "none is given"));
  EXPECT_TRUE(
      has(refusal(thirty_missing, "sulfite.addition: {target free SO2: 40 mg/L, target molecular SO2: 0.6 mg/L}"),
          "takes one of"));
}

}  // namespace addition_test
}  // namespace vatwright::test
