// sulfite.molecular, run by recipe: both models of pK1, a pK1 of one's own, the aside, the law.
#include "tests/plugins/run.hpp"

#include <cmath>

namespace vatwright::test {
namespace molecular_test {

std::string lot_at(const std::string& ph, const std::string& more) { return "pH: " + ph + ", " + more; }

// pK1 1.81 (common practice, no source). Shares derived, four decimals of a per cent; free sulfur
// dioxide that holds 0.8 mg/L, derived, to 0.01 mg/L.
// Outside check of sulfite.molecular: 24 values within 0.00006 % and 0.0005 mg/L, derived.
// Source: pK1 1.81, worked out apart from this program.
TEST(SulfiteMolecular, TheTradesConstant) {
  constexpr struct {
    const char* ph;
    double percent;
    const char* free;
  } rows[] = {{"2.9", 7.5173, "10.64"}, {"3.0", 6.0650, "13.19"}, {"3.1", 4.8784, "16.40"}, {"3.2", 3.9143, "20.44"},
              {"3.3", 3.1345, "25.52"}, {"3.4", 2.5060, "31.92"}, {"3.5", 2.0009, "39.98"}, {"3.6", 1.5959, "50.13"},
              {"3.7", 1.2719, "62.90"}, {"3.8", 1.0129, "78.98"}, {"3.9", 0.8063, "99.22"}, {"4.0", 0.6415, "124.71"}};
  for (const auto& row : rows) {
    const auto step = run_step(lot_at(row.ph, std::string("free SO2: ") + row.free + " mg/L"), "sulfite.molecular");
    EXPECT_DOUBLE_EQ(result(step, "pK1"), 1.81);
    EXPECT_NEAR(result(step, "molecular share"), row.percent, 0.00006) << "pH " << row.ph;
    EXPECT_NEAR(result(step, "molecular SO2"), 0.8, 0.0005) << "pH " << row.ph;
  }
}

// OIV-MA-AS323-04C, Table I along its columns at 12 % vol, less a straight line for the ionic term:
// derived apart from the Debye-Hückel formula of the program, from which it differs by up to 0.003.
// Outside check of sulfite.molecular: 8 values within 0.003 of pK1, derived.
// Source: OIV-MA-AS323-04C, table I, worked out apart from this program.
TEST(SulfiteMolecular, TheOivModel) {
  constexpr double apart = 0.003;
  constexpr struct {
    const char* temperature;
    const char* ph;
    double pk1, percent;
  } rows[] = {{"20 °C", "3.30", 1.9550, 4.323},
              {"20 °C", "3.50", 1.9550, 2.772},
              {"25 °C", "3.30", 2.1564, 6.703},
              {"30 °C", "3.30", 2.3548, 10.189}};
  for (const auto& row : rows) {
    const auto step =
        run_step(lot_at(row.ph, std::string("free SO2: 25 mg/L, ethanol: 12 % vol, temperature: ") + row.temperature),
                 "sulfite.molecular: {model: OIV}");
    EXPECT_NEAR(result(step, "pK1"), row.pk1, apart) << row.temperature;
    EXPECT_NEAR(result(step, "molecular share"), row.percent, 2.303 * apart * row.percent) << row.temperature;
    EXPECT_NEAR(result(step, "molecular SO2"), 0.25 * result(step, "molecular share"), 1e-9);
    const auto* constant = opinion(step, "molecular SO2 by the trade's constant");
    ASSERT_NE(constant, nullptr);
    EXPECT_NEAR(number(constant->there), 25 / (1 + std::pow(10, std::stod(row.ph) - 1.81)), 1e-9);
    EXPECT_EQ(constant->matters, std::string_view(row.temperature) == "30 °C");  // further apart than they usually are
  }
}

TEST(SulfiteMolecular, APk1OfOnesOwnOverridesTheModel) {
  const auto step = run_step("pH: 3.50, free SO2: 25 mg/L", "sulfite.molecular: {pK1: 2.50, model: OIV}");
  EXPECT_DOUBLE_EQ(result(step, "pK1"), 2.5);
  EXPECT_NEAR(result(step, "molecular SO2"), 25.0 / 11, 1e-9);
  EXPECT_NE(opinion(step, "molecular SO2 by the trade's constant"), nullptr);
  EXPECT_NE(opinion(step, "molecular SO2 by OIV-MA-AS323-04C"), nullptr);
  EXPECT_TRUE(noted(step, "2 mg/L of molecular SO2 or more"));
}

TEST(SulfiteMolecular, ShowsTheModelThatDidNotRun) {
  const auto step = run_step("pH: 3.50, free SO2: 25 mg/L, ethanol: 12 % vol, temperature: 20 °C", "sulfite.molecular");
  ASSERT_EQ(step.outcome.opinions.size(), 1u);
  const auto& oiv = step.outcome.opinions.front();
  EXPECT_TRUE(has(oiv.name, "OIV-MA-AS323-04C at 12.0 % vol and 20.0 °C")) << oiv.name;
  EXPECT_NEAR(number(oiv.there), 0.25 * 2.772, 0.005);
  EXPECT_NEAR(number(oiv.here), result(step, "molecular SO2"), 1e-12);
  EXPECT_FALSE(oiv.matters);  // the two ways always differ so much
  EXPECT_FALSE(noted(step, "was not given: the OIV model"));
}

TEST(SulfiteMolecular, SaysWhatItTookForTheOivModel) {
  const auto wine = run_step("pH: 3.50, free SO2: 25 mg/L", "sulfite.molecular: {model: OIV}");
  EXPECT_NEAR(result(wine, "pK1"), 1.955, 0.003);
  EXPECT_TRUE(noted(wine, "ethanol was not given: the OIV model takes 12 % vol"));
  EXPECT_TRUE(noted(wine, "temperature was not given: the OIV model takes 20 °C"));
  const auto must = run_step("pH: 3.50, free SO2: 25 mg/L, stage: must", "sulfite.molecular: {model: OIV}");
  EXPECT_NEAR(result(must, "pK1"), 1.798 - 0.075, 0.003);
  EXPECT_TRUE(noted(must, "takes 0 % vol, for must"));
}

TEST(SulfiteMolecular, AColdCellarHasItsAsideAtTwentyDegrees) {
  const auto cold = run_step("pH: 3.50, free SO2: 25 mg/L, ethanol: 12 % vol, temperature: 14 °C", "sulfite.molecular");
  const auto mild = run_step("pH: 3.50, free SO2: 25 mg/L, ethanol: 12 % vol, temperature: 20 °C", "sulfite.molecular");
  EXPECT_TRUE(noted(cold, "shown at 20 °C: its table begins there"));
  EXPECT_FALSE(noted(mild, "shown at 20 °C"));
  ASSERT_EQ(cold.outcome.opinions.size(), 1u);
  EXPECT_DOUBLE_EQ(cold.outcome.opinions[0].there.number, mild.outcome.opinions.at(0).there.number);
}

TEST(SulfiteMolecular, TheChosenOivModelIsRefusedOffItsTable) {
  for (const char* where : {"ethanol: 12 % vol, temperature: 14 °C", "ethanol: 12 % vol, temperature: 41 °C",
                            "ethanol: 20.5 % vol, temperature: 20 °C"}) {
    const auto said = refusal(lot_at("3.50, free SO2: 25 mg/L", where), "sulfite.molecular: {model: OIV}");
    EXPECT_TRUE(has(said, "the OIV model of pK1 covers")) << where << ": " << said;
    EXPECT_TRUE(has(said, "take the constant model, or give pK1")) << said;
  }
}

TEST(SulfiteMolecular, BeyondTwentyPerCentThereIsNoAsideAndItSaysSo) {
  const auto step = run_step("pH: 3.50, free SO2: 25 mg/L, ethanol: 21 % vol", "sulfite.molecular");
  EXPECT_TRUE(step.outcome.opinions.empty());
  EXPECT_TRUE(noted(step, "it ends at 20 % vol"));
}

TEST(SulfiteMolecular, HoldsTheLotAgainstTheLaw) {
  const std::string lot = "pH: 3.50, free SO2: 25 mg/L, stage: wine, class: still, colour: red, sugar: 1 g/L";
  const auto within = run_step(lot + ", total SO2: 150 mg/L", "sulfite.molecular", "EU");
  ASSERT_NE(check(within, "total SO2 limit, EU"), nullptr);
  EXPECT_TRUE(check(within, "total SO2 limit, EU")->holds);
  const auto past = run_step(lot + ", total SO2: 151 mg/L", "sulfite.molecular", "EU");
  ASSERT_NE(check(past, "total SO2 limit, EU"), nullptr);
  EXPECT_FALSE(check(past, "total SO2 limit, EU")->holds);
  EXPECT_FALSE(check(past, "total SO2 limit, EU")->remedy.empty());
  const auto unknown = run_step(lot, "sulfite.molecular", "EU");
  EXPECT_EQ(check(unknown, "total SO2 limit"), nullptr);
  EXPECT_TRUE(noted(unknown, "total SO2 was not given: its limit was not checked"));
  EXPECT_EQ(check(run_step(lot + ", total SO2: 150 mg/L", "sulfite.molecular"), "total SO2 limit"), nullptr);
}

TEST(SulfiteMolecular, FreeAboveTotalIsRefused) {
  const auto said = refusal("pH: 3.50, total SO2: 20 mg/L", "sulfite.molecular: {free SO2: 25 mg/L}");
  EXPECT_TRUE(has(said, "free SO2 is above total SO2")) << said;
}

}  // namespace molecular_test
}  // namespace vatwright::test
