// acid.reduction, run by recipe.
#include "tests/plugins/run.hpp"

#include <fmt/format.h>

namespace vatwright::test {
namespace acid_reduction_test {

const std::string sharp_wine =
    "pH: 3.12, titratable acidity: 8.1 g/L as tartaric acid, ethanol: 11.6 % vol, stage: wine, "
    "tartaric acid: 3.6 g/L, malic acid: 3.1 g/L, potassium: 860 mg/L, calcium: 80 mg/L";
const std::string sharp = "volume: 1000 L, " + sharp_wine;
const std::string sour =
    "pH: 3.05, stage: must, tartaric acid: 6.0 g/L, malic acid: 6.5 g/L, potassium: 1300 mg/L, titratable acidity: ";

std::string reduce(const std::string& rest) { return "acid.reduction: {" + rest + "}"; }

// g/mol, by the standard atomic weights of 2021 (IUPAC), written here a second time.
constexpr double tartaric = 150.086, calcium_carbonate = 100.086, bicarbonate = 100.114, potassium_carbonate = 138.204,
                 of_calcium = 40.078, of_potassium = 39.098;

// Grams a litre for 1 g/L of acidity as tartaric acid, from the reactions (derived): neutralisation
// alone, and with all that was brought fallen out.
// Outside check of acid.reduction: 6 values within 0.5 and 1 %, derived.
// Source: stoichiometry of the carbonates.
TEST(AcidReduction, StoichiometryOfEachCarbonate) {
  const struct {
    std::string substance;
    double without, with;
  } rows[] = {{"calcium carbonate", calcium_carbonate / tartaric, calcium_carbonate / tartaric},
              {"potassium bicarbonate", 2 * bicarbonate / tartaric, bicarbonate / tartaric},
              {"potassium carbonate", potassium_carbonate / tartaric, potassium_carbonate / 2 / tartaric}};
  for (const auto& row : rows) {
    const std::string step = "target titratable acidity: 7.1 g/L as tartaric acid, substance: " + row.substance;
    const auto all = run(sharp, {reduce(step)});
    EXPECT_TRUE(all.holds()) << row.substance;
    EXPECT_NEAR(result(all.steps.at(0), "dose"), row.with, 0.01 * row.with) << row.substance;
    EXPECT_NEAR(after(all, "titratable acidity", "g/L as tartaric acid"), 7.1, 0.005) << row.substance;
    // One mole of tartaric acid leaves with each gram of acidity: 1 g/L.
    EXPECT_NEAR(after(all, "tartaric acid", "g/L"), 2.6, 0.02) << row.substance;
    const auto none = run_step(sharp, reduce(step + ", falling out: 0 %"));
    EXPECT_NEAR(result(none, "dose"), row.without, 0.005 * row.without) << row.substance;
    EXPECT_GT(result(none, "pH"), 3.12) << row.substance;
  }
}

// 1 mg of bicarbonate brings 0.3905 mg of potassium (atomic weights).
TEST(AcidReduction, CationsBroughtIn) {
  const std::string step = "target titratable acidity: 7.1 g/L as tartaric acid, falling out: ";
  const auto stays = run(sharp, {reduce(step + "0 %")});
  const double brought = 1000 * result(stays.steps.at(0), "dose") * of_potassium / bicarbonate;
  EXPECT_NEAR(after(stays, "potassium", "mg/L"), 860 + brought, 0.1);
  EXPECT_NEAR(after(stays, "tartaric acid", "g/L"), 3.6, 1e-9);
  const auto falls = run(sharp, {reduce(step + "100 %")});
  EXPECT_NEAR(after(falls, "potassium", "mg/L"), 860, 1e-6);
  EXPECT_TRUE(noted(falls.steps.at(0), "mg/L of potassium"));
  const auto half = run(sharp, {reduce(step + "50 %, substance: calcium carbonate")});
  EXPECT_NEAR(after(half, "calcium", "mg/L"),
              80 + 500 * result(half.steps.at(0), "dose") * of_calcium / calcium_carbonate, 0.5);
}

TEST(AcidReduction, SaysBeforeAndAfterTheCrystals) {
  const auto step = run_step(sharp, reduce("target titratable acidity: 7.1 g/L as tartaric acid"));
  const auto& rows = step.outcome.tables.at(0).rows;
  ASSERT_EQ(rows.size(), 2u);
  const double gram = 2000 / tartaric;  // meq/L in 1 g/L as tartaric acid
  EXPECT_NEAR(std::get<double>(rows[0][2]) / gram, 8.1 - tartaric / 2 / bicarbonate * result(step, "dose"), 0.01);
  EXPECT_NEAR(std::get<double>(rows[1][2]) / gram, 7.1, 0.01);
  // Calcium tartrate carries no acidity, and takes the pH down again.
  const auto calcium =
      run_step(sharp, reduce("target titratable acidity: 7.1 g/L as tartaric acid, substance: calcium carbonate"));
  const auto& course = calcium.outcome.tables.at(0).rows;
  EXPECT_NEAR(std::get<double>(course[0][2]), std::get<double>(course[1][2]), 0.1);
  EXPECT_GT(std::get<double>(course[0][1]), std::get<double>(course[1][1]) + 0.05);
  EXPECT_TRUE(noted(calcium, "the pH comes down again"));
  const auto* rule = opinion(step, "dose by the rule of 0.90 g");
  ASSERT_NE(rule, nullptr);
  EXPECT_NEAR(number(rule->there), 0.9, 0.01);
}

// The part that is treated and joined again: V (c - wanted) / (c - left), and what neutralises all of that in it.
double treated(double volume, double c, double wanted, double left) { return volume * (c - wanted) / (c - left); }
double kilograms(double volume, double c, double left) {
  return volume * (c - left) * calcium_carbonate / tartaric / 1000;
}

// Worked by the mass balance (derived): the treated part loses its acid, and the whole is the mean by volume.
TEST(AcidReduction, DoubleSaltByTheMassBalance) {
  const std::string step = "substance: double-salt treatment, acidity left: ";
  const auto first =
      run_step("volume: 1000 L, " + sour + "12 g/L as tartaric acid",
               reduce(step + "0.5 g/L as tartaric acid, target titratable acidity: 9 g/L as tartaric acid"));
  EXPECT_NEAR(result(first, "treated volume"), treated(1000, 12, 9, 0.5), 1.01);
  EXPECT_NEAR(first.outcome.additions.at(0).mass.value().value(), kilograms(treated(1000, 12, 9, 0.5), 12, 0.5), 0.015);
  const auto second =
      run_step("volume: 500 L, " + sour + "11 g/L as tartaric acid",
               reduce(step + "0.5 g/L as tartaric acid, target titratable acidity: 8 g/L as tartaric acid"));
  EXPECT_NEAR(result(second, "treated volume"), treated(500, 11, 8, 0.5), 1.01);
  EXPECT_NEAR(second.outcome.additions.at(0).mass.value().value(), kilograms(treated(500, 11, 8, 0.5), 11, 0.5), 0.01);
  const auto third =
      run_step("volume: 1000 L, " + sour + "12 g/L as tartaric acid",
               reduce(step + "0 g/L as tartaric acid, target titratable acidity: 9 g/L as tartaric acid"));
  EXPECT_NEAR(result(third, "treated volume"), treated(1000, 12, 9, 0), 2.01);
}

// Malic acid falls out with the calcium above its second pK, pH 5.1 (common practice, no source): no dose for a part
// that would stay below.
TEST(AcidReduction, TheTreatedPartStaysAboveTheFloor) {
  const std::string lot = "volume: 1000 L, " + sour + "12 g/L as tartaric acid";
  const std::string step = "substance: double-salt treatment, target titratable acidity: 9 g/L as tartaric acid";
  const auto by_itself = run_step(lot, reduce(step));
  EXPECT_TRUE(noted(by_itself, "the treated part comes down to 1.0")) << "note";
  EXPECT_TRUE(noted(by_itself, "(pH 5.1")) << "note";
  const auto said = refusal(lot, reduce(step + ", acidity left: 2 g/L as tartaric acid"));
  EXPECT_TRUE(has(said, "a treated part that keeps 2.00 g/L as tartaric acid has pH 4.49")) << said;
  EXPECT_TRUE(has(said, "make it at most 1.0")) << said;
}

// The carbonate of a double salt goes into the part, not into the tank.
TEST(AcidReduction, SaysWhereTheCarbonateGoes) {
  const std::string lot = "volume: 1000 L, " + sour + "12 g/L as tartaric acid";
  const std::string target = "target titratable acidity: 9 g/L as tartaric acid";
  const auto part = run_step(lot, reduce(target + ", substance: double-salt treatment"));
  EXPECT_NEAR(part.outcome.additions.at(0).part.value() / litre, result(part, "treated volume"), 1e-9);
  EXPECT_FALSE(run_step(lot, reduce(target)).outcome.additions.at(0).part);
}

TEST(AcidReduction, ATargetOutOfReachNamesTheNearest) {
  const auto all = refusal(sharp, reduce("target titratable acidity: 0 g/L as tartaric acid"));
  EXPECT_TRUE(has(all, "more acid would have to go than there is to take")) << all;
  EXPECT_TRUE(has(all, "the nearest that can be is ")) << all;
  const auto whole =
      refusal("volume: 1000 L, " + sour + "12 g/L as tartaric acid",
              reduce("substance: double-salt treatment, target titratable acidity: 0.9 g/L as tartaric acid"));
  EXPECT_TRUE(has(whole, "the nearest that can be is 1.17")) << whole;
  EXPECT_TRUE(has(refusal(sharp, reduce("target pH: 3.3, acidity left: 2 g/L as tartaric acid")), "whole lot"));
}

// Mattick, Plane and Weirs, Am. J. Enol. Vitic. 31(4) (1980), abstract.
TEST(AcidReduction, SaysWhenAnotherWayServesBetter) {
  const std::string lot = "volume: 1000 L, " + sour + "12 g/L as tartaric acid";
  EXPECT_TRUE(noted(run_step(lot, reduce("target pH: 3.2")), "only below pH 3.0"));
  EXPECT_FALSE(noted(run_step(sharp, reduce("target pH: 3.2")), "only below pH 3.0"));
  EXPECT_TRUE(
      noted(run_step(lot, reduce("target pH: 3.2, substance: double-salt treatment")), "malolactic conversion"));
}

TEST(AcidReduction, CrystalsNeedTartaricAcid) {
  const std::string lot =
      "volume: 1000 L, pH: 3.12, titratable acidity: 8.1 g/L as tartaric acid, stage: wine, tartaric acid: 0.8 g/L";
  const auto step = run_step(lot, reduce("target titratable acidity: 6.5 g/L as tartaric acid"));
  ASSERT_NE(check(step, "tartaric acid for the crystals"), nullptr);
  EXPECT_FALSE(check(step, "tartaric acid for the crystals")->holds);
  EXPECT_NEAR(number(*check(step, "tartaric acid for the crystals")->limit), 0.8, 1e-9);
}

// Calcium with no tartaric acid to fall out with stays: 3.33 g/L of carbonate would leave some 800 mg/L
// in this must (stoichiometry, derived). One calcium, one tartaric acid: 2 g/L take 1.33 g/L of carbonate.
TEST(AcidReduction, CalciumGoesNoFartherThanTartaricAcid) {
  const std::string lot =
      "volume: 1000 L, pH: 3.3, titratable acidity: 9 g/L as tartaric acid, stage: must, tartaric acid: 2 g/L, malic "
      "acid: 6 g/L";
  const std::string chalk = "substance: calcium carbonate, target titratable acidity: ";
  const auto said = refusal(lot, reduce(chalk + "4 g/L as tartaric acid"));
  EXPECT_TRUE(has(said, "too little tartaric acid for the crystals")) << said;
  EXPECT_TRUE(has(said, "the nearest that can be is 7.0")) << said;
  const auto fine = run_step(lot, reduce(chalk + "7.1 g/L as tartaric acid"));
  EXPECT_TRUE(check(fine, "tartaric acid for the crystals")->holds);
  EXPECT_EQ(fine.outcome.additions.size(), 1u);
  // The part of a double salt, all of its 2 g/L used up, would keep some 480 mg/L for the lot.
  const auto part = refusal(
      "volume: 1000 L, pH: 3.0, titratable acidity: 12 g/L as tartaric acid, stage: must, "
      "tartaric acid: 2 g/L, malic acid: 9 g/L",
      reduce("substance: double-salt treatment, target titratable acidity: 9 g/L as tartaric acid"));
  EXPECT_TRUE(has(part, "need 5.05 g/L of tartaric acid, and the lot has 2.00 g/L")) << part;
  // Potassium stays without harm: its acidity falls less, and the check says so.
  EXPECT_EQ(
      run_step(lot, reduce("substance: potassium bicarbonate, target titratable acidity: 7.1 g/L as tartaric acid"))
          .outcome.additions.size(),
      1u);
}

// EU: 1 g/L as tartaric acid from a wine (from memory), none from a must; OIV code: 1 g/L of tartaric
// acid is left; 27 CFR 24.246: 5 g/L of fixed acidity is left.
TEST(AcidReduction, TheLawStandsInTheWay) {
  const std::string step = "target titratable acidity: ";
  // The law's own figure is allowed, whatever the lot.
  for (const double hectolitres : {0.5, 4.7, 45.7, 313.0})
    EXPECT_TRUE(
        run(sharp_wine + fmt::format(", volume: {} hL", hectolitres), {reduce(step + "7.1 g/L as tartaric acid")}, "EU")
            .holds())
        << hectolitres;
  const auto over = run_step(sharp, reduce(step + "7.0 g/L as tartaric acid"), "EU");
  EXPECT_TRUE(over.outcome.additions.empty());
  ASSERT_NE(check(over, "removed acidity limit, EU"), nullptr);
  EXPECT_TRUE(has(check(over, "removed acidity limit, EU")->remedy, "and 7.1")) << check(over, "removed")->remedy;
  EXPECT_FALSE(
      run(sharp + ", acid removed: 0.6 g/L as tartaric acid", {reduce(step + "7.6 g/L as tartaric acid")}, "EU")
          .holds());
  // What was taken from it as must counts too, and the sheet says so.
  const auto second =
      run_step(sharp + ", acid removed: 0.6 g/L as tartaric acid", reduce(step + "7.8 g/L as tartaric acid"), "EU");
  EXPECT_NEAR(number(*check(second, "removed acidity limit, EU")->value), 0.9, 0.005);
  EXPECT_TRUE(noted(second, "0.60 g/L as tartaric acid taken away earlier is counted"));
  EXPECT_TRUE(run(sharp, {reduce(step + "5.6 g/L as tartaric acid")}, "OIV").holds());
  EXPECT_FALSE(run(sharp, {reduce(step + "5.4 g/L as tartaric acid")}, "OIV").holds());
  EXPECT_TRUE(run(sharp, {reduce(step + "5.2 g/L as tartaric acid")}, "US").holds());
  EXPECT_FALSE(run(sharp, {reduce(step + "4.9 g/L as tartaric acid")}, "US").holds());
}

// The agents of the OIV's chapter, and of (EU) 2019/934, Annex I, Part A, Table 2, are potassium tartrates, potassium
// bicarbonate and calcium carbonate.
TEST(AcidReduction, PotassiumCarbonateIsNoAgentOfTheOivNorOfTheEu) {
  const std::string step = "target titratable acidity: 7.5 g/L as tartaric acid, substance: ";
  for (const std::string rules : {"OIV", "EU"}) {
    const auto refused = run_step(sharp, reduce(step + "potassium carbonate"), rules);
    EXPECT_TRUE(refused.outcome.additions.empty()) << rules;
    const auto* law = check(refused, "potassium carbonate to deacidify, " + rules);
    ASSERT_NE(law, nullptr) << rules;
    EXPECT_FALSE(law->holds) << rules;
  }
  for (const std::string allowed : {"potassium bicarbonate", "calcium carbonate"})
    EXPECT_TRUE(run(sharp, {reduce(step + allowed)}, "OIV").holds()) << allowed;
  EXPECT_TRUE(run(sharp, {reduce(step + "potassium carbonate")}, "US").holds());
}

// Potassium tartrate brings one tartaric acid for two potassium: of the two that its crystals need, the wine gives one.
// 226.27 g of it hold 150.09 g of tartaric acid (atomic weights), so that 3.00 g/L in the wine are enough for 4.52 g/L.
TEST(AcidReduction, TartrateBringsTartaricAcidForItsCrystals) {
  for (const auto& [dose, holds] : {std::pair{1.5, true}, {3.0, true}, {4.4, true}, {4.65, false}}) {
    const auto step = run_step(
        "volume: 10 hL, stage: must, pH: 2.85, titratable acidity: 12 g/L as tartaric acid, tartaric acid: 3 g/L, "
        "malic "
        "acid: 6 g/L",
        fmt::format("acid.reduction: {{substance: potassium tartrate, add: {} g/L}}", dose));
    const auto* crystals = check(step, "tartaric acid for the crystals");
    ASSERT_NE(crystals, nullptr) << dose;
    EXPECT_EQ(crystals->holds, holds) << dose;
    EXPECT_NEAR(number(*crystals->value), 2 * dose * 150.09 / 226.27, 0.01 * dose);
    EXPECT_NEAR(number(*crystals->limit), 3 + dose * 150.09 / 226.27, 0.01 * dose);
  }
}

}  // namespace acid_reduction_test
}  // namespace vatwright::test
