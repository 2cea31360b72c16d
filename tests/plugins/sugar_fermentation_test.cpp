// sugar.fermentation and sugar.extract, run by recipe.
#include "tests/plugins/run.hpp"

namespace vatwright::test {
namespace sugar_fermentation_test {

std::string step_of(const std::string& now, const std::string& more = {}) {
  return "sugar.fermentation: {original density: 1089.925 kg/m³, density: " + now + " kg/m³" + more + "}";
}

// A must of 22.0 °Brix, 16.83 g/L for 1 % vol: densities by Tabarié's relation, OIML R 22 and SPS-4,
// worked out apart from this program for 22 g/L of extract, where the must here has 22.9.
// Outside check of sugar.fermentation: 10 values within 1.5 g/L, 0.1 % vol, derived.
// Source: OIML R 22, SPS-4 and Tabarié, worked out apart from this program.
TEST(SugarFermentation, SugarLeftAndAlcohol) {
  constexpr struct {
    const char* density;
    double left, ethanol;
  } rows[] = {{"1058.34", 150, 4.03},
              {"1035.31", 100, 7.00},
              {"1012.46", 50, 9.97},
              {"998.83", 20, 11.75},
              {"994.29", 10, 12.35}};
  for (const auto& row : rows) {
    const auto step = run_step("stage: must", step_of(row.density));
    EXPECT_NEAR(result(step, "sugar"), row.left, 1.5) << row.density;
    EXPECT_NEAR(result(step, "ethanol"), row.ethanol, 0.1) << row.density;
    EXPECT_NEAR(result(step, "ethanol when dry"), 12.9, 0.06);
    EXPECT_NEAR(result(step, "density when dry"), 990.0, 0.5);
  }
}

TEST(SugarFermentation, ItsTwoEnds) {
  const auto start = run_step("stage: must", step_of("1089.925"));
  EXPECT_NEAR(result(start, "share fermented"), 0, 0.01);
  EXPECT_NEAR(result(start, "ethanol"), 0, 0.001);
  const auto end = run_step("stage: wine", step_of(std::to_string(result(start, "density when dry"))));
  EXPECT_NEAR(result(end, "share fermented"), 100, 0.001);
}

TEST(SugarFermentation, SaysThatItHasStopped) {
  const auto stuck = run_step("class: still, colour: pink", step_of("1010", ", density a day ago: 1010.3 kg/m³"), "EU");
  const auto* pace = check(stuck, "the fermentation moves");
  ASSERT_NE(pace, nullptr);
  EXPECT_FALSE(pace->holds);
  EXPECT_TRUE(has(pace->remedy, "has stopped with"));
  EXPECT_TRUE(noted(stuck, "pink wine is mostly made bone dry"));
  EXPECT_TRUE(
      check(run_step("stage: must", step_of("1010", ", density a day ago: 1019 kg/m³")), "the fermentation moves")
          ->holds);
  const auto done =
      run_step("stage: wine", step_of("990.1", ", density a day ago: 990.1 kg/m³, sugar by analysis: 1.1 g/L"));
  EXPECT_TRUE(check(done, "the fermentation moves")->holds);
  EXPECT_TRUE(noted(done, "has come to its end"));
  EXPECT_EQ(check(run_step("stage: must", step_of("1010")), "the fermentation moves"), nullptr);
}

// A lot is must before and during fermentation, wine after it.
TEST(SugarFermentation, AnEndedFermentationMakesItAWine) {
  const auto stage_after = [](const std::string& lot, const std::string& now, const std::string& more = {}) {
    const auto sheet = run(lot, {step_of(now, more)});
    const auto at = sheet.lots[0].after.find("stage");
    return at == sheet.lots[0].after.end() ? std::string() : at->second.word;
  };
  const std::string still = ", density a day ago: 990.2 kg/m³";
  EXPECT_EQ(stage_after("stage: must", "990.1", still), "wine");
  EXPECT_EQ(stage_after("class: still", "990.1", still), "wine");
  EXPECT_EQ(stage_after("stage: must", "991.5", ", sugar by analysis: 3.9 g/L"), "wine");
  EXPECT_EQ(stage_after("stage: must", "991.5", ", sugar by analysis: 4.1 g/L"), "must");
  EXPECT_EQ(stage_after("stage: must", "991", ", density a day ago: 993 kg/m³, sugar by analysis: 3 g/L"), "must");
  EXPECT_EQ(stage_after("stage: must", "990.1"), "must");
  EXPECT_EQ(stage_after("stage: must", "1010", ", density a day ago: 1010 kg/m³"), "must");
  const auto done = run_step("stage: must", step_of("990.1", still));
  EXPECT_TRUE(noted(done, "no more than 4 g/L of sugar is left"));
  EXPECT_TRUE(noted(done, "from here on the lot is a wine"));
  EXPECT_TRUE(noted(run_step("stage: must", step_of("990.1")), "a density alone cannot tell"));
  EXPECT_TRUE(noted(run_step("stage: must", step_of("1010", ", density a day ago: 1010 kg/m³")), "stays a must"));
  EXPECT_FALSE(noted(run_step("stage: must", step_of("1010", ", density a day ago: 1019 kg/m³")), "stays a must"));
}

// What the must was given of nitrogen is eaten by then, and a second fermentation counts anew.
TEST(SugarFermentation, ItsNitrogenIsEaten) {
  const std::string must =
      "stage: must, assimilable nitrogen: 180 mg/L as nitrogen, "
      "treated with: {diammonium phosphate: 0.6 g/L, tannin: 50 mg/L}";
  const auto after = [&](const std::string& more) { return run(must, {step_of("990.1", more)}).lots[0].after; };
  const auto wine = after(", density a day ago: 990.2 kg/m³");
  EXPECT_FALSE(wine.contains("assimilable nitrogen"));
  ASSERT_EQ(wine.at("treated with").amounts.size(), 1U);
  EXPECT_EQ(wine.at("treated with").amounts[0].first, "tannin");
  const auto still_must = after("");
  EXPECT_FALSE(still_must.contains("assimilable nitrogen")) << "it is as dry as a wine, whatever it is called";
  EXPECT_TRUE(after(", sugar by analysis: 40 g/L").contains("assimilable nitrogen"));
  EXPECT_EQ(still_must.at("treated with").amounts.size(), 2U);
}

// The limits of wine hold in the steps that follow: 1 g/L of acidity taken away in the EU, for example
// (Regulation (EU) No 1308/2013, Annex VIII, from memory), which a must does not have.
TEST(SugarFermentation, TheLimitsOfWineFollow) {
  const auto sheet =
      run("class: still, colour: white, stage: must, zone: B, volume: 20 hL, density: 990 kg/m³, pH: 3.05, "
          "titratable acidity: 9 g/L as tartaric acid, malic acid: 3 g/L",
          {step_of("990", ", sugar by analysis: 2 g/L"),
           "acid.reduction: {target titratable acidity: 6 g/L as tartaric acid}"},
          "EU");
  ASSERT_NE(check(sheet.steps[1], "removed acidity limit"), nullptr);
  EXPECT_FALSE(check(sheet.steps[1], "removed acidity limit")->holds);
}

// OIML R 22: 12 % vol weighs 982.355 kg/m³ at 20 °C and 980.934 at 25 °C. What is dissolved beside it
// takes 0.1 kg/m³ more away at 25 °C by SPS-4 (derived).
TEST(SugarFermentation, ADensityReadElsewhereIsCorrectedOrSpokenOf) {
  const auto at_20 = run_step("stage: must", step_of("998.83"));
  const auto same = run("stage: must, temperature: 25 °C", {step_of("997.35", ", instrument: density meter")});
  EXPECT_NEAR(result(same.steps[0], "sugar"), result(at_20, "sugar"), 0.6);
  EXPECT_NEAR(after(same, "density", "kg/m³"), 998.83, 0.2);
  const auto silent = run_step("stage: must, temperature: 28 °C", step_of("991"));
  EXPECT_TRUE(noted(silent, "the lot is at 28.0 °C, and its density was taken as one that is for 20 °C"));
  EXPECT_TRUE(noted(silent, "more sugar"));
  EXPECT_FALSE(
      noted(run_step("stage: must, temperature: 28 °C", step_of("991", ", instrument: corrected")), "the lot is at"));
  EXPECT_FALSE(noted(run_step("stage: must, temperature: 21 °C", step_of("991")), "the lot is at"));
  // Where no correction is known, or it leads above the original density, the sheet says that much.
  for (const auto& [t, density] : {std::pair{"45", "1010"}, {"-3", "1010"}, {"28", "1089.9"}})
    EXPECT_TRUE(noted(run_step("stage: must, temperature: " + std::string(t) + " °C", step_of(density)),
                      "bring a sample to 20 °C"))
        << t;
  EXPECT_TRUE(has(refusal("stage: must, temperature: 28 °C", step_of("991", ", instrument: refractometer")),
                  "a refractometer gives no density"));
}

// A must that does not ferment yet grows as the sucrose solution that it is taken for: 20 °Brix weighs
// 1082.38 at 15 °C by SPS-4.
TEST(SugarFermentation, AMustIsCorrectedAsSucrose) {
  const auto start = run("stage: must, temperature: 15 °C",
                         {"sugar.fermentation: {original density: 1080.977 kg/m³, density: 1082.38 kg/m³, instrument: "
                          "density meter}"});
  EXPECT_NEAR(after(start, "density", "kg/m³"), 1080.977, 0.02);
}

// OIV labelling standard, 3.1.6: dry up to 4 g/L, or 9 with an acidity at most 2 g/L below the sugar;
// medium dry up to 12, or 18 with at most 10 between; then up to 45; sweet from 45.
TEST(SugarFermentation, TermsOfStillWine) {
  const auto term = [](const std::string& sugar, const std::string& acidity, const std::string& word,
                       const std::string& rules) {
    const auto step = run_step("class: still, titratable acidity: " + acidity + " g/L as tartaric acid",
                               step_of("1000", ", sugar by analysis: " + sugar + " g/L"), rules);
    EXPECT_TRUE(noted(step, "(still): '" + word + "' at")) << sugar << " with " << acidity << ", " << rules;
  };
  for (const char* rules : {"OIV", "EU"}) {
    const std::string third = std::string(rules) == "EU" ? "medium" : "semi-sweet";
    term("4", "3", "dry", rules);
    term("4.1", "2", "medium dry", rules);
    term("8", "6", "dry", rules);
    term("8", "5.9", "medium dry", rules);
    term("9", "7", "dry", rules);
    term("9.1", "9", "medium dry", rules);
    term("12", "1.9", "medium dry", rules);
    term("18", "8", "medium dry", rules);
    term("18", "7.9", third, rules);
    term("44", "6", third, rules);
    term("46", "6", "sweet", rules);
  }
}

// Regulation (EC) No 607/2009, Annex XIV.
TEST(SugarFermentation, TermsOfSparklingWineOverlap) {
  const auto step_at = [](const std::string& sugar) {
    return run_step("class: sparkling", step_of("1000", ", sugar by analysis: " + sugar + " g/L"), "EU");
  };
  const auto low = step_at("2.9");
  EXPECT_TRUE(noted(low, "'brut nature' (no sugar added after the second fermentation) at"));
  EXPECT_TRUE(noted(low, "within the figures of 'extra brut', 'brut' too"));
  EXPECT_TRUE(noted(step_at("3"), "'extra brut' at"));
  EXPECT_TRUE(noted(step_at("11.9"), "'brut' at"));
  EXPECT_TRUE(noted(step_at("12"), "'extra dry' at"));
  EXPECT_TRUE(noted(step_at("33"), "'medium dry (demi-sec)' at"));
  EXPECT_TRUE(noted(step_at("50.1"), "'sweet (doux)' at"));
}

TEST(SugarFermentation, SaysWhatTheTermHangsOn) {
  const std::string eight = step_of("1000", ", sugar by analysis: 8 g/L");
  EXPECT_TRUE(noted(run_step("class: still", eight, "EU"), "hangs on the titratable acidity"));
  EXPECT_TRUE(noted(run_step("stage: wine", eight, "EU"), "does not say its class"));
  EXPECT_TRUE(noted(run_step("class: still", eight, "US"), "no rule set of this recipe gives sweetness terms"));
  EXPECT_TRUE(noted(run_step("class: still", eight), "no rule set of this recipe gives sweetness terms"));
}

TEST(SugarFermentation, TheMeasuredSugarGoesFirst) {
  const auto sheet = run("soluble solids: 21 °Brix", {step_of("996", ", sugar by analysis: 30 g/L")});
  EXPECT_NEAR(result(sheet.steps[0], "sugar"), 30, 1e-9);
  ASSERT_NE(opinion(sheet.steps[0], "sugar left by density"), nullptr);
  EXPECT_TRUE(opinion(sheet.steps[0], "sugar left by density")->matters);
  EXPECT_NEAR(after(sheet, "sugar", "g/L"), 30, 1e-9);
  EXPECT_NEAR(after(sheet, "density", "kg/m³"), 996, 1e-9);
  EXPECT_FALSE(sheet.lots[0].after.contains("soluble solids"));
}

TEST(SugarFermentation, RefusesWhatCannotBe) {
  EXPECT_TRUE(has(refusal("stage: must", step_of("1100")), "above the original one"));
  EXPECT_TRUE(has(refusal("stage: must", step_of("975")), "is below that of"));
  EXPECT_TRUE(
      has(refusal("stage: must", step_of("1010", ", density a day ago: 1005 kg/m³")), "has risen since yesterday"));
  EXPECT_TRUE(has(refusal("stage: must", step_of("1010", ", sugar by analysis: 250 g/L")), "more than the must had"));
}

// --- extract

// Tabarié's relation with OIML R 22 and SPS-4, worked out apart from this program.
// Outside check of sugar.extract: 6 values within 0.03 g/L, derived.
// Source: OIML R 22, SPS-4 and Tabarié, worked out apart from this program.
TEST(SugarExtract, TotalDryExtract) {
  constexpr struct {
    const char *density, *ethanol;
    double extract;
  } rows[] = {{"0.99200", "12.0", 25.02}, {"0.99050", "12.5", 22.62}, {"0.99300", "13.0", 30.59},
              {"0.99500", "11.0", 29.78}, {"1.00000", "12.0", 45.80}, {"1.02000", "14.0", 103.83}};
  for (const auto& row : rows) {
    const auto step =
        run_step("density: " + std::string(row.density) + " g/mL, ethanol: " + row.ethanol + " % vol", "sugar.extract");
    EXPECT_NEAR(result(step, "total dry extract"), row.extract, 0.03) << row.density;
  }
}

// OIV-MA-AS2-03B: sugar-free is total less sugars; reduced leaves 1 g/L of them in; residual takes the
// fixed acidity as tartaric acid off. 1 meq of tartaric acid is 75.04 mg, of acetic acid 60.05 mg.
TEST(SugarExtract, ItsParts) {
  const auto step = run_step(
      "density: 0.99200 g/mL, ethanol: 12 % vol, sugar: 3 g/L, titratable acidity: 6 g/L as tartaric "
      "acid, volatile acidity: 0.3 g/L as acetic acid",
      "sugar.extract");
  const double total = result(step, "total dry extract");
  EXPECT_NEAR(total, 25.02 - 0.3 / 0.06005 * 0.0086 * 2.6, 0.03);
  EXPECT_NEAR(result(step, "sugar-free extract"), total - 3, 1e-9);
  EXPECT_NEAR(result(step, "reduced extract"), total - 2, 1e-9);
  EXPECT_NEAR(result(step, "residual extract"), total - 3 - (6 - 0.3 * 75.04 / 60.05), 0.001);
}

TEST(SugarExtract, RefusesWhatCannotBe) {
  EXPECT_TRUE(has(refusal("density: 0.980 g/mL, ethanol: 12 % vol", "sugar.extract"), "of alcohol alone"));
  EXPECT_TRUE(has(refusal("density: 0.992 g/mL, ethanol: 12 % vol, sugar: 40 g/L", "sugar.extract"),
                  "of which the sugar is a part"));
  EXPECT_TRUE(
      has(refusal("density: 0.984 g/mL, ethanol: 12 % vol, sugar: 1 g/L, titratable acidity: 6 g/L as tartaric acid, "
                  "volatile acidity: 0.3 g/L as acetic acid",
                  "sugar.extract"),
          "more than the sugar-free extract"));
}

}  // namespace sugar_fermentation_test
}  // namespace vatwright::test
