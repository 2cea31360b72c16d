// assay, and the titrations of acid and sulfite, run by recipe, against printed figures.
#include "tests/plugins/run.hpp"

#include <fmt/format.h>

#include <cmath>

namespace vatwright::test {
namespace assay_test {

// Outside check of assay.volatile: 3 values within 0.01, from memory.
// Source: OIV-MA-AS313-02, coefficients 5 (V - 0.1 n' - 0.05 n'') meq/L, 0.300 g/L acetic, 0.245 g/L sulfuric.
TEST(AssayVolatile, ByTheCoefficientsOfTheMethod) {
  const auto step =
      run_step("pH: 3.4",
               "assay.volatile: {titrant: 6.5 mL, titrant concentration: 0.1 mol/L, iodine for free: 1.0 mL, "
               "iodine for bound: 4.0 mL}");
  const double acetic = result(step, "volatile acidity");
  EXPECT_NEAR(acetic, 0.300 * 6.2, 0.01);
  EXPECT_NEAR(acetic / 60.052 * 1000, 31.0, 0.01);
  EXPECT_NEAR(acetic * 98.072 / 2 / 60.052, 1.519, 0.01);
  EXPECT_NEAR(after(run("pH: 3.4", {"assay.volatile: {titrant: 6.5 mL, titrant concentration: 0.1 mol/L}"}),
                    "volatile acidity", "meq/L"),
              32.5, 1e-9);
}

TEST(AssayVolatile, TwoThatDoNotAgreeChangeNothing) {
  const auto sheet =
      run("volatile acidity: 0.5 g/L as acetic acid",
          {"assay.volatile: {titrations: [{titrant: 2.0 mL}, {titrant: 2.6 mL}], titrant concentration: 0.1 mol/L}"});
  const auto& step = sheet.steps[0];
  EXPECT_FALSE(sheet.holds());
  EXPECT_TRUE(step.outcome.results.empty());
  ASSERT_NE(check(step, "the 2 readings agree"), nullptr);
  EXPECT_TRUE(has(check(step, "the 2 readings agree")->remedy, "read a third time"));
  EXPECT_NEAR(after(sheet, "volatile acidity", "g/L as acetic acid"), 0.5, 1e-9);
}

// Outside check of assay.enzymatic: 4 values within 0.002 g/L, from memory.
// Source: OIV-MA-AS311-02 and MA-AS313-11, volumes and absorptivities; printed factors 0.417, 0.773 and 0.473 g/L.
TEST(AssayEnzymatic, ByTheFactorsOfTheMethods) {
  const auto found = [](const std::string& analyte, const std::string& more) {
    return result(run_step("pH: 3.4", "assay.enzymatic: {analyte: " + analyte + ", " + more + "}"), "content");
  };
  EXPECT_NEAR(found("glucose", "readings: [{before: 0.1 AU, after: 0.5 AU}]"), 0.4 * 0.417, 0.002);
  EXPECT_NEAR(found("glucose", "wavelength: 365 nm, readings: [{before: 0.1 AU, after: 0.5 AU}]"), 0.4 * 0.773, 0.002);
  EXPECT_NEAR(found("malic acid", "readings: [{before: 0.1 AU, after: 0.36 AU}], blank after: 0.01 AU, dilution: 10"),
              1.181, 0.002);
  EXPECT_NEAR(found("citric acid", "readings: [{before: 0.5 AU, after: 0.3 AU}]"), 0.2 * 0.4788, 0.002);
}

TEST(AssayEnzymatic, DirectionAndRange) {
  EXPECT_TRUE(
      has(refusal("pH: 3.4", "assay.enzymatic: {analyte: glucose, readings: [{before: 0.5 AU, after: 0.3 AU}]}"),
          "the wrong way"));
  const auto step =
      run_step("pH: 3.4", "assay.enzymatic: {analyte: glucose, readings: [{before: 0.1 AU, after: 0.9 AU}]}");
  EXPECT_FALSE(check(step, "change of absorbance")->holds);
}

// Outside check of assay.reducing: 4 values within 1e-9, seen.
// Source: French decree of 18 August 2014, annex II, table of thiosulfate and sugar.
TEST(AssayReducing, ByTheTable) {
  const auto found = [](double taken_up) {
    return result(
        run_step("pH: 3.4", fmt::format("assay.reducing: {{titrant: {} mL, blank: 25 mL, titrant concentration: 0.1 "
                                        "mol/L}}",
                                        25 - taken_up)),
        "reducing sugar");
  };
  EXPECT_NEAR(found(10), 1.000, 1e-9);
  EXPECT_NEAR(found(1), 2.4 / 25, 1e-9);
  EXPECT_NEAR(found(22), 59.1 / 25, 1e-9);
  EXPECT_NEAR(found(4.5), (9.7 + 12.2) / 2 / 25, 1e-9);
  EXPECT_TRUE(has(refusal("pH: 3.4", "assay.reducing: {titrant: 1 mL, blank: 25 mL, titrant concentration: 0.1 mol/L}"),
                  "past the table"));
}

// Outside check of assay.density: 2 values within 2e-6 g/mL, derived.
// Source: weighing in air, both liquids lifted by the air that they push away.
TEST(AssayDensity, PycnometerAndCell) {
  const auto step =
      run_step("pH: 3.4", "assay.density: {empty: 67.0000 g, with water: 166.8000 g, with wine: 166.5000 g}");
  EXPECT_NEAR(result(step, "density"), 0.995206, 2e-6);
  const double air = 0.0012, water = 0.998203, wine = 0.9921;
  const auto period = [&](double rho) { return std::sqrt(1 + rho); };
  const auto cell = run_step(
      "pH: 3.4",
      fmt::format("assay.density: {{period: {:.12g} ms, period in water: {:.12g} ms, period in air: {:.12g} ms}}",
                  period(wine), period(water), period(air)));
  EXPECT_NEAR(result(cell, "density"), wine, 2e-6);
}

// --- the titrations that there were before, in the same words

TEST(Titrations, DuplicatesBlankAndFactor) {
  const auto acid =
      run_step("pH: 3.4",
               "acid.titration: {titrations: [{titrant: 6.80 mL}, {titrant: 6.84 mL}], titrant concentration: 0.1 "
               "mol/L, factor: 1.01, sample: 10 mL, endpoint: 7.0, blank: 0.02 mL}");
  const double meq = (6.82 - 0.02) * 0.1 * 1.01 / 10 * 1000;
  EXPECT_NEAR(result(acid, "titratable acidity"), meq * 150.087 / 2000, 1e-4);
  EXPECT_TRUE(check(acid, "the 2 readings agree")->holds);
  ASSERT_FALSE(acid.result_spreads.empty());
  EXPECT_NEAR(acid.result_spreads[0].standard, 0.9 / (1.96 * std::sqrt(2.0)) / std::sqrt(2.0), 1e-4);  // eq/m³
  const auto far =
      run_step("pH: 3.4",
               "sulfite.titration: {method: iodine, titrations: [{titrant: 1.0 mL}, {titrant: 1.2 mL}], titrant "
               "concentration: 0.01 mol/L, sample: 25 mL}");
  EXPECT_TRUE(far.outcome.results.empty());
  EXPECT_FALSE(far.outcome.holds());
}

// Outside check of sulfite.titration: 2 values within 0.1 mg/L, seen.
// Source: French decree of 7 October 1987, annex VIII (0.32 mg a mL), and Lange's Handbook, table 11.28 (0.032031 g a
// mL N).
TEST(Titrations, SulfurDioxideOfOneMillilitre) {
  const auto found = [](const std::string& slip) {
    return result(run_step("pH: 3.4", "sulfite.titration: {" + slip + "}"), "SO2");
  };
  EXPECT_NEAR(found("method: aeration-oxidation, titrant: 10 mL, titrant concentration: 0.01 mol/L, sample: 50 mL"),
              64.06, 0.1);
  EXPECT_NEAR(found("method: iodine, titrant: 1 mL, titrant concentration: 0.025 mol/L, sample: 50 mL"), 32.03, 0.05);
}

}  // namespace assay_test
}  // namespace vatwright::test
