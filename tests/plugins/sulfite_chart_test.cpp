// The chart of molecular sulfur dioxide says what the calculation says, at every pH.
#include "plugins/sulfite/addition.hpp"
#include "tests/plugins/run.hpp"

#include <fmt/format.h>

namespace sulfite_chart_test {

using namespace vatwright;
using namespace vatwright::test;

const std::string lot = "volume: 48 hL, free SO2: 14 mg/L, total SO2: 62 mg/L, sugar: 1.8 g/L, pH: ";

TEST(SulfiteChartTest, AgreesWithTheCalculationAtOtherPh) {
  const auto step = run_step(lot + "3.42", "sulfite.molecular");
  ASSERT_EQ(step.outcome.charts.size(), 1U);
  const auto& traces = step.outcome.charts[0].traces;
  ASSERT_EQ(traces.size(), 2U);
  EXPECT_NEAR(traces[0].points.front().first, 2.8, 1e-9);  // the lot's usual range
  EXPECT_NEAR(traces[0].points.back().first, 4.2, 1e-9);
  for (const auto& [ph, molecular] : traces[0].points) {
    const auto there = run_step(lot + fmt::format("{:.10f}", ph), "sulfite.molecular");
    EXPECT_NEAR(molecular * 1e3, result(there, "molecular SO2"), 1e-6) << ph;
  }
  ASSERT_EQ(traces[1].points.size(), 1U);
  EXPECT_NEAR(traces[1].points[0].first, 3.42, 1e-12);
  EXPECT_NEAR(traces[1].points[0].second * 1e3, result(step, "molecular SO2"), 1e-9);
}

TEST(SulfiteChartTest, TheBandIsTheUsualTarget) {
  const auto step = run_step(lot + "3.42", "sulfite.molecular");
  const auto band = step.outcome.charts.at(0).band;
  ASSERT_TRUE(band);
  EXPECT_NEAR(band->first * 1e3, sulfite::addition::target_molecular.usual->low, 1e-9);
  EXPECT_NEAR(band->second * 1e3, sulfite::addition::target_molecular.usual->high, 1e-9);
}

TEST(SulfiteChartTest, AnAdditionShowsBeforeAndAfter) {
  const auto step = run_step(lot + "3.42", "sulfite.addition: {target molecular SO2: 0.6 mg/L}");
  const auto& traces = step.outcome.charts.at(0).traces;
  ASSERT_EQ(traces.size(), 4U);
  EXPECT_NEAR(traces[1].points.at(0).second * 1e3, result(run_step(lot + "3.42", "sulfite.molecular"), "molecular SO2"),
              1e-9);
  EXPECT_NEAR(traces[3].points.at(0).second * 1e3, result(step, "molecular SO2"), 1e-9);
}

TEST(SulfiteChartTest, ALotBeyondTheUsualPhIsOnTheCurve) {
  for (const std::string ph : {"2.6", "4.6"}) {
    const auto step = run_step(lot + ph, "sulfite.molecular");
    const auto& traces = step.outcome.charts.at(0).traces;
    const auto& curve = traces[0].points;
    EXPECT_LE(curve.front().first, std::stod(ph));
    EXPECT_GE(curve.back().first, std::stod(ph));
  }
}

}  // namespace sulfite_chart_test
