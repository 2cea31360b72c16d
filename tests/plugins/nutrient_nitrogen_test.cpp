// nutrient.nitrogen, run by recipe. Shares of nitrogen are written out from atomic weights.
#include "tests/plugins/held.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace vatwright::test {
namespace nutrient_nitrogen_test {

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
  says(must + ", assimilable nitrogen: 10 mg/L as nitrogen",
       "substance: yeast autolysate, nitrogen share: 0.5 %, target nitrogen: 600 mg/L as nitrogen",
       "118 g/L of yeast autolysate in all");
}

// 175 mg/L for a millilitre: Virginia Tech, Enology Extension, formol titration.
// Outside check of nutrient.nitrogen: 1 value within 0.1 mg/L, seen.
// Source: Virginia Tech, Enology Extension, formol titration.
TEST(NutrientNitrogen, FormolNamesItsReagents) {
  const auto step =
      run_step(must, "nutrient.nitrogen: {titrant: 0.62 mL, titrant concentration: 0.05 mol/L, sample: 4 mL}");
  EXPECT_NEAR(result(step, "nitrogen found"), 175 * 0.62, 0.1);
  ASSERT_EQ(step.reagents.size(), 3u);
  EXPECT_EQ(step.reagents[0]->facts.id, "formaldehyde solution");
  EXPECT_TRUE(noted(step, "counts a part of proline"));
}

// 0.75, 0.9 and 1.25 mg for 1 g of sugar (common practice, no source).
// "takes one of" goes by what the lot has when its turn comes, also of a lot that a step makes.
TEST(NutrientNitrogen, ABlendKnowsItsNitrogen) {
  const auto with = [](const std::string& nitrogen) {
    return "recipe: test\nlots:\n  A: {stage: must, volume: 10 hL, sugar: 200 g/L" + nitrogen +
           "}\n  B: {stage: must, volume: 10 hL, sugar: 200 g/L" + nitrogen +
           "}\nsteps:\n  - blend.mix: {lots: {A: 5 hL, B: 5 hL}, into: C}\n  - nutrient.nitrogen: {lot: C}\n";
  };
  TestHouse house;
  const auto sheet = house.run(with(", assimilable nitrogen: 90 mg/L as nitrogen"));
  EXPECT_NEAR(result(sheet.steps.at(1), "nitrogen found"), 90, 1e-9);
  try {
    house.run(with(""));
    FAIL() << "the blend has no nitrogen";
  } catch (const BadInput& error) {
    EXPECT_TRUE(has(error.what(), "none is given")) << error.what();
  }
}

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
  const auto with = [](const std::string& before) {
    return run(
        must + ", assimilable nitrogen: 130 mg/L as nitrogen, treated with: {diammonium phosphate: " + before + "}",
        {"nutrient.nitrogen: {substance: ammonium sulfate}"}, "EU");
  };
  EXPECT_TRUE(with("70 g/hL").holds());
  const auto past = with("80 g/hL");
  EXPECT_FALSE(past.holds());
  EXPECT_TRUE(past.steps[0].outcome.additions.empty());
  EXPECT_TRUE(has(check(past.steps[0], "ammonium salts limit")->remedy, "allow 0.20 g/L more"));
  // 0.197 g/L are left: said as 0.20 g/L they would be too many.
  EXPECT_TRUE(has(check(with("80.3 g/hL").steps[0], "ammonium salts limit")->remedy, "allow 0.19 g/L more"));
}

double treated(const Worksheet& sheet, std::string_view substance) {
  for (const auto& [name, amount] : sheet.lots.at(0).after.find("treated with")->second.amounts)
    if (name == substance) return amount * 100;  // g/hL
  return 0;
}

// Steps of one recipe add up: 1 g/L of all salts (regulation (EC) 606/2009, Annex I A), 0.3 g/L of each
// (OIV Code, Annex), where the other salt is no bar.
TEST(NutrientNitrogen, StepsAddUp) {
  const std::string low = must + ", assimilable nitrogen: 100 mg/L as nitrogen";
  const auto eu = run(low,
                      {"nutrient.nitrogen: {target nitrogen: 290 mg/L as nitrogen}",
                       "nutrient.nitrogen: {target nitrogen: 400 mg/L as nitrogen, substance: ammonium sulfate}"},
                      "EU");
  EXPECT_NEAR(treated(eu, "diammonium phosphate"), result(eu.steps[0], "dose"), 1e-9);
  EXPECT_TRUE(eu.steps[1].outcome.additions.empty());
  ASSERT_NE(check(eu.steps[1], "ammonium salts limit"), nullptr);
  EXPECT_FALSE(check(eu.steps[1], "ammonium salts limit")->holds);
  EXPECT_NEAR(number(*check(eu.steps[1], "ammonium salts limit")->value), (190 / in_phosphate + 110 / in_sulfate) / 1e3,
              1e-3);

  const auto oiv = run(low,
                       {"nutrient.nitrogen: {target nitrogen: 160 mg/L as nitrogen}",
                        "nutrient.nitrogen: {target nitrogen: 220 mg/L as nitrogen, substance: ammonium sulfate}",
                        "nutrient.nitrogen: {target nitrogen: 280 mg/L as nitrogen}"},
                       "OIV");
  EXPECT_EQ(oiv.steps[1].outcome.additions.size(), 2u);
  EXPECT_TRUE(oiv.steps[2].outcome.additions.empty());
  EXPECT_TRUE(has(check(oiv.steps[2], "diammonium phosphate limit")->remedy, "allow 0.01 g/L more"));
}

TEST(NutrientNitrogen, ThiamineAddsUpToo) {
  const auto sheet = run(must + ", assimilable nitrogen: 240 mg/L as nitrogen",
                         {"nutrient.nitrogen: {thiamine: 0.4 mg/L}", "nutrient.nitrogen: {thiamine: 0.4 mg/L}"}, "US");
  EXPECT_EQ(sheet.steps[0].outcome.additions.size(), 1u);
  EXPECT_TRUE(sheet.steps[1].outcome.additions.empty());
  EXPECT_TRUE(has(check(sheet.steps[1], "thiamine hydrochloride limit")->remedy, "allows 0.20 mg/L more"));
}

// --- a must that ferments: 6 % vol and 121.1 g/L of sugar were 121.1 + 6 × 16.83 = 222.1 g/L (factor of the
// French order of 18 August 2014, AGRT1408514A); 0.9 mg for 1 g is common practice, no source.

StepSheet fermenting(const std::string& ethanol_and_sugar, const std::string& more = {}) {
  return run_step("stage: must, volume: 20 hL, assimilable nitrogen: 120 mg/L as nitrogen, " + ethanol_and_sugar,
                  "nutrient.nitrogen: {" + more + "}", "EU");
}

TEST(NutrientNitrogen, NeedIsThatOfTheWholeFermentation) {
  const auto step = fermenting("ethanol: 6 % vol, sugar: 121.1 g/L");
  EXPECT_NEAR(result(step, "nitrogen needed"), 0.9 * (121.1 + 6 * 16.83), 1e-6);
  ASSERT_EQ(step.outcome.additions.size(), 1u) << "a third of the sugar is gone";
  EXPECT_EQ(step.outcome.additions[0].when, "at once, and never after the middle of the fermentation");
  EXPECT_TRUE(noted(step, "all goes in as one"));
  const auto early = fermenting("ethanol: 2 % vol, sugar: 188 g/L");
  ASSERT_EQ(early.outcome.additions.size(), 2u);
  EXPECT_EQ(early.outcome.additions[0].when, "portion 1 of 2, at once: the fermentation has begun");
  const auto& rows = early.outcome.tables.at(0).rows;
  EXPECT_NEAR(std::get<double>(rows.at(1).at(3)), (188 + 2 * 16.83) * 2 / 3, 1e-6);
}

TEST(NutrientNitrogen, TooLateIsRefused) {
  const auto said = [](const std::string& lot) {
    return refusal("stage: must, volume: 20 hL, assimilable nitrogen: 120 mg/L as nitrogen, " + lot,
                   "nutrient.nitrogen: {}", "EU");
  };
  const auto late = said("ethanol: 7 % vol, sugar: 104 g/L");  // 117.8 g/L of 221.8 are gone
  EXPECT_TRUE(has(late, "53 % of the sugar is gone")) << late;
  EXPECT_TRUE(has(late, "leave this step out")) << late;
  // What needs nothing does not come too late, but for the thiamine.
  const std::string fed = "stage: must, volume: 20 hL, assimilable nitrogen: 210 mg/L as nitrogen, ethanol: 7 % vol, ";
  const auto enough = run_step(fed + "sugar: 104 g/L", "nutrient.nitrogen: {}", "EU");
  EXPECT_TRUE(enough.outcome.additions.empty());
  EXPECT_TRUE(enough.outcome.holds());
  EXPECT_TRUE(noted(enough, "enough already"));
  EXPECT_TRUE(has(refusal(fed + "sugar: 104 g/L", "nutrient.nitrogen: {thiamine: 0.5 mg/L}", "EU"), "is gone"));
  EXPECT_TRUE(has(said("ethanol: 3 % vol, soluble solids: 16 °Brix"), "does not read it beside alcohol"));
}

TEST(NutrientNitrogen, EachPortionSaysWhen) {
  const auto step =
      run_step(must + ", assimilable nitrogen: 130 mg/L as nitrogen", "nutrient.nitrogen: {thiamine: 0.5 mg/L}", "EU");
  ASSERT_EQ(step.outcome.additions.size(), 3u);
  EXPECT_EQ(step.outcome.additions[0].substance, "thiamine hydrochloride");
  EXPECT_EQ(step.outcome.additions[0].when, "with the yeast");
  EXPECT_TRUE(step.outcome.additions[1].when.starts_with("portion 1 of 2, when fermentation has begun"));
  EXPECT_TRUE(step.outcome.additions[2].when.starts_with("portion 2 of 2, when a third of the sugar is gone"));
}

// With the density to look for: about a third of the way down from the must's, near 1008 kg/m³ and 0.385 more for each
// g/L of sugar, to that of dry wine, 993.
TEST(NutrientNitrogen, ThePortionNamesTheDensityToLookFor) {
  for (const double sugar : {170.0, 200.0, 230.0}) {
    const auto step = run_step(
        fmt::format("stage: must, volume: 20 hL, assimilable nitrogen: 130 mg/L as nitrogen, sugar: {} g/L", sugar),
        "nutrient.nitrogen: {}", "EU");
    const auto& when = step.outcome.additions.at(1).when;
    const auto at = when.find("at a density of about ");
    ASSERT_NE(at, std::string::npos) << when;
    const double start = 1000 + 0.385 * sugar + 8, dry = 993;
    EXPECT_NEAR(std::stod(when.substr(at + 22)), start - (start - dry) / 3, 4) << when;
  }
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

// 24 g/L of sugar never let the density fall by 10 kg/m³ before a third of it is gone: one portion. The
// limit is on both salts: regulation (EC) 423/2008, Annex IV.
TEST(NutrientNitrogen, ASecondFermentationTakesOnePortion) {
  const std::string tirage =
      "stage: wine, class: sparkling, volume: 10 hL, ethanol: 10.5 % vol, sugar: 24 g/L, "
      "assimilable nitrogen: 10 mg/L as nitrogen";
  const auto step = run_step(tirage, "nutrient.nitrogen: {target nitrogen: 60 mg/L as nitrogen}", "EU");
  ASSERT_EQ(step.outcome.additions.size(), 1u);
  EXPECT_TRUE(has(step.outcome.additions[0].when, "with the yeast"));
  EXPECT_NEAR(result(run_step(tirage, "nutrient.nitrogen: {}", "EU"), "nitrogen needed"), 0.9 * 24, 1e-9);
  const auto sulfate =
      run_step(tirage, "nutrient.nitrogen: {target nitrogen: 80 mg/L as nitrogen, substance: ammonium sulfate}", "EU");
  EXPECT_TRUE(sulfate.outcome.additions.empty());
  EXPECT_NEAR(number(*check(sulfate, "ammonium salts limit")->limit), 0.3, 1e-12);
}

// A balance that shows 0.01 g cannot weigh two portions of 0.03 g apart.
TEST(NutrientNitrogen, NothingThatTheBalanceCannotShow) {
  const auto step = run_step("stage: must, volume: 0.05 L, sugar: 204 g/L, assimilable nitrogen: 130 mg/L as nitrogen",
                             "nutrient.nitrogen: {target nitrogen: 190 mg/L as nitrogen, thiamine: 0.5 mg/L}", "EU");
  EXPECT_TRUE(step.outcome.additions.empty());
  EXPECT_EQ(result(step, "dose"), 0);
  EXPECT_FALSE(check(step, "closing check: nitrogen for the fermentation")->holds);
  EXPECT_TRUE(has(check(step, "closing check: nitrogen for the fermentation")->remedy, "nothing was dosed"));
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

// The OIV has no figure for thiamine; a refused dose of nitrogen doses none either.
TEST(NutrientNitrogen, NothingWasDosedMeansNothing) {
  const auto step =
      run_step(must + ", assimilable nitrogen: 60 mg/L as nitrogen", "nutrient.nitrogen: {thiamine: 0.4 mg/L}", "OIV");
  EXPECT_TRUE(has(check(step, "diammonium phosphate limit")->remedy, "nothing was dosed"));
  EXPECT_TRUE(step.outcome.additions.empty());
  const auto fine =
      run_step(must + ", assimilable nitrogen: 150 mg/L as nitrogen", "nutrient.nitrogen: {thiamine: 0.4 mg/L}", "OIV");
  EXPECT_EQ(fine.outcome.additions.size(), 3u);
  EXPECT_TRUE(noted(fine, "no rule set of this recipe gives a limit for thiamine hydrochloride"));
}

// The list of organic wine-making has diammonium phosphate only (Implementing Regulation (EU) 203/2012, Annex
// VIIIa, from memory).
TEST(NutrientNitrogen, NotOnTheOrganicList) {
  const auto with = [](const std::string& substance) {
    return run_step(must + ", assimilable nitrogen: 130 mg/L as nitrogen",
                    "nutrient.nitrogen: {substance: " + substance + "}", "EU, EU organic");
  };
  EXPECT_EQ(with("diammonium phosphate").outcome.additions.size(), 2u);
  const auto sulfate = with("ammonium sulfate");
  EXPECT_TRUE(sulfate.outcome.additions.empty());
  EXPECT_TRUE(has(check(sulfate, "ammonium sulfate limit")->remedy, "take another nutrient"));
}

TEST(NutrientNitrogen, TooLittleThiamineIsNoDose) {
  const auto sheet = run("stage: must, volume: 10 L, sugar: 204 g/L, assimilable nitrogen: 130 mg/L as nitrogen",
                         {"nutrient.nitrogen: {thiamine: 0.4 mg/L}"}, "EU");
  EXPECT_FALSE(sheet.holds());
  EXPECT_EQ(weighed(sheet.steps[0], "thiamine hydrochloride"), 0);
  EXPECT_TRUE(has(check(sheet.steps[0], "closing check: thiamine")->remedy, "stock solution"));
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

// Held at what it was, what the lot was treated with comes out the same, thiamine too.
TEST(NutrientNitrogen, AHeldDoseIsKept) {
  const auto sheet = run(must + ", assimilable nitrogen: 130 mg/L as nitrogen, treated with: {PVPP: 20 g/hL}",
                         {"nutrient.nitrogen: {thiamine: 0.4 mg/L}"});
  const auto held = HeldStep(sheet.steps[0]).run();
  ASSERT_EQ(held.results.size(), sheet.steps[0].outcome.results.size());
  for (std::size_t i = 0; i < held.results.size(); ++i)
    EXPECT_NEAR(held.results[i].number, sheet.steps[0].outcome.results[i].number, 1e-12);
  ASSERT_EQ(held.raised.size(), 2u);
  for (const auto& [key, by, name] : held.raised) {
    EXPECT_EQ(key->name, lot::treated_with.name);
    EXPECT_NEAR(by * 100, treated(sheet, name), 1e-9) << name;
  }
  EXPECT_NEAR(treated(sheet, "PVPP"), 20, 1e-9);
}

}  // namespace nutrient_nitrogen_test
}  // namespace vatwright::test
