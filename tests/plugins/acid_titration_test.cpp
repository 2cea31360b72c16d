// acid.titration, acid.malolactic and acid.curve, run by recipe.
#include "tests/plugins/run.hpp"

#include <map>

namespace vatwright::test {
namespace acid_titration_test {

std::string titrate(const std::string& rest) {
  return "acid.titration: {titrant concentration: 0.1 mol/L, " + rest + "}";
}

// OIV-MA-AS313-01 (from memory): 10 mL of sample and n mL of 0.1 mol/L are 10 n meq/L, 0.75 n g/L as
// tartaric acid, 0.49 n as sulfuric acid.
// Outside check of acid.titration: 3 values within 0.004 g/L, from memory.
// Source: OIV-MA-AS313-01.
TEST(AcidTitration, TheFactorsOfTheMethod) {
  const auto sheet = run("pH: 3.4", {titrate("titrant: 7.2 mL, sample: 10 mL, endpoint: 7.0")});
  const auto& step = sheet.steps.at(0);
  EXPECT_NEAR(result(step, "titratable acidity"), 0.75 * 7.2, 0.004);
  EXPECT_NEAR(after(sheet, "titratable acidity", "meq/L"), 72, 1e-9);
  EXPECT_NEAR(after(sheet, "titratable acidity", "g/L as sulfuric acid"), 0.49 * 7.2, 0.004);
  EXPECT_EQ(step.reagents.at(0)->facts.id, "sodium hydroxide solution");
  EXPECT_TRUE(noted(step, "different quantities"));
}

// Grams a litre of each acid that 1 g/L as tartaric acid stands for: ratios of equivalent masses
// (derived from atomic weights).
// Outside check of acid.titration: 6 values within 1e-4, derived.
// Source: atomic weights.
TEST(AcidTitration, EveryBasis) {
  const auto step = run_step("pH: 3.4", titrate("titrant: 7.2 mL, sample: 10 mL, endpoint: 8.2"));
  const std::map<std::string, double> factors{{"tartaric acid", 1},    {"malic acid", 0.8934},
                                              {"lactic acid", 1.2003}, {"citric acid", 0.8534},
                                              {"acetic acid", 0.8002}, {"sulfuric acid", 0.6534}};
  const double tartaric = result(step, "titratable acidity");
  std::size_t found = 0;
  for (const auto& row : step.outcome.tables.at(0).rows)
    if (const auto at = factors.find(std::get<std::string>(row[0])); at != factors.end()) {
      EXPECT_NEAR(std::get<double>(row[1]) / tartaric, at->second, 1e-4) << at->first;
      ++found;
    }
  EXPECT_EQ(found, factors.size());
  EXPECT_EQ(
      run("pH: 3.4", {titrate("titrant: 7.2 mL, sample: 10 mL, endpoint: 8.2")}).lots[0].after.at("endpoint").word,
      "8.2");
}

TEST(AcidTitration, TheBlankAndSlips) {
  const auto with = run_step("pH: 3.4", titrate("titrant: 7.5 mL, blank: 0.3 mL, sample: 10 mL, endpoint: 7.0"));
  EXPECT_NEAR(result(with, "titratable acidity"), 5.40, 0.01);
  EXPECT_TRUE(has(refusal("pH: 3.4", titrate("titrant: 0.2 mL, blank: 0.3 mL, sample: 10 mL, endpoint: 7.0")),
                  "the blank used more titrant"));
  EXPECT_TRUE(
      has(refusal("pH: 3.4", titrate("titrant: 75 mL, sample: 10 mL, endpoint: 7.0")), "more than a must or wine has"));
  EXPECT_FALSE(refusal("pH: 3.4", titrate("titrant: 7.5 mL, sample: 10 mL, endpoint: 7.5")).empty());
  EXPECT_FALSE(refusal("pH: 3.4", titrate("titrant: 7.5 mL, sample: 10 mL")).empty());
}

const std::string red =
    "pH: 3.28, titratable acidity: 7.4 g/L as tartaric acid, malic acid: 3.0 g/L, tartaric acid: 2.6 g/L, ethanol: "
    "12.2 % vol, stage: wine, volume: 10 hL";

// 3.0 g/L of malic acid: 2.0154 g/L of lactic acid, 0.9846 g/L of carbon dioxide, 1.6790 g/L less acidity as tartaric
// acid (derived from molar masses).
// Outside check of acid.malolactic: 3 values within 0.0002 g/L; acidity 0.03, derived.
// Source: atomic weights.
TEST(AcidMalolactic, Stoichiometry) {
  const auto sheet = run(red, {"acid.malolactic"});
  const auto& step = sheet.steps.at(0);
  EXPECT_NEAR(result(step, "lactic acid"), 2.0154, 2e-4);
  EXPECT_NEAR(result(step, "carbon dioxide"), 0.9846, 2e-4);
  EXPECT_NEAR(result(step, "malic acid"), 0, 1e-9);
  EXPECT_NEAR(7.4 - result(step, "titratable acidity"), 1.6790, 0.03);  // a trace of acid titrates beyond pH 7
  EXPECT_GT(result(step, "pH"), 3.35);
  EXPECT_NEAR(after(sheet, "lactic acid", "g/L"), 2.0154, 2e-4);
  EXPECT_EQ(step.reagents.at(0)->facts.id, "gas of fermentation");
  // 0.985 kg in 10 hL is 22.4 mol: 538 L at 20 °C (24.05 L/mol, textbook).
  EXPECT_TRUE(noted(step, "gives off about 538 L"));
  EXPECT_TRUE(noted(step, "geranium")) << "sorbic acid and lactic bacteria spoil a wine";
}

TEST(AcidMalolactic, APartOfIt) {
  const auto half = run_step(red + ", lactic acid: 0.5 g/L", "acid.malolactic: {converted: 50 %}");
  EXPECT_NEAR(result(half, "malic acid"), 1.5, 1e-9);
  EXPECT_NEAR(result(half, "lactic acid"), 0.5 + 1.0077, 1e-4);
  const auto none = run_step(red, "acid.malolactic: {converted: 0 %}");
  EXPECT_TRUE(none.outcome.changes.empty());
  EXPECT_NEAR(result(none, "pH"), 3.28, 1e-6);
}

// The curve starts at the lot, passes its titratable acidity at the end point, and never turns.
TEST(AcidCurve, PassesThroughTheMeasurements) {
  for (const char* end : {"7.0", "8.2"}) {
    const auto step = run_step(red, std::string("acid.curve: {endpoint: ") + end + "}");
    const std::string name = std::string("titrant to pH ") + end;
    EXPECT_NEAR(result(step, name), 7.4 / 0.750435 * 1.0, 0.002) << end;  // mL of 0.1 mol/L for 10 mL
    const auto& points = step.outcome.charts.at(0).traces.at(0).points;
    EXPECT_NEAR(points.front().first, 0, 1e-10);
    EXPECT_NEAR(points.front().second, 3.28, 1e-12);
    for (std::size_t i = 1; i < points.size(); ++i) {
      EXPECT_GT(points[i].first, points[i - 1].first);
      EXPECT_GT(points[i].second, points[i - 1].second);
    }
    // The buffer capacity is the slope of the curve at its beginning.
    const double slope = (points[1].first - points[0].first) * 1e6 * 0.1 / 10 * 1000 /  // mmol a litre of wine
                         (points[1].second - points[0].second);
    EXPECT_NEAR(result(step, "buffer capacity"), slope, 0.02 * slope);
  }
}

TEST(AcidCurve, ScalesWithSampleAndTitrant) {
  const auto one = run_step(red, "acid.curve: {titrant concentration: 0.1 mol/L, sample: 10 mL}");
  const auto other = run_step(red, "acid.curve: {titrant concentration: 0.25 mol/L, sample: 50 mL}");
  EXPECT_NEAR(result(other, "titrant to pH 7.0"), 2 * result(one, "titrant to pH 7.0"), 1e-9);
}

// The least acidity of a wine, 3.5 g/L as tartaric acid (Regulation (EU) 1308/2013, Annex VII, Part II, point 1), holds
// of a wine whose malic acid has gone; of a must there is no such figure. 1 g/L of malic acid takes 0.56 g/L along.
TEST(AcidMalolactic, HoldsTheLeastAcidityOfAWine) {
  const std::string lot = "pH: 3.5, titratable acidity: 4.2 g/L as tartaric acid, malic acid: 2 g/L, stage: ";
  const auto low = run_step(lot + "wine", "acid.malolactic", "EU");
  const auto* held = check(low, "total acidity of wine limit, EU");
  ASSERT_NE(held, nullptr);
  EXPECT_FALSE(held->holds);
  EXPECT_NEAR(number(*held->value), 4.2 - 2 * 0.56, 0.03);
  EXPECT_NEAR(result(low, "malic acid"), 0, 1e-12);
  EXPECT_TRUE(check(run_step(lot + "wine", "acid.malolactic: {converted: 50 %}", "EU"), "total acidity")->holds);
  EXPECT_EQ(check(run_step(lot + "must", "acid.malolactic", "EU"), "total acidity"), nullptr);
}

// A full analysis whose acids lie a little above the titration is taken, with a note, and its draws do not fail
// (R of the titration: OIV-MA-AS313-01, from memory).
TEST(AcidMalolactic, TakesAFullAnalysisThatIsALittleHigh) {
  const std::string lot =
      "volume: 20 hL, pH: 2.9, stage: must, titratable acidity: 11.2 ± 0.3 g/L as tartaric acid, tartaric acid: 6.0 ± "
      "0.3 g/L, malic acid: 7.0 ± 0.3 g/L";
  const auto sheet = run(lot, {"acid.reduction: {target titratable acidity: 9 g/L as tartaric acid}"}, "EU");
  EXPECT_EQ(sheet.steps.at(0).outcome.additions.size(), 1u);
  EXPECT_TRUE(noted(sheet.steps[0], "titrate to more than the titratable acidity"));
  EXPECT_TRUE(noted(sheet.steps[0], "% of each")) << "note";
  EXPECT_EQ(sheet.uncertainty.failed, 0u);
  EXPECT_NEAR(after(sheet, "titratable acidity", "g/L as tartaric acid"), 9, 0.01);
}

}  // namespace acid_titration_test
}  // namespace vatwright::test
