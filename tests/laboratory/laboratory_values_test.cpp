// The laboratory's calculations run by recipe, against printed examples and against figures written out by hand.
#include "tests/plugins/run.hpp"

#include <fmt/format.h>

#include <cmath>

namespace vatwright::test {
namespace laboratory_values_test {

StepSheet bench(const std::string& step) { return run_step("volume: 1 L", step); }

std::string standards(std::initializer_list<double> contents, std::initializer_list<double> readings) {
  std::string rows;
  for (std::size_t i = 0; i < contents.size(); ++i)
    rows += fmt::format("{}{{content: {} mg/L, reading: {}}}", rows.empty() ? "" : ", ", contents.begin()[i],
                        readings.begin()[i]);
  return "standards: [" + rows + "]";
}

// Outside check of assay.calibration: 4 values within their last printed digit, seen.
// Source: EURACHEM/CITAC Guide (2012), example A5, as recomputed by the Measurement Standards Laboratory (GTC
// documentation).
TEST(LaboratoryValues, CadmiumByAtomicAbsorption) {
  const auto step = bench("assay.calibration: {" +
                          standards({0.1, 0.1, 0.1, 0.3, 0.3, 0.3, 0.5, 0.5, 0.5, 0.7, 0.7, 0.7, 0.9, 0.9, 0.9},
                                    {0.028, 0.029, 0.029, 0.084, 0.083, 0.081, 0.135, 0.131, 0.133, 0.180, 0.181, 0.183,
                                     0.215, 0.230, 0.216}) +
                          ", samples: [{name: leach, reading: 0.0712}, {name: leach, reading: 0.0716}]}");
  EXPECT_NEAR(result(step, "intercept"), 0.0087, 5e-5);
  EXPECT_NEAR(result(step, "slope"), 0.2410, 5e-5);
  EXPECT_NEAR(result(step, "content of the first sample"), 0.260, 5e-4);
  EXPECT_NEAR(step.result_spreads.at(7).standard * 1e3, 0.018, 5e-4);  // kg/m³ to mg/L
}

// Outside check of assay.calibration: 2 values within their last printed digit, seen.
// Source: Massart et al. (1997), chapter 8, example 1, in the tests of the R package chemCal.
TEST(LaboratoryValues, ALineTurnedRound) {
  for (const auto& [reading, content] : {std::pair{15.0, 6.1}, std::pair{90.0, 43.9}}) {
    const auto step =
        bench("assay.calibration: {" + standards({0, 10, 20, 30, 40, 50}, {4, 21.2, 44.6, 61.8, 78, 105.2}) +
              fmt::format(", samples: [{{name: T7, reading: {}}}]}}", reading));
    EXPECT_NEAR(result(step, "content of the first sample"), content, 0.05);
  }
}

// Outside check of assay.density: 3 values within 2e-6 g/mL, derived.
// Source: weighing in air, written out: both liquids lifted by the air that they push away.
TEST(LaboratoryValues, DensityByPycnometer) {
  constexpr double air = 0.0012, water = 0.998203, empty = 67, full = 166.8;
  for (const double with_wine : {165.9, 166.55, 176.5}) {
    const auto step =
        bench(fmt::format("assay.density: {{empty: {} g, with water: {} g, with wine: {} g}}", empty, full, with_wine));
    EXPECT_NEAR(result(step, "density"), air + (with_wine - empty) / (full - empty) * (water - air), 2e-6);
  }
}

// Outside check of control.chart: 4 values within their last digit, from memory.
// Source: NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2, individuals control charts, flow rates.
TEST(LaboratoryValues, FlowRatesOnAChart) {
  std::string rows;
  for (const double rate : {49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1})
    rows += fmt::format("{}{{value: {}}}", rows.empty() ? "" : ", ", rate);
  const auto step = bench("control.chart: {trial: 10, readings: [" + rows + "]}");
  EXPECT_NEAR(result(step, "centre"), 50.81, 5e-3);
  EXPECT_NEAR(result(step, "upper limit"), 55.8041, 5e-3);  // by 1.128, where more digits are 1.12838
  EXPECT_NEAR(result(step, "lower limit"), 45.8159, 5e-3);
  EXPECT_NEAR(result(step, "standard deviation of a reading"), 1.8778 / 1.128, 1e-3);
}

// Outside check of control.duplicates: 3 values within 1e-4, derived.
// Source: ISO 5725-2, s_r from pairs and r = 1.96 √2 s_r, written out.
TEST(LaboratoryValues, RepeatabilityOfPairs) {
  const auto step = bench(
      "control.duplicates: {repeatability: 1, results: [{sample: A, first: 10, second: 10.4}, {sample: B, first: 20, "
      "second: 20.6}, {sample: C, first: 30, second: 30.1}]}");
  const double scatter = std::sqrt((0.16 + 0.36 + 0.01) / 6);
  EXPECT_NEAR(result(step, "s_r"), scatter, 1e-4);
  EXPECT_NEAR(result(step, "own repeatability"), 1.96 * std::sqrt(2.0) * scatter, 1e-4);
  EXPECT_NEAR(result(step, "accepted"), 3, 1e-12);
}

// Two that agree: their mean; three within 3.31 / 2.77 of r: their mean; three that are not: the median.
// Outside check of control.report: 3 values within 1e-9, from memory.
// Source: ISO 5725-6, acceptability of results, case of two and of three readings.
TEST(LaboratoryValues, WhatIsReported) {
  const auto reported = [](const std::string& rows) {
    return result(bench("control.report: {repeatability: 0.3, readings: [" + rows + "]}"), "report");
  };
  EXPECT_NEAR(reported("{value: 34.2}, {value: 34.3}"), 34.25, 1e-9);
  EXPECT_NEAR(reported("{value: 34.2}, {value: 34.55}, {value: 34.3}"), 34.35, 1e-9);
  EXPECT_NEAR(reported("{value: 34.2}, {value: 34.8}, {value: 34.3}"), 34.3, 1e-9);
}

// Outside check of control.recovery: 4 values within 1e-9, derived.
// Source: recovery = (found - native) / added, written out.
TEST(LaboratoryValues, Recoveries) {
  const auto spiked = bench("control.recovery: {found: 30.2 mg/L, native: 10.1 mg/L, added: 20 mg/L}");
  EXPECT_NEAR(result(spiked, "recovery"), 100.5, 1e-9);
  EXPECT_NEAR(result(spiked, "bias"), 0.1, 1e-9);
  const auto poor = bench("control.recovery: {found: 46 mg/L, native: 0 mg/L, added: 50 mg/L}");
  EXPECT_NEAR(result(poor, "recovery"), 92, 1e-9);
  EXPECT_NEAR(result(poor, "bias"), -4, 1e-9);
}

}  // namespace laboratory_values_test
}  // namespace vatwright::test
