// Charts: round ticks, places that agree with the numbers, and words for those who do not see them.
#include "host/sheet/chart.hpp"
#include "host/sheet/chart_scale.hpp"
#include "tests/host/sheets.hpp"

#include <gtest/gtest.h>

#include <regex>

namespace chart_test {

using namespace vatwright;
using namespace vatwright::test;

std::string drawn(const Chart& chart) {
  Markup page;
  write_chart(page, chart, "c");
  return page.document();
}

// The attribute of every element of that class.
std::vector<double> places(const std::string& svg, const std::string& kind, const std::string& attribute) {
  const std::regex element("<[a-z]+ class=\"" + kind + "\"[^>]* " + attribute + "=\"([-0-9.]+)\"");
  std::vector<double> out;
  for (std::sregex_iterator at(svg.begin(), svg.end(), element), end; at != end; ++at)
    out.push_back(std::stod((*at)[1]));
  return out;
}

TEST(TicksTest, AreRoundAndCoverTheNumbers) {
  for (const double low : {-1234.5, -3.0, 0.0, 0.07, 2.8, 985.0})
    for (const double span : {1e-4, 0.013, 0.7, 1.0, 1.4, 9.99, 450.0, 3e6})
      for (const int wanted : {2, 4, 6, 8}) {
        const auto ticks = round_ticks(low, low + span, wanted);
        ASSERT_GE(ticks.size(), 2U);
        EXPECT_LE(ticks.size(), static_cast<std::size_t>(2 * wanted + 3));
        EXPECT_LE(ticks.front(), low + 1e-6 * span);
        EXPECT_GE(ticks.back(), low + span * (1 - 1e-6));
        const double step = ticks[1] - ticks[0];
        const double lead = step / std::pow(10.0, std::floor(std::log10(step * (1 + 1e-6))));
        EXPECT_NEAR(std::min({std::abs(lead - 1), std::abs(lead - 2), std::abs(lead - 5)}), 0, 1e-3) << lead;
      }
}

TEST(TicksTest, LabelsHaveTheDecimalsOfTheirStep) {
  EXPECT_EQ(tick_labels({0, 0.5, 1}), (std::vector<std::string>{"0.0", "0.5", "1.0"}));
  EXPECT_EQ(tick_labels({-0.02, 0, 0.02}), (std::vector<std::string>{"-0.02", "0.00", "0.02"}));
  EXPECT_EQ(tick_labels({0, 50, 100}), (std::vector<std::string>{"0", "50", "100"}));
  EXPECT_EQ(tick_labels({3.5}), (std::vector<std::string>{"3.5"}));
}

// A band of 0.5 to 0.8 between ticks of 0 and 1, in the unit of the axis, not in coherent ones.
TEST(ChartTest, BandAndDotStandWhereTheirNumbersDo) {
  const Chart chart{.name = "c",
                    .x = {"pH", "pH", 2},
                    .y = {"molecular SO2", "mg/L", 2},
                    .traces = {{.name = "l", .points = {{3, 0}, {4, 1e-3}}},
                               {.name = "d", .dots = true, .points = {{3.25, 0.25e-3}}},
                               {.name = "e", .dots = true, .points = {{3, 0.6e-3}}}},
                    .band = {{0.5e-3, 0.8e-3}},
                    .band_name = "usual"};
  const auto svg = drawn(chart);
  const auto grid = places(svg, "grid", "y1"), left = places(svg, "grid", "x1"), right = places(svg, "grid", "x2");
  ASSERT_GE(grid.size(), 2U);
  const double zero = grid.front(), one = grid.back(), span = one - zero;
  EXPECT_LT(span, 0);  // upwards
  const auto edges = places(svg, "band-edge", "y1");
  ASSERT_GE(edges.size(), 2U);
  EXPECT_NEAR(edges[0], zero + 0.8 * span, 0.11);
  EXPECT_NEAR(edges[1], zero + 0.5 * span, 0.11);
  EXPECT_NEAR(places(svg, "band", "y").front(), zero + 0.8 * span, 0.11);
  EXPECT_NEAR(places(svg, "band", "height").front(), -0.3 * span, 0.11);
  // The square is the second trace's; its corner lies half its width from the number.
  const double half = places(svg, "trace trace-1 dot", "width").front() / 2;
  EXPECT_NEAR(places(svg, "trace trace-1 dot", "x").front() + half, left[0] + 0.25 * (right[0] - left[0]), 0.11);
  EXPECT_NEAR(places(svg, "trace trace-1 dot", "y").front() + half, zero + 0.25 * span, 0.11);
}

TEST(ChartTest, TracesAreTold) {
  const auto charts = charts_of_all_kinds();
  EXPECT_EQ(described(charts[0]).substr(0, 24), "pH against titrant, mL. ");
  EXPECT_NE(described(charts[0]).find("Points 'end point': 5.80 at 9.0."), std::string::npos) << described(charts[0]);
  EXPECT_NE(described(charts[1]).find("Band 'stable': 0.00 to 1.00."), std::string::npos);
  EXPECT_NE(described(charts[1]).find("2.40 at -4, "), std::string::npos) << described(charts[1]);
  EXPECT_NE(described(charts[1]).find(", 0.96 at 20."), std::string::npos) << described(charts[1]);
}

// No two of the first five lines have the same dashes; black ink alone tells them apart.
TEST(ChartTest, LinesDifferWithoutColour) {
  const auto svg = drawn(charts_of_all_kinds()[3]);
  const std::regex dashed("trace trace-[0-9]+\" stroke-dasharray=\"([^\"]*)\" d=\"M[0-9]+\\.");
  std::vector<std::string> seen;
  for (std::sregex_iterator at(svg.begin(), svg.end(), dashed), end; at != end; ++at) seen.push_back((*at)[1]);
  ASSERT_EQ(seen.size(), 6U);
  std::sort(seen.begin(), seen.begin() + 5);
  EXPECT_EQ(std::adjacent_find(seen.begin(), seen.begin() + 5), seen.begin() + 5);
}

TEST(ChartTest, WhatCannotBeDrawnIsLeftOut) {
  const double inf = std::numeric_limits<double>::infinity(), nan = std::numeric_limits<double>::quiet_NaN();
  Chart chart{.name = "c", .x = {"x", "1", 1}, .y = {"y", "1", 1}, .traces = {{.name = "t", .points = {}}}};
  EXPECT_EQ(drawn(chart), "");
  chart.traces[0].points = {{nan, 1}, {1, inf}, {1e300, 1}};
  EXPECT_EQ(drawn(chart), "");
  chart.traces[0].points = {{nan, 1}, {1, 5}, {2, inf}};
  chart.band = {{-inf, 1}};
  for (const bool dots : {false, true}) {
    chart.traces[0].dots = dots;
    const auto svg = drawn(chart);
    EXPECT_NE(svg.find("role=\"img\""), std::string::npos);
    EXPECT_EQ(svg.find("nan"), std::string::npos) << svg;
    EXPECT_EQ(svg.find("inf"), std::string::npos) << svg;
  }
}

TEST(ChartTest, OneValueAllAlong) {
  for (const double value : {0.0, 3.0, -2e-9, 4e11}) {
    const auto svg =
        drawn({.name = "c", .x = {"x", "1", 1}, .y = {"y", "1", 1}, .traces = {trace_of("t", 0, 1, [=](double) {
                                                                      return value;
                                                                    })}});
    EXPECT_GE(places(svg, "grid", "y1").size(), 2U) << value;
    EXPECT_LE(places(svg, "grid", "y1").size(), 15U) << value;
  }
}

}  // namespace chart_test
