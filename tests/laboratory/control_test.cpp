// control, run by recipe.
#include "tests/plugins/run.hpp"

#include <fmt/format.h>

#include <cmath>

namespace vatwright::test {
namespace control_test {

// Outside check of control.meter: 3 values within their last digit, derived.
// Source: Nernst slope from the CODATA constants, a calibration by two buffers written out.
TEST(ControlMeter, SlopeOffsetAndSample) {
  const auto step =
      run_step("volume: 1 L",
               "control.meter: {at: 25 °C, buffers: [{buffer: phthalate, reads: 172.5 mV}, {buffer: phosphate, "
               "reads: 4.9 mV}], sample reads: 207.0 mV}");
  EXPECT_NEAR(result(step, "slope"), 58.601, 5e-4);
  EXPECT_NEAR(result(step, "slope share"), 99.06, 0.005);
  EXPECT_NEAR(result(step, "offset"), -2.72, 0.005);
  EXPECT_NEAR(result(step, "pH"), 3.421, 5e-4);
  EXPECT_TRUE(noted(step, "outside the buffers"));
}

// Outside check of control.meter: 2 values within 0.01 mV, seen.
// Source: United States Pharmacopeia, chapter 791, 57.18 and 59.16 mV at 15 and 25 °C.
TEST(ControlMeter, TheoryByTemperature) {
  for (const auto& [t, mV] : {std::pair{15.0, 57.18}, std::pair{25.0, 59.16}}) {
    const auto step =
        run_step("volume: 1 L", fmt::format("control.meter: {{at: {} °C, buffers: [{{buffer pH: 4, reads: 177 mV}}, "
                                            "{{buffer pH: 7, reads: 0 mV}}]}}",
                                            t));
    EXPECT_NEAR(result(step, "slope") / result(step, "slope share") * 100, mV, 0.01);
  }
}

// The slope's doubt reaches the sample: further from the buffers the same millivolts are less sure.
TEST(ControlMeter, TheBuffersDoubtReachesThePh) {
  const auto doubt = [](const std::string& sample) {
    const auto step =
        run_step("volume: 1 L",
                 "control.meter: {at: 25 °C, buffers: [{buffer pH: 4.01, reads: 172.5 ± 0.5 mV}, {buffer pH: 6.87, "
                 "reads: 4.9 ± 0.5 mV}], sample reads: " +
                     sample + "}");
    return step.result_spreads.at(3).standard;
  };
  EXPECT_GT(doubt("240 mV"), 1.3 * doubt("172.5 mV"));
  EXPECT_NEAR(doubt("172.5 mV"), 0.5 / 58.6, 2e-4);
}

TEST(ControlMeter, ATiredElectrodeFails) {
  const auto step =
      run_step("volume: 1 L",
               "control.meter: {at: 25 °C, buffers: [{buffer: phthalate, reads: 150 mV}, {buffer: phosphate, "
               "reads: 4.9 mV}]}");
  EXPECT_FALSE(check(step, "least slope")->holds);
}

// Outside check of control.recovery: 2 values within 1e-9, derived.
// Source: recovery = (found - native) / added, written out.
TEST(ControlRecovery, RecoveryAndBias) {
  const auto step =
      run_step("volume: 1 L", "control.recovery: {found: 48.6 ± 0.8 mg/L, native: 24.1 ± 0.6 mg/L, added: 20.0 mg/L}");
  EXPECT_NEAR(result(step, "recovery"), 122.5, 1e-9);
  EXPECT_NEAR(result(step, "bias"), 4.5, 1e-9);
  EXPECT_FALSE(check(step, "the bias is within")->holds);
}

TEST(ControlChart, TheLaboratoryIsRightOrHoldsBack) {
  const std::string past =
      "control.chart: {target: 30, standard deviation: 0.5, readings: [{value: 30.2}, {value: 29.8}, ";
  EXPECT_TRUE(run_step("volume: 1 L", past + "{value: 30.4}]}").outcome.holds());
  const auto out = run_step("volume: 1 L", past + "{value: 31.7}]}");
  EXPECT_FALSE(out.outcome.holds());
  EXPECT_TRUE(has(check(out, "the laboratory is right")->remedy, "hold back"));
}

TEST(ControlDuplicates, NamesWhatIsToBeReadAgain) {
  const auto step =
      run_step("volume: 1 L",
               "control.duplicates: {repeatability: 1, results: [{sample: A, first: 10, second: 10.4}, {sample: B, "
               "first: 20, second: 22}, {sample: C, first: 30, second: 32, third: 30.2}]}");
  EXPECT_NEAR(result(step, "s_r"), std::sqrt((0.16 + 4 + 4) / 6), 1e-9);
  EXPECT_NEAR(result(step, "accepted"), 1, 1e-12);
  EXPECT_TRUE(has(check(step, "all samples agree")->remedy, "B, C"));
}

}  // namespace control_test
}  // namespace vatwright::test
