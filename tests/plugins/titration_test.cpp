// sulfite.titration, run by recipe, against the stoichiometry written out here.
#include "tests/plugins/run.hpp"

#include <cmath>

namespace vatwright::test {
namespace titration_test {

// Standard atomic weights, abridged (IUPAC CIAAW 2021).
constexpr double so2_gram_per_mole = 32.06 + 2 * 15.999;

// One mole of I2 for one of sulfur dioxide; 0.02 N iodine is 0.01 mol/L.
TEST(SulfiteTitration, Iodine) {
  const auto step = run_step("pH: 3.40",
                             "sulfite.titration: {method: iodine, titrant: 1.35 mL, titrant concentration: 0.0100 "
                             "mol/L, sample: 25 mL}");
  EXPECT_NEAR(result(step, "SO2"), 1.35 * 0.01 * so2_gram_per_mole * 1000 / 25, 1e-6);
  EXPECT_TRUE(noted(step, "the titrant was taken as 0.01 mol/L of I2, which is 0.02 N"));
  EXPECT_TRUE(noted(step, "iodine finds too much in red wine"));
}

// The bench's word for the titrant: the figure of a normality is twice that of iodine, and is not carried over.
TEST(SulfiteTitration, ANormalityIsToldHowToBeWritten) {
  for (const auto* written : {"0.02 N", "0.02 eq/L"}) {
    const auto said =
        refusal("pH: 3.40", std::string("sulfite.titration: {method: iodine, titrant: 2.10 mL, sample: 50 mL, titrant "
                                        "concentration: ") +
                                written + "}");
    EXPECT_TRUE(has(said, "0.02 N iodine is 0.01 mol/L of I2")) << said;
  }
}

// Two moles of sodium hydroxide for one: 16.0 mg/L a millilitre for 20 mL and 0.0100 mol/L.
TEST(SulfiteTitration, AerationOxidation) {
  const auto step = run_step("pH: 3.40",
                             "sulfite.titration: {method: aeration-oxidation, titrant: 2.05 mL, titrant "
                             "concentration: 10 mmol/L, sample: 20 mL}");
  EXPECT_NEAR(result(step, "SO2"), 2.05 * 0.01 * so2_gram_per_mole * 1000 / 20 / 2, 1e-6);
  EXPECT_NEAR(result(step, "SO2"), 16.0 * 2.05, 0.002 * 32.8);
}

TEST(SulfiteTitration, TheBlankIsTakenOff) {
  const std::string slip = "sulfite.titration: {method: iodine, titrant concentration: 0.005 mol/L, sample: 50 mL, ";
  const auto with = run_step("pH: 3.40", slip + "titrant: 5.0 mL, blank: 0.8 mL}");
  EXPECT_NEAR(result(with, "SO2"), result(run_step("pH: 3.40", slip + "titrant: 4.2 mL}"), "SO2"), 1e-9);
  EXPECT_NEAR(result(run_step("pH: 3.40", slip + "titrant: 0.8 mL, blank: 0.8 mL}"), "SO2"), 0, 1e-12);
  const auto said = refusal("pH: 3.40", slip + "titrant: 0.8 mL, blank: 0.9 mL}");
  EXPECT_TRUE(has(said, "the blank used more titrant than the sample: 0.90 mL against 0.80 mL")) << said;
  EXPECT_TRUE(has(said, "look whether the two are swapped")) << said;
}

// Ten times the titrant that was meant, 21 mL of 0.1 mol/L for 50 mL: 2690 mg/L, which no wine has.
TEST(SulfiteTitration, ATenfoldTitrantIsRefused) {
  const std::string slip = "sulfite.titration: {method: iodine, titrant: 21 mL, sample: 50 mL, titrant concentration: ";
  const auto said = refusal("pH: 3.40", slip + "0.1 mol/L}");
  EXPECT_TRUE(has(said, "2690.4 mg/L of SO2, more than a wine has")) << said;
  EXPECT_TRUE(has(said, "titrant concentration")) << said;
  EXPECT_EQ(refusal("pH: 3.40", slip + "0.01 mol/L}"), "");
}

TEST(SulfiteTitration, FeedsTheNextStep) {
  const std::string slip =
      "sulfite.titration: {method: aeration-oxidation, titrant: 2.05 mL, titrant concentration: "
      "0.0100 mol/L, sample: 20 mL";
  const auto sheet =
      run("pH: 3.40, free SO2: 10 mg/L, total SO2: 95 mg/L", {slip + ", measures: free SO2}", "sulfite.molecular"});
  const double found = result(sheet.steps.at(0), "SO2");
  EXPECT_NEAR(after(sheet, "free SO2", "mg/L"), found, 1e-9);
  EXPECT_NEAR(result(sheet.steps.at(1), "molecular SO2"), found / (1 + std::pow(10, 3.40 - 1.81)), 1e-9);
  for (const auto& used : sheet.steps[1].inputs) {
    if (used.input->name != "free SO2") continue;
    EXPECT_EQ(words(used.from), "step 1");
  }

  const auto total = run("pH: 3.40, free SO2: 10 mg/L", {slip + ", measures: total SO2}"});
  EXPECT_NEAR(after(total, "total SO2", "mg/L"), found, 1e-9);
  EXPECT_NEAR(after(total, "free SO2", "mg/L"), 10, 1e-9);

  const auto untold = run("pH: 3.40, free SO2: 10 mg/L", {slip + "}"});
  EXPECT_NEAR(after(untold, "free SO2", "mg/L"), 10, 1e-9);
}

TEST(SulfiteTitration, FreeAboveTotalIsAFailingCheck) {
  const std::string slip =
      "sulfite.titration: {method: aeration-oxidation, titrant: 2.05 mL, titrant concentration: "
      "0.0100 mol/L, sample: 20 mL, measures: ";
  const auto free = run_step("total SO2: 30 mg/L, free SO2: 20 mg/L", slip + "free SO2}");
  ASSERT_NE(check(free, "free SO2 within total SO2"), nullptr);
  EXPECT_FALSE(check(free, "free SO2 within total SO2")->holds);
  EXPECT_FALSE(check(free, "free SO2 within total SO2")->remedy.empty());
  const auto total = run_step("free SO2: 33 mg/L", slip + "total SO2}");
  ASSERT_NE(check(total, "free SO2 within total SO2"), nullptr);
  EXPECT_FALSE(check(total, "free SO2 within total SO2")->holds);
  EXPECT_TRUE(check(run_step("total SO2: 33 mg/L", slip + "free SO2}"), "free SO2 within total SO2")->holds);
}

TEST(SulfiteTitration, MoreThanAWineHasIsRefused) {
  const auto said = refusal("pH: 3.40",
                            "sulfite.titration: {method: iodine, titrant: 10 mL, titrant concentration: 0.1 mol/L, "
                            "sample: 20 mL, measures: free SO2}");
  EXPECT_TRUE(has(said, "more than a wine has")) << said;
}

TEST(SulfiteTitration, ReagentsComeWithTheirCautions) {
  const std::string slip = "titrant: 1 mL, titrant concentration: 0.01 mol/L, sample: 20 mL}";
  const auto by_iodine = run_step("pH: 3.40", "sulfite.titration: {method: iodine, " + slip);
  ASSERT_EQ(by_iodine.reagents.size(), 3u);
  EXPECT_EQ(by_iodine.reagents[0]->facts.id, "iodine solution");
  const auto by_aeration = run_step("pH: 3.40", "sulfite.titration: {method: aeration-oxidation, " + slip);
  ASSERT_EQ(by_aeration.reagents.size(), 3u);
  for (const auto& step : {by_iodine, by_aeration})
    for (const auto* reagent : step.reagents) EXPECT_FALSE(reagent->cautions.empty()) << reagent->facts.id;
}

}  // namespace titration_test
}  // namespace vatwright::test
