// reagent, run by recipe, against printed examples.
#include "tests/plugins/run.hpp"

#include <fmt/format.h>

#include <cmath>

namespace vatwright::test {
namespace reagent_test {

double doubt(const StepSheet& step, std::size_t result) {
  return parse_unit(step.outcome.results.at(result).info->unit)
      .spread(step.result_spreads.at(result).standard, step.outcome.results[result].number);
}

std::string refused(const std::string& step) { return refusal("pH: 3.4", step); }

const std::string by_phthalate =
    "reagent.factor: {titrant: sodium hydroxide solution, standard: potassium hydrogen phthalate, nominal "
    "concentration: "
    "0.1 mol/L, ";

// The guide's molar mass is 204.2212, of older atomic weights; ours 204.222: 4e-6 of the result.
// Outside check of reagent.factor: 6 values within 1e-6 and 1e-7 mol/L, seen.
// Source: EURACHEM/CITAC Guide (2012), example A2, as recomputed by the Measurement Standards Laboratory (GTC
// documentation).
TEST(ReagentFactor, SodiumHydroxideByPhthalate) {
  const double mass = 0.15 / std::sqrt(3.0) * std::sqrt(2.0), volume = std::hypot(0.03 / std::sqrt(6.0), 0.006);
  const auto with = [&](const std::string& m, const std::string& v, const std::string& purity,
                        const std::string& more) {
    return run_step("pH: 3.4", by_phthalate + "purity: 100" + purity + " %, titrations: [{mass: 388.8" + m +
                                   " mg, used: 18.64" + v + " mL}]" + more + "}");
  };
  const auto pm = [](double u) { return fmt::format(" ± {:.9g}", u); };
  const double purity = 0.05 / std::sqrt(3.0);
  const auto all = with(pm(mass), pm(volume), pm(purity), ", repeatability: 0.05 %");
  EXPECT_NEAR(result(all, "concentration"), 0.102136, 1e-6);
  EXPECT_NEAR(doubt(all, 0), 1.0050e-4, 1e-7);
  EXPECT_NEAR(doubt(with("", pm(volume), "", ""), 0), 7.473e-5, 1e-8);
  EXPECT_NEAR(doubt(with("", "", "", ", repeatability: 0.05 %"), 0), 5.107e-5, 1e-8);
  EXPECT_NEAR(doubt(with(pm(mass), "", "", ""), 0), 3.217e-5, 1e-8);
  EXPECT_NEAR(doubt(with("", "", pm(purity), ""), 0), 2.948e-5, 1e-8);
}

// The acid takes the place of the titrant: 15 mL of it against 14.89 mL of the hydroxide that A2's way standardised.
// Outside check of reagent.factor: 2 values within 1e-5 and 2e-7 mol/L, seen.
// Source: EURACHEM/CITAC Guide (2012), example A3, as recomputed by the Measurement Standards Laboratory (GTC
// documentation).
TEST(ReagentFactor, HydrochloricAcidByHydroxideByPhthalate) {
  const auto warmth = [](double mL) { return mL * 2.1e-4 * 4 / std::sqrt(3.0); };
  const double mass = 0.15 / std::sqrt(3.0) * std::sqrt(2.0), purity = 0.05 / std::sqrt(3.0);
  const double v1 = std::hypot(0.03 / std::sqrt(6.0), warmth(19)), v2 = std::hypot(0.03 / std::sqrt(6.0), warmth(15));
  const double vh = std::hypot(0.02 / std::sqrt(6.0), warmth(15));
  const auto base = run_step(
      "pH: 3.4",
      by_phthalate + fmt::format("purity: 100 ± {:.9g} %, titrations: [{{mass: 388.8 ± {:.9g} mg, used: 18.64 ± "
                                 "{:.9g} mL}}]}}",
                                 purity, mass, v1));
  const auto acid = run_step(
      "pH: 3.4",
      fmt::format(
          "reagent.factor: {{titrant: hydrochloric acid, standard: sodium hydroxide solution, nominal concentration: "
          "0.1 mol/L, standard concentration: {:.12g} ± {:.12g} mol/L, repeatability: 0.1 %, titrations: "
          "[{{standard volume: 14.89 ± {:.9g} mL, used: 15 ± {:.9g} mL}}]}}",
          result(base, "concentration"), doubt(base, 0), v2, vh));
  EXPECT_NEAR(result(acid, "concentration"), 0.10139, 1e-5);
  EXPECT_NEAR(doubt(acid, 0), 1.843e-4, 2e-7);
}

// What of the acid's example is uncertain; 0: nothing. The doubt of the molar mass enters as that of the purity does.
struct Acid {
  double mass = 0, v1 = 0, purity = 0, v2 = 0, vh = 0, repeatability = 0;
  double excess = 0, excess_doubt = 0;  // of the indicator, in both titrations

  static std::string pm(double u) { return u > 0 ? fmt::format(" ± {:.12g}", u) : std::string(); }

  StepSheet run() const {
    const auto base =
        run_step("pH: 3.4", by_phthalate + fmt::format("purity: 100{} %, blank: {:.12g}{} mL, titrations: "
                                                       "[{{mass: 388.8{} mg, used: 18.64{} mL}}]}}",
                                                       pm(purity), excess, pm(excess_doubt), pm(mass), pm(v1)));
    return run_step(
        "pH: 3.4",
        fmt::format("reagent.factor: {{titrant: hydrochloric acid, standard: sodium hydroxide solution, nominal "
                    "concentration: 0.1 mol/L, standard concentration: {:.12g}{} mol/L, repeatability: {:.12g} %, "
                    "titrations: [{{standard volume: {:.12g}{} mL, used: 15{} mL}}]}}",
                    result(base, "concentration"), pm(base.result_spreads.empty() ? 0 : doubt(base, 0)), repeatability,
                    14.89 - excess, pm(std::hypot(v2, excess_doubt)), pm(vh)));
  }
  double u() const { return doubt(run(), 0); }
};

// Outside check of reagent.factor: 10 values within their last digit, seen.
// Source: EURACHEM/CITAC Guide (2012), example A3, the parts of its doubt and the excess of the indicator, as
// recomputed by the Measurement Standards Laboratory (GTC documentation).
TEST(ReagentFactor, EveryPartOfTheDoubtOfTheAcid) {
  const auto triangle = [](double half) { return half / std::sqrt(6.0); };
  const auto warmth = [](double mL) { return mL * 2.1e-4 * 4 / std::sqrt(3.0); };
  const double mass = 0.15 / std::sqrt(3.0) * std::sqrt(2.0), purity = 0.05 / std::sqrt(3.0);
  const double v1 = std::hypot(triangle(0.03), warmth(19)), v2 = std::hypot(triangle(0.03), warmth(15));
  const double vh = std::hypot(triangle(0.02), warmth(15)), molar_mass = 100 * 0.00376530211271 / 204.2212;
  EXPECT_NEAR((Acid{.repeatability = 0.1}.u()), 0.000101387, 1e-9);
  EXPECT_NEAR((Acid{.v2 = v2}.u()), 9.69953e-5, 1e-9);
  EXPECT_NEAR((Acid{.v1 = v1}.u()), 8.33653e-5, 1e-9);
  EXPECT_NEAR((Acid{.vh = vh}.u()), 7.39151e-5, 1e-9);
  EXPECT_NEAR((Acid{.mass = mass}.u()), 3.19376e-5, 1e-9);
  EXPECT_NEAR((Acid{.purity = purity}.u()), 2.9268e-5, 1e-9);
  EXPECT_NEAR((Acid{.purity = molar_mass}.u()), 1.86931e-6, 1e-9);
  Acid all{.mass = mass, .v1 = v1, .purity = purity, .v2 = v2, .vh = vh, .repeatability = 0.1 / std::sqrt(3.0)};
  EXPECT_NEAR(all.u(), 1.6e-4, 5e-6);
  all.excess = 0.05;
  all.excess_doubt = 0.03;
  EXPECT_NEAR(result(all.run(), "concentration"), 0.10132, 5e-6);
  EXPECT_NEAR(all.u(), 3.096e-4, 1e-7);
}

// Outside check of reagent.factor: 3 values within 2e-4 of themselves, seen.
// Source: British Pharmacopoeia 2012, appendix I B, and tables of volumetric factors (mass for 1 mL of titrant).
TEST(ReagentFactor, MassesOfOneMillilitre) {
  const auto found = [](const std::string& titrant, const std::string& standard, const std::string& mass) {
    return result(
        run_step("pH: 3.4", "reagent.factor: {titrant: " + titrant + ", standard: " + standard +
                                ", nominal concentration: 0.1 mol/L, titrations: [{mass: " + mass + ", used: 10 mL}]}"),
        "factor");
  };
  EXPECT_NEAR(found("sodium thiosulfate", "potassium iodate", "35.6670 mg"), 1, 2e-4);
  EXPECT_NEAR(found("hydrochloric acid", "sodium carbonate", "52.99 mg"), 1, 2e-4);
  EXPECT_NEAR(found("sodium hydroxide solution", "potassium hydrogen phthalate", "204.22 mg"), 1, 2e-4);
}

TEST(ReagentFactor, ScatterIsTheDoubtOfTheMean) {
  const auto step =
      run_step("pH: 3.4", by_phthalate +
                              "titrations: [{mass: 0.5 g, used: 24.4 mL}, {mass: 0.5 g, used: 24.5 mL}, {mass: "
                              "0.5 g, used: 24.6 mL}]}");
  const double mean = result(step, "concentration");
  EXPECT_NEAR(doubt(step, 0) / mean, 0.1 / 24.5 / std::sqrt(3.0), 1e-5);
  EXPECT_EQ(step.result_spreads[0].chief, "scatter of the titrations");
  EXPECT_NEAR(doubt(step, 1) / result(step, "factor"), doubt(step, 0) / mean, 1e-9);
}

TEST(ReagentFactor, WhatDoesNotFitIsRefused) {
  EXPECT_TRUE(
      has(refused("reagent.factor: {titrant: iodine solution, standard: sodium carbonate, nominal concentration: 0.05 "
                  "mol/L, titrations: [{mass: 1 g, used: 10 mL}]}"),
          "sodium carbonate is no standard for iodine solution"));
  EXPECT_TRUE(has(refused(by_phthalate + "titrations: [{used: 10 mL}]}"), "neither 'mass' nor 'standard volume'"));
}

// Outside check of reagent.solution: 5 values within 0.05 mol/L, seen.
// Source: OpenStax Chemistry, appendix F, concentrations of acids and bases.
TEST(ReagentSolution, ConcentratedAcids) {
  const auto stock = [](const std::string& name, const std::string& share, const std::string& density) {
    return result(run_step("pH: 3.4", "reagent.solution: {reagent: " + name +
                                          ", concentration: 0.1 mol/L, make up to: 1 L, mass fraction: " + share +
                                          " % mass, stock density: " + density + " g/mL}"),
                  "stock concentration");
  };
  EXPECT_NEAR(stock("acetic acid", "99.5", "1.05"), 17.4, 0.05);
  EXPECT_NEAR(stock("hydrochloric acid", "36", "1.18"), 11.6, 0.06);
  EXPECT_NEAR(stock("phosphoric acid", "85", "1.70"), 14.7, 0.05);
  EXPECT_NEAR(stock("sulfuric acid", "96", "1.84"), 18.0, 0.05);
  EXPECT_NEAR(stock("sodium hydroxide", "50", "1.53"), 19.1, 0.05);
}

// Outside check of reagent.solution: 2 values within 0.01 g, seen.
// Source: British Pharmacopoeia 2012, appendix I B: 10.7 g/L of iodate 0.05 mol/L; Lange's Handbook, thiosulfate
// 0.24818 g/mL N.
TEST(ReagentSolution, WeighedSolids) {
  const auto mass = [](const std::string& name, const std::string& c) {
    return result(
        run_step("pH: 3.4", "reagent.solution: {reagent: " + name + ", concentration: " + c + ", make up to: 1 L}"),
        "mass");
  };
  EXPECT_NEAR(mass("potassium iodate", "0.05 mol/L"), 10.70, 0.01);
  EXPECT_NEAR(mass("sodium thiosulfate", "0.1 mol/L"), 24.818, 0.01);
}

TEST(ReagentSolution, CautionsStandBesideTheMass) {
  const auto step =
      run_step("pH: 3.4", "reagent.solution: {reagent: sodium hydroxide, concentration: 0.1 mol/L, make up to: 1 L}");
  ASSERT_EQ(step.reagents.size(), 1U);
  EXPECT_FALSE(step.reagents[0]->cautions.empty());
}

// Outside check of reagent.dilution: 3 values within 1e-9, derived.
// Source: c1 V1 = c2 V2, written out.
TEST(ReagentDilution, StockAndWater) {
  const auto step =
      run_step("pH: 3.4", "reagent.dilution: {stock content: 1 g/L, content: 20 mg/L, make up to: 250 mL, series: 2}");
  EXPECT_NEAR(result(step, "stock volume"), 5, 1e-9);
  EXPECT_NEAR(result(step, "water"), 245, 1e-9);
  ASSERT_EQ(step.outcome.tables.size(), 1U);
  EXPECT_NEAR(std::get<double>(step.outcome.tables[0].rows[1][1]), 4e-4, 1e-12);
  EXPECT_TRUE(has(refused("reagent.dilution: {stock content: 1 g/L, concentration: 0.1 mol/L, make up to: 250 mL}"),
                  "counted by amount"));
  EXPECT_TRUE(has(refused("reagent.dilution: {stock content: 1 g/L, content: 2 g/L, make up to: 250 mL}"), "swapped"));
}

}  // namespace reagent_test
}  // namespace vatwright::test
