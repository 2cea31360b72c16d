// acid.addition, run by recipe: what is weighed, what follows, what is refused.
#include "tests/plugins/run.hpp"

#include <fmt/format.h>

#include <cmath>

namespace vatwright::test {
namespace acid_addition_test {

const std::string pink_wine =
    "pH: 3.42, titratable acidity: 5.1 g/L as tartaric acid, ethanol: 12.6 % vol, stage: wine, "
    "potassium: 980 mg/L, tartaric acid: 2.1 g/L, malic acid: 1.4 g/L";
const std::string pink = "volume: 48 hL, " + pink_wine;

double kilograms(const StepSheet& step) { return step.outcome.additions.at(0).mass.value().value(); }

// Equivalent masses from the abridged atomic weights of IUPAC CIAAW 2021, g/eq.
constexpr double h = 1.008, c = 12.011, o = 15.999;
constexpr double tartaric = (4 * c + 6 * h + 6 * o) / 2, malic = (4 * c + 6 * h + 5 * o) / 2,
                 lactic = 3 * c + 6 * h + 3 * o, citric = (6 * c + 8 * h + 7 * o) / 3;

TEST(AcidAddition, ToAPh) {
  const auto sheet = run(pink, {"acid.addition: {target pH: 3.30}"});
  const auto& step = sheet.steps.at(0);
  EXPECT_TRUE(sheet.holds());
  EXPECT_NEAR(result(step, "pH"), 3.30, 0.002);
  EXPECT_NEAR(after(sheet, "pH", "pH"), result(step, "pH"), 1e-12);
  EXPECT_NEAR(kilograms(step), result(step, "dose") * 4.8, 1e-9);
  // All of it is titrated before pH 7 but for a trace (the property the trade's rule rests on).
  EXPECT_NEAR(result(step, "titratable acidity"), 5.1 + result(step, "dose"), 0.01);
  EXPECT_NEAR(after(sheet, "tartaric acid", "g/L"), 2.1 + result(step, "dose"), 1e-9);
  EXPECT_FALSE(step.added.at(0)->cautions.empty());
}

// One gram a litre of each acid raises the acidity by the ratio of the equivalent masses: arithmetic
// from atomic weights. A fourteenth of the third function of citric acid (pK 6.4) titrates beyond pH 7.
TEST(AcidAddition, ToAnAcidityWithEachAcid) {
  const struct {
    std::string substance;
    double equivalent_mass, in_product;
    const char* key;
  } rows[] = {{"tartaric acid", tartaric, 1, "tartaric acid"},
              {"malic acid", malic, 1, "malic acid"},
              {"lactic acid, strength: 80 % mass", lactic, 0.8, "lactic acid"},
              {"citric acid", citric, 1, "citric acid"},
              {"citric acid monohydrate", citric, 3 * citric / (3 * citric + 2 * h + o), "citric acid"}};
  for (const auto& row : rows) {
    const auto sheet =
        run(pink + ", lactic acid: 0.2 g/L, citric acid: 0.1 g/L",
            {"acid.addition: {target titratable acidity: 6.1 g/L as tartaric acid, substance: " + row.substance + "}"});
    const auto& step = sheet.steps.at(0);
    EXPECT_TRUE(sheet.holds()) << row.substance;
    EXPECT_NEAR(result(step, "dose"), row.equivalent_mass / tartaric, row.equivalent_mass == citric ? 0.03 : 0.015)
        << row.substance;
    EXPECT_NEAR(kilograms(step), result(step, "dose") * 4.8 / row.in_product, 1e-6) << row.substance;
    EXPECT_NEAR(result(step, "titratable acidity"), 6.1, 0.01) << row.substance;
    EXPECT_LT(result(step, "pH"), 3.42) << row.substance;
  }
}

TEST(AcidAddition, RulesOfThumbStandBeside) {
  const auto step = run_step(pink, "acid.addition: {target titratable acidity: 6.1 g/L as tartaric acid}");
  const auto* acidity = opinion(step, "titratable acidity by the rule");
  const auto* ph = opinion(step, "pH by the rule");
  ASSERT_NE(acidity, nullptr);
  ASSERT_NE(ph, nullptr);
  EXPECT_NEAR(number(acidity->there), 6.1, 0.01);
  EXPECT_FALSE(acidity->matters);
  EXPECT_NEAR(number(ph->there), 3.42 - 0.1 * result(step, "dose"), 1e-9);
}

// Below the mean of tartaric acid's two constants bitartrate takes the pH down, above it up; in wine that is near pH
// 3.6 to 3.8 (Handbook of Enology, vol. 2).
TEST(AcidAddition, WarnsOfBitartrate) {
  const auto low = run_step(pink, "acid.addition: {target pH: 3.30}");
  EXPECT_TRUE(noted(low, "potassium bitartrate may fall out"));
  const auto& rows = named(low.outcome.tables, "If potassium bitartrate")->rows;
  ASSERT_EQ(rows.size(), 4u);
  EXPECT_LT(std::get<double>(rows[3][1]), std::get<double>(rows[0][1]));
  EXPECT_LT(std::get<double>(rows[3][2]), std::get<double>(rows[0][2]));
  const auto high = run_step(
      "volume: 10 hL, pH: 4.3, titratable acidity: 3.0 g/L as tartaric acid, stage: wine, tartaric acid: 1.5 g/L",
      "acid.addition: {target pH: 4.20}");
  const auto& above = (*named(high.outcome.tables, "If potassium bitartrate")).rows;
  EXPECT_GT(std::get<double>(above[2][1]), std::get<double>(above[0][1]));
  EXPECT_TRUE(noted(low, "and the pH falls further (predicted pH 3.30; it would stand still at pH 3.")) << "low";
  EXPECT_TRUE(noted(high, "and the pH rises (predicted pH 4.20; it would stand still at pH 3.")) << "high";
}

// Ethanol raises both constants of tartaric acid, by 0.13 and 0.15 for 10 % vol (from memory), and their mean with
// them: in water it lies at pH 3.6 (3.036 and 4.366, CRC Handbook, less the activities), in a wine of 15 % vol at
// 3.8. Half way between, the same pH falls in the one and rises in the other.
TEST(AcidAddition, ThePhThatBitartrateLeavesAloneMovesWithEthanol) {
  const std::string lot = "volume: 10 hL, titratable acidity: 5 g/L as tartaric acid, tartaric acid: 2 g/L, pH: 3.8, ";
  const std::string step = "acid.addition: {target pH: 3.70}";
  EXPECT_TRUE(noted(run_step(lot + "stage: must", step), "and the pH rises (predicted pH 3.70"));
  EXPECT_TRUE(
      noted(run_step(lot + "stage: wine, ethanol: 15 % vol", step), "and the pH falls further (predicted pH 3.70"));
  const std::string none = "volume: 10 hL, titratable acidity: 5 g/L as tartaric acid, tartaric acid: 0 g/L, pH: 3.8";
  EXPECT_FALSE(noted(run_step(none, "acid.addition: {target pH: 3.70, substance: malic acid}"), "bitartrate"));
}

TEST(AcidAddition, ATargetOutOfReachNamesTheNearest) {
  const auto said = refusal(pink, "acid.addition: {target pH: 2.0}", "EU");
  EXPECT_TRUE(has(said, "pH 2.00 cannot be reached with tartaric acid")) << said;
  EXPECT_TRUE(has(said, "the nearest that can be is pH 2.")) << said;
  EXPECT_TRUE(has(said, "the limits allow at most 3.99 g/L of tartaric acid, which gives pH ")) << said;
  EXPECT_TRUE(has(refusal(pink, "acid.addition"), "none is given"));
}

// 4 g/L as tartaric acid in the EU (from memory), 54 meq/L = 4.05 g/L by the OIV's code: what was added before
// counts. Nothing is dosed beyond, and what is named as allowed is allowed.
TEST(AcidAddition, TheLawStandsInTheWay) {
  const std::string step = "acid.addition: {target titratable acidity: ";
  // The law's own figure is allowed, whatever the lot, and with whatever acid.
  for (const double hectolitres : {0.5, 4.7, 45.7, 48.0, 313.0})
    for (const std::string acid : {"tartaric acid", "malic acid", "lactic acid, strength: 80 % mass"})
      EXPECT_TRUE(run(pink_wine + fmt::format(", volume: {} hL", hectolitres),
                      {step + "9.1 g/L as tartaric acid, substance: " + acid + "}"}, "EU")
                      .holds())
          << hectolitres << " hL, " << acid;
  const auto over = run_step(pink, step + "9.2 g/L as tartaric acid}", "EU");
  EXPECT_TRUE(over.outcome.additions.empty());
  EXPECT_EQ(result(over, "dose"), 0);
  ASSERT_NE(check(over, "added acidity limit, EU"), nullptr);
  EXPECT_FALSE(check(over, "added acidity limit, EU")->holds);
  EXPECT_TRUE(has(check(over, "added acidity limit, EU")->remedy, "the limits allow at most 3.99 g/L"));
  EXPECT_TRUE(run(pink, {step + "9.13 g/L as tartaric acid}"}, "OIV").holds());
  EXPECT_FALSE(run(pink, {step + "9.2 g/L as tartaric acid}"}, "OIV").holds());
  EXPECT_FALSE(run(pink + ", acid added: 2 g/L as tartaric acid", {step + "7.2 g/L as tartaric acid}"}, "EU").holds());
  EXPECT_TRUE(run(pink + ", acid added: 2 g/L as tartaric acid", {step + "7.0 g/L as tartaric acid}"}, "EU").holds());
}

// Acid and deacidification of one wine exclude each other (OIV Code; regulation (EU) 1308/2013, from memory):
// the lot keeps what was done to it, whichever comes first.
TEST(AcidAddition, NothingIsAddedToWhatWasDeacidified) {
  const std::string add = "acid.addition: {target pH: 3.30}";
  const std::string reduce = "acid.reduction: {target titratable acidity: 4.7 g/L as tartaric acid}";
  const auto up_after_down = run(pink, {reduce, add}, "OIV");
  ASSERT_FALSE(up_after_down.steps[0].outcome.additions.empty());
  EXPECT_TRUE(up_after_down.steps[1].outcome.additions.empty());
  EXPECT_FALSE(check(up_after_down.steps[1], "acid removed before acidification limit")->holds);
  const auto down_after_up = run(pink, {add, reduce}, "EU");
  ASSERT_FALSE(down_after_up.steps[0].outcome.additions.empty());
  EXPECT_TRUE(down_after_up.steps[1].outcome.additions.empty());
  EXPECT_FALSE(check(down_after_up.steps[1], "acid added before deacidification limit")->holds);
  // No rule set, no such law; two additions in a row are one for the limit.
  EXPECT_FALSE(run(pink, {reduce, add}).steps[1].outcome.additions.empty());
  const auto twice = run(pink,
                         {"acid.addition: {target titratable acidity: 7.1 g/L as tartaric acid}",
                          "acid.addition: {target titratable acidity: 9.2 g/L as tartaric acid}"},
                         "EU");
  EXPECT_FALSE(check(twice.steps[1], "added acidity limit")->holds);
}

// 27 CFR 24.182 (from memory): 9.0 g/L of fixed acidity after the addition.
// Outside check of acid.addition: 1 value within 2 %, from either side, from memory.
// Source: 27 CFR 24.182.
TEST(AcidAddition, FixedAcidityInTheUnitedStates) {
  const std::string step = "acid.addition: {target titratable acidity: ", lot = pink + ", sugar: 2 g/L";
  EXPECT_FALSE(run(lot, {step + "9.2 g/L as tartaric acid}"}, "US").holds());
  EXPECT_TRUE(
      run(lot + ", volatile acidity: 0.3 g/L as acetic acid", {step + "9.2 g/L as tartaric acid}"}, "US").holds());
}

// 1 g/L in the wine (Regulation (EC) 643/2006, Annex I; OIV Code, Annex). Of must neither the OIV's chapter
// (II.2.1.3.1.1), nor the EU (SSI 2024/11, row 1.10), nor the US (27 CFR 24.182(b)) names citric acid.
TEST(AcidAddition, CitricAcidHasItsOwnLimit) {
  const std::string citric_step =
      "acid.addition: {substance: citric acid, target titratable acidity: 5.9 g/L as tartaric acid}";
  EXPECT_TRUE(run(pink + ", citric acid: 0.2 g/L", {citric_step}, "EU").holds());
  EXPECT_FALSE(run(pink + ", citric acid: 0.5 g/L", {citric_step}, "EU").holds());
  const std::string must = "volume: 10 hL, pH: 3.6, titratable acidity: 5.1 g/L as tartaric acid, stage: must";
  for (const std::string rules : {"EU", "OIV", "US"}) {
    SCOPED_TRACE(rules);
    const auto step = run_step(must, citric_step, rules);
    EXPECT_TRUE(step.outcome.additions.empty());
    const auto* law = check(step, "citric acid to acidify, " + rules);
    ASSERT_NE(law, nullptr);
    EXPECT_FALSE(law->holds);
    EXPECT_TRUE(has(law->remedy, "Say another 'substance'")) << law->remedy;
  }
}

// 1 g/L: Regulation (EC) 643/2006, Annex I; 0.7 g/L: 27 CFR 24.246 (2015). Each dose keeps it, both do not.
TEST(AcidAddition, CitricAcidAddsUp) {
  const auto to = [](const std::string& acidity, const std::string& substance = "citric acid") {
    return "acid.addition: {substance: " + substance + ", target titratable acidity: " + acidity +
           " g/L as tartaric acid}";
  };
  struct Twice {
    const char *rules, *first, *second;
    double limit;
  };
  for (const auto& [rules, first, second, limit] : {Twice{"EU", "5.7", "6.3", 1}, Twice{"US", "5.55", "6.0", 0.7}})
    for (const std::string substance : {"citric acid", "citric acid monohydrate"}) {
      const auto sheet = run(pink, {to(first), to(second, substance)}, rules);
      EXPECT_TRUE(sheet.steps[0].outcome.holds()) << rules;
      EXPECT_TRUE(noted(sheet.steps[0], "against what was added alone")) << rules;
      EXPECT_TRUE(noted(sheet.steps[0], "treated with: none is counted")) << rules;
      const double given = result(sheet.steps[0], "dose");
      EXPECT_LT(given, limit) << rules;
      EXPECT_TRUE(sheet.steps[1].outcome.additions.empty()) << rules;
      EXPECT_EQ(result(sheet.steps[1], "dose"), 0) << rules;
      const auto* law = check(sheet.steps[1], std::string("citric acid limit, ") + rules);
      ASSERT_NE(law, nullptr) << rules;
      EXPECT_FALSE(law->holds) << rules;
      EXPECT_LT(number(*law->value) - given, limit) << rules << ": the second alone keeps it";
      EXPECT_TRUE(
          has(law->remedy, fmt::format("at most {:.2f} g/L of citric acid", std::floor((limit - given) * 100) / 100)))
          << law->remedy;
    }
}

// A content that is stated holds what was added: it is not counted again.
TEST(AcidAddition, CitricAcidIsCountedOnce) {
  const auto to = [](const std::string& acidity) {
    return "acid.addition: {substance: citric acid, target titratable acidity: " + acidity + " g/L as tartaric acid}";
  };
  const auto sheet = run(pink + ", citric acid: 0.15 g/L", {to("5.5"), to("5.9")}, "EU");
  const double given = result(sheet.steps[0], "dose") + result(sheet.steps[1], "dose");
  EXPECT_TRUE(sheet.holds());
  EXPECT_GT(0.15 + 2 * given, 1) << "else the test would not tell";
  EXPECT_NEAR(after(sheet, "citric acid", "g/L"), 0.15 + given, 1e-9);
  EXPECT_NEAR(number(*check(sheet.steps[1], "citric acid limit, EU")->value), 0.15 + given, 1e-9);
  const auto& books = sheet.lots.at(0).after.at("treated with").amounts;
  ASSERT_EQ(books.size(), 1u);
  EXPECT_EQ(books[0].first, "citric acid");
  EXPECT_NEAR(books[0].second, given, 1e-9);
  // What was measured counts, whatever the books say.
  EXPECT_TRUE(run(pink + ", citric acid: 0.15 g/L, treated with: {citric acid: 0.9 g/L}", {to("5.5")}, "EU").holds());
  EXPECT_FALSE(run(pink + ", treated with: {citric acid: 0.9 g/L}", {to("5.5")}, "EU").holds());
}

// Acidification and enrichment of one product shut each other out (Regulation (EU) 1308/2013, Annex VIII, Part I, C,
// from memory). A lot that says nothing of what was done to it before is held to none, and the sheet says so.
TEST(AcidAddition, NothingIsAddedToWhatWasEnriched) {
  const std::string step = "acid.addition: {target pH: 3.30}";
  const auto enriched = run_step(pink + ", strength gained: 1 % vol", step, "EU");
  EXPECT_TRUE(enriched.outcome.additions.empty());
  EXPECT_FALSE(check(enriched, "enriched before acidification limit, EU")->holds);
  EXPECT_FALSE(noted(enriched, "strength gained:"));
  EXPECT_FALSE(run_step(pink + ", strength gained: 1 % vol", step, "OIV").outcome.additions.empty());
  EXPECT_TRUE(noted(run_step(pink, step, "EU"), "does not state acid added, acid removed, strength gained: none is"));
  EXPECT_TRUE(noted(run_step(pink + ", acid added: 0 g/L as tartaric acid, strength gained: 0 % vol", step, "EU"),
                    "does not state acid removed: none is"));
}

// The constants go as far as 20 % vol (24.5 % vol is 20 % mass, where the table of the permittivity ends).
TEST(AcidAddition, EndsAtTwentyPercentByVolume) {
  const std::string lot = "volume: 10 hL, pH: 3.6, titratable acidity: 5 g/L as tartaric acid, ethanol: ";
  EXPECT_EQ(refusal(lot + "20 % vol", "acid.addition: {target pH: 3.5}"), "");
  for (const std::string strength : {"20.1", "24", "40"}) {
    const auto said = refusal(lot + strength + " % vol", "acid.addition: {target pH: 3.5}");
    EXPECT_TRUE(has(said, "known here from 0 to 20 % vol, not at " + strength)) << said;
    EXPECT_TRUE(has(said, "reckon before spirit is added")) << said;
  }
}

TEST(AcidAddition, SaysWhichConstantsRan) {
  EXPECT_TRUE(noted(run_step(pink, "acid.addition: {target pH: 3.3}"), "after Prenesti 2012: measured for lactic"));
  EXPECT_TRUE(noted(run_step(pink, "acid.addition: {target pH: 3.3}"), "Eden and Bates 1959"));
}

TEST(AcidAddition, StrengthBelongsToASolutionAlone) {
  EXPECT_TRUE(has(refusal(pink, "acid.addition: {target pH: 3.3, substance: lactic acid}"), "needs its strength"));
  EXPECT_TRUE(has(refusal(pink, "acid.addition: {target pH: 3.3, strength: 80 % mass}"), "is a solid"));
}

TEST(AcidAddition, MeasurementsThatCannotBeTogether) {
  const auto said = refusal("volume: 10 hL, pH: 3.3, titratable acidity: 4 g/L as tartaric acid, tartaric acid: 9 g/L",
                            "acid.addition: {target pH: 3.2}");
  EXPECT_TRUE(has(said, "cannot be together")) << said;
}

// The lot's pH feeds the next step: less sulfite for the same molecular level.
TEST(AcidAddition, SavesSulfite) {
  const std::string lot = pink + ", free SO2: 14 mg/L, total SO2: 62 mg/L, sugar: 1.8 g/L";
  const std::string sulfite = "sulfite.addition: {target molecular SO2: 0.6 mg/L, free share: 60 %}";
  const auto plain = run(lot, {sulfite});
  const auto acidified = run(lot, {"acid.addition: {target pH: 3.30}", sulfite});
  const double ph = result(acidified.steps.at(0), "pH");
  const auto added = [](double at) { return (0.6 * (1 + std::pow(10, at - 1.81)) - 14) / 0.6; };
  EXPECT_NEAR(result(plain.steps.at(0), "added SO2"), added(3.42), 0.1);
  EXPECT_NEAR(result(acidified.steps.at(1), "added SO2"), added(ph), 0.1);
  EXPECT_LT(added(ph), added(3.42) - 8);
}

// What the model cannot reckon is not called chemically out of reach: the figures that end it are named.
TEST(AcidAddition, SaysWhereTheModelEnds) {
  const auto said = refusal("volume: 1000 L, pH: 3.6, titratable acidity: 14 g/L as tartaric acid, stage: wine",
                            "acid.addition: {target pH: 3.4}");
  EXPECT_TRUE(has(said, "pH 3.40 cannot be reckoned with tartaric acid")) << said;
  EXPECT_TRUE(has(said, "14.0 g/L as tartaric acid at pH 3.60 is much already")) << said;
}

}  // namespace acid_addition_test
}  // namespace vatwright::test
