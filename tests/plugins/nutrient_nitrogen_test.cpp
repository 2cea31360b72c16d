// nutrient.nitrogen, run by recipe. Shares of nitrogen are written out from atomic weights.
#include "tests/plugins/run.hpp"

#include <fmt/format.h>

namespace vatwright::test {
namespace {

// Standard atomic weights, abridged (IUPAC CIAAW 2021).
constexpr double n = 14.007, h = 1.008, o = 15.999, p = 30.974, s = 32.06;
constexpr double in_phosphate = 2 * n / (2 * (n + 4 * h) + h + p + 4 * o);
constexpr double in_sulfate = 2 * n / (2 * (n + 4 * h) + s + 4 * o);

const std::string must = "stage: must, volume: 32 hL, sugar: 204 g/L";

double weighed(const StepSheet& step, std::string_view substance) {
  double kilograms = 0;
  for (const auto& addition : step.outcome.additions)
    if (addition.substance == substance) kilograms += addition.mass->value();
  return kilograms;
}

// 80 mg/L of ammonium and 110 of amino nitrogen make 172.1; 75 of ammonia and 110 make 171.7 (derived).
// Outside check of nutrient.nitrogen: 2 values within 0.05 mg/L, derived.
// Source: atomic weights.
TEST(NutrientNitrogen, AddsAmmoniumByWhatItIsCountedAs) {
  const auto with = [](const std::string& ammonium) {
    return result(run_step(must, "nutrient.nitrogen: {amino nitrogen: 110 mg/L as nitrogen, " + ammonium + "}"),
                  "nitrogen found");
  };
  EXPECT_NEAR(with("ammonium: 80 mg/L, ammonium as: NH4"), 172.1, 0.05);
  EXPECT_NEAR(with("ammonium: 75 mg/L, ammonium as: NH3"), 171.7, 0.05);
  EXPECT_NEAR(with("ammonium: 62 mg/L, ammonium as: N"), 172.0, 1e-9);
}

TEST(NutrientNitrogen, RefusesHalfASumAndADoubleOne) {
  const auto says = [](const std::string& lot, const std::string& inputs, std::string_view part) {
    const auto said = refusal(lot, "nutrient.nitrogen: {" + inputs + "}");
    EXPECT_TRUE(has(said, part)) << said;
  };
  says(must, "amino nitrogen: 110 mg/L as nitrogen", "amino nitrogen is given without ammonium");
  says(must, "amino nitrogen: 110 mg/L as nitrogen, ammonium: 40 mg/L", "write 'ammonium as: NH4', NH3 or N");
  says(must, "ammonium: 40 mg/L", "takes one of");
  says(must + ", assimilable nitrogen: 150 mg/L as nitrogen", "ammonium: 40 mg/L", "counted twice");
  const std::string formol = "titrant: 0.6 mL, titrant concentration: 0.05 mol/L, sample: 4 mL";
  says(must, formol + ", ammonium: 40 mg/L", "the formol titration finds ammonium too");
  says(must, "titrant: 0.6 mL", "needs 'titrant concentration' and 'sample'");
  says(must, formol + ", amino nitrogen: 40 mg/L as nitrogen", "takes one of");
  says("stage: must, volume: 32 hL", formol, "neither a target nor the sugar");
  says("stage: wine, volume: 32 hL, sugar: 2 g/L", formol, "this lot is a still wine");
  says(must, formol + ", nitrogen share: 5 %", "follows from its formula");
  says(must, formol + ", substance: yeast autolysate", "needs its nitrogen share");
}

// 175 mg/L for a millilitre: Virginia Tech, Enology Extension, formol titration.
// Outside check of nutrient.nitrogen: 1 value within 0.1 mg/L, seen.
// Source: Virginia Tech, Enology Extension, formol titration.
TEST(NutrientNitrogen, FormolNamesItsReagents) {
  const auto step =
      run_step(must, "nutrient.nitrogen: {titrant: 0.62 mL, titrant concentration: 0.05 mol/L, sample: 4 mL}");
  EXPECT_NEAR(result(step, "nitrogen found"), 175 * 0.62, 0.1);
  ASSERT_EQ(step.reagents.size(), 2u);
  EXPECT_EQ(step.reagents[0]->facts.id, "formaldehyde solution");
  EXPECT_TRUE(noted(step, "counts a part of proline"));
}

// 0.75, 0.9 and 1.25 mg for 1 g of sugar (common practice, no source).
TEST(NutrientNitrogen, NeedGoesBySugarAndStrain) {
  const auto need = [](const std::string& strain) {
    return result(run_step(must + ", assimilable nitrogen: 150 mg/L as nitrogen",
                           "nutrient.nitrogen: {strain need: " + strain + "}"),
                  "nitrogen needed");
  };
  EXPECT_NEAR(need("low"), 153, 1e-9);
  EXPECT_NEAR(need("medium"), 183.6, 1e-9);
  EXPECT_NEAR(need("high"), 255, 1e-9);
}

TEST(NutrientNitrogen, PortionsAddUpToTheMissingNitrogen) {
  struct Case {
    const char* substance;
    double share;
  };
  for (const Case c : {Case{"diammonium phosphate", in_phosphate}, Case{"ammonium sulfate", in_sulfate},
                       Case{"yeast autolysate, nitrogen share: 6 %", 0.06}}) {
    const auto sheet = run(must + ", assimilable nitrogen: 130 mg/L as nitrogen",
                           {std::string("nutrient.nitrogen: {substance: ") + c.substance + "}"});
    const auto& step = sheet.steps.at(0);
    const std::string id(std::string_view(c.substance).substr(0, std::string_view(c.substance).find(',')));
    ASSERT_EQ(step.outcome.additions.size(), 2u) << id;
    const double exact = (183.6 - 130) * 1e-6 * 3200 / c.share;  // kg
    EXPECT_NEAR(weighed(step, id), exact, 2e-3 * exact) << id;
    EXPECT_NEAR(result(step, "dose"), weighed(step, id) * 1000 / 32, 1e-9) << id;
    EXPECT_NEAR(result(step, "nitrogen after"), 130 + weighed(step, id) * 1e6 / 3200 * c.share, 1e-6) << id;
    EXPECT_NEAR(after(sheet, "assimilable nitrogen", "mg/L as nitrogen"), result(step, "nitrogen after"), 1e-9);
    EXPECT_TRUE(sheet.holds()) << id;
  }
}

TEST(NutrientNitrogen, OnePortionWhenAskedFor) {
  const auto step =
      run_step(must + ", assimilable nitrogen: 130 mg/L as nitrogen", "nutrient.nitrogen: {portions: one}");
  EXPECT_EQ(step.outcome.additions.size(), 1u);
  ASSERT_EQ(step.outcome.tables.size(), 1u);
  EXPECT_EQ(step.outcome.tables[0].rows.size(), 1u);
}

TEST(NutrientNitrogen, EnoughIsEnough) {
  const auto sheet = run(must + ", assimilable nitrogen: 240 mg/L as nitrogen", {"nutrient.nitrogen: {}"});
  EXPECT_TRUE(sheet.steps[0].outcome.additions.empty());
  EXPECT_EQ(result(sheet.steps[0], "dose"), 0);
  EXPECT_TRUE(noted(sheet.steps[0], "enough already"));
  EXPECT_TRUE(sheet.holds());
}

// The United States allow 0.96 g/L of diammonium phosphate: 27 CFR 24.246 (2015 edition).
TEST(NutrientNitrogen, ALimitInTheWayMeansNoDose) {
  const auto sheet =
      run(must + ", assimilable nitrogen: 20 mg/L as nitrogen", {"nutrient.nitrogen: {strain need: high}"}, "US");
  const auto& step = sheet.steps.at(0);
  EXPECT_TRUE(step.outcome.additions.empty());
  EXPECT_FALSE(sheet.holds());
  const auto* law = check(step, "diammonium phosphate limit");
  ASSERT_NE(law, nullptr);
  EXPECT_FALSE(law->holds);
  EXPECT_NEAR(number(*law->limit), 0.96, 1e-12);
  EXPECT_TRUE(has(law->remedy, "allow 0.96 g/L more, which gives 224 mg/L")) << law->remedy;
  EXPECT_NEAR(20 + 960 * in_phosphate, 224, 0.5);
}

// What was added before counts: regulation (EC) 606/2009, Annex I A, 1 g/L of all ammonium salts.
TEST(NutrientNitrogen, SaltsThatWereAddedBeforeCount) {
  const std::string low = must + ", assimilable nitrogen: 130 mg/L as nitrogen";
  const auto fine = run(low, {"nutrient.nitrogen: {added so far: 70 g/hL, substance: ammonium sulfate}"}, "EU");
  EXPECT_TRUE(fine.holds());
  const auto past = run(low, {"nutrient.nitrogen: {added so far: 80 g/hL, substance: ammonium sulfate}"}, "EU");
  EXPECT_FALSE(past.holds());
  EXPECT_TRUE(past.steps[0].outcome.additions.empty());
  EXPECT_TRUE(has(check(past.steps[0], "ammonium salts limit")->remedy, "allow 0.20 g/L more"));
  // 0.197 g/L are left: said as 0.20 g/L they would be too many.
  const auto odd = run(low, {"nutrient.nitrogen: {added so far: 80.3 g/hL, substance: ammonium sulfate}"}, "EU");
  EXPECT_TRUE(has(check(odd.steps[0], "ammonium salts limit")->remedy, "allow 0.19 g/L more"));
}

// At the limit itself rounding goes down: whatever the lot, the portions keep it.
TEST(NutrientNitrogen, RoundingNeverPassesTheLimit) {
  for (const double hectolitres : {0.37, 1.13, 7.77, 31.9}) {
    const double most = 20 + 960 * in_phosphate;  // mg/L
    const auto sheet =
        run(fmt::format("stage: must, volume: {} hL, assimilable nitrogen: 20 mg/L as nitrogen", hectolitres),
            {fmt::format("nutrient.nitrogen: {{target nitrogen: {:.9f} mg/L as nitrogen}}", most - 1e-6)}, "US");
    ASSERT_EQ(sheet.steps[0].outcome.additions.size(), 2u) << hectolitres;
    EXPECT_LE(weighed(sheet.steps[0], "diammonium phosphate"), 0.96e-3 * 100 * hectolitres * (1 + 1e-9));
    EXPECT_TRUE(sheet.holds()) << hectolitres;
  }
}

// A second fermentation has its own limit: 0.3 g/L, regulation (EC) 423/2008, Annex IV.
TEST(NutrientNitrogen, ASecondFermentationHasItsOwnLimit) {
  const std::string tirage =
      "stage: wine, class: sparkling, volume: 10 hL, sugar: 24 g/L, assimilable nitrogen: 5 mg/L as nitrogen";
  const auto fine = run(tirage, {"nutrient.nitrogen: {}"}, "EU");
  EXPECT_TRUE(fine.holds());
  EXPECT_NEAR(number(*check(fine.steps[0], "diammonium phosphate limit")->limit), 0.3, 1e-12);
  const auto past = run(tirage, {"nutrient.nitrogen: {target nitrogen: 80 mg/L as nitrogen}"}, "EU");
  EXPECT_FALSE(past.holds());
  EXPECT_TRUE(past.steps[0].outcome.additions.empty());
}

TEST(NutrientNitrogen, SaysWhereNoRuleLimitsTheSubstance) {
  const auto step = run_step(must + ", assimilable nitrogen: 130 mg/L as nitrogen",
                             "nutrient.nitrogen: {substance: yeast autolysate, nitrogen share: 5 %}", "EU");
  EXPECT_TRUE(noted(step, "no rule set of this recipe gives a limit for yeast autolysate"));
}

TEST(NutrientNitrogen, ThiamineKeepsItsOwnLimit) {
  const std::string low = must + ", assimilable nitrogen: 130 mg/L as nitrogen";
  const auto fine = run(low, {"nutrient.nitrogen: {thiamine: 0.6 mg/L}"}, "EU");
  EXPECT_TRUE(fine.holds());
  EXPECT_NEAR(weighed(fine.steps[0], "thiamine hydrochloride"), 0.6e-6 * 3200, 1e-9);
  const auto past = run(low, {"nutrient.nitrogen: {thiamine: 0.7 mg/L}"}, "EU");
  EXPECT_FALSE(past.holds());
  EXPECT_EQ(check(fine.steps[0], "thiamine hydrochloride limit")->remedy, "");
  EXPECT_EQ(weighed(past.steps[0], "thiamine hydrochloride"), 0);
  EXPECT_TRUE(has(check(past.steps[0], "thiamine hydrochloride limit")->remedy, "the limit allows 0.60 mg/L"));
}

TEST(NutrientNitrogen, TheTableOfSolubleSolidsStandsBeside) {
  const auto step = run_step(must + ", soluble solids: 23 °Brix, assimilable nitrogen: 130 mg/L as nitrogen",
                             "nutrient.nitrogen: {}");
  const auto* other = opinion(step, "nitrogen needed by the table");
  ASSERT_NE(other, nullptr);
  EXPECT_NEAR(number(other->there), 250, 1e-9);
  EXPECT_TRUE(other->matters);
  const auto beyond = run_step(must + ", soluble solids: 17 °Brix, assimilable nitrogen: 130 mg/L as nitrogen",
                               "nutrient.nitrogen: {}");
  EXPECT_EQ(opinion(beyond, "nitrogen needed by the table"), nullptr);
}

// Sugar from soluble solids alone: 21 °Brix is about 205 g/L by the must tables in use.
TEST(NutrientNitrogen, SolubleSolidsWillDoForSugar) {
  const auto step =
      run_step("stage: must, volume: 32 hL, soluble solids: 21 °Brix, assimilable nitrogen: 130 mg/L as nitrogen",
               "nutrient.nitrogen: {}");
  EXPECT_NEAR(result(step, "nitrogen needed"), 0.9 * 205, 0.9 * 3);
}

}  // namespace
}  // namespace vatwright::test
