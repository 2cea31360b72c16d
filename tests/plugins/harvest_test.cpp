// pink.harvest, run by recipe. Courses that run straight have windows that can be written out.
#include "tests/plugins/run.hpp"

#include <fmt/format.h>

#include <cmath>
#include <random>

namespace vatwright::test {
namespace harvest_test {

// Samples every four days from 14 August: sugar rises 2.5 g/L a day, pH 0.015, with no scatter.
std::string samples(const std::string& plot, double sugar, double ph, int count = 4) {
  std::string rows;
  for (int i = 0; i < count; ++i)
    rows += fmt::format("{{plot: {}, date: 2026-08-{}, sugar: {} g/L, pH: {}}}, ", plot, 14 + 4 * i, sugar + 10 * i,
                        ph + 0.06 * i);
  return rows;
}

std::string harvest(const std::string& rows, const std::string& more) {
  return "pink.harvest: {readings: [" + rows.substr(0, rows.size() - 2) + "], " + more + "}";
}

StepSheet pick(const std::string& rows, const std::string& more) {
  return run_step("volume: 1 L", harvest(rows, more));
}

std::string cell(const StepSheet& step, std::size_t row, std::size_t column) {
  return std::get<std::string>(step.outcome.tables.at(0).rows.at(row).at(column));
}

// 150 + 2.5 d = 190 on day 16, 3.00 + 0.015 d = 3.30 on day 20: 30 August to 3 September.
TEST(PinkHarvest, TheWindowOfAStraightCourse) {
  const auto step = pick(samples("A", 150, 3.00), "wanted: {sugar: at least 190 g/L, pH: at most 3.30}");
  EXPECT_NEAR(result(step, "opens after"), 16, 1e-6);
  EXPECT_NEAR(result(step, "closes after"), 20, 1e-6);
  EXPECT_EQ(cell(step, 0, 2), "2026-08-30");
  EXPECT_EQ(cell(step, 0, 3), "sugar");
  EXPECT_EQ(cell(step, 0, 5), "2026-09-03");
  EXPECT_EQ(cell(step, 0, 6), "pH");
  ASSERT_EQ(step.outcome.work.size(), 1u);
  EXPECT_EQ(step.outcome.work[0], "sample plot A again, and pick it for pink from 2026-08-30 to 2026-09-03");
  EXPECT_TRUE(check(step, "plot A")->holds);
  EXPECT_EQ(step.outcome.charts.size(), 2u);
}

// Acidity falls: a lower bound closes the window, an upper one opens it.
TEST(PinkHarvest, AFallingFigureClosesAtItsLowerBound) {
  std::string rows;
  for (int i = 0; i < 4; ++i)
    rows += fmt::format("{{plot: A, date: 2026-08-{}, titratable acidity: {} g/L as tartaric acid}}, ", 14 + 4 * i,
                        10 - 0.8 * i);
  const auto step = pick(rows, "wanted: {titratable acidity: 6.6 to 8.0 g/L as tartaric acid}");
  EXPECT_NEAR(result(step, "opens after"), 12, 1e-6);  // day 10, but it hung still at the last reading
  EXPECT_NEAR(result(step, "closes after"), 17, 1e-6);
}

TEST(PinkHarvest, TheMostUrgentPlotIsNamed) {
  const auto step =
      pick(samples("A", 150, 3.00) + samples("B", 160, 3.06), "wanted: {sugar: at least 188 g/L, pH: at most 3.30}");
  EXPECT_NEAR(result(step, "opens after"), 12, 1e-6);   // B: (188 - 160) / 2.5, and its last reading
  EXPECT_NEAR(result(step, "closes after"), 16, 1e-6);  // B: 0.24 / 0.015
  EXPECT_TRUE(noted(step, "plot B closes first"));
  EXPECT_TRUE(noted(step, "plot A: extrapolated by 4 days"));
  EXPECT_EQ(step.outcome.tables.at(0).rows.size(), 2u);
}

TEST(PinkHarvest, RedComesLater) {
  const auto step = pick(samples("A", 150, 3.00),
                         "wanted: {sugar: 180 to 200 g/L}, wanted for red: {sugar: at least 210 g/L}, "
                         "look ahead: 21 d");
  EXPECT_TRUE(noted(step, "the window for red opens 12 days after that for pink"));
  EXPECT_EQ(cell(step, 1, 1), "red");
  EXPECT_EQ(cell(step, 1, 2), "2026-09-07");
}

TEST(PinkHarvest, WhenTwoBoundsClashThereIsNoDay) {
  const auto step = pick(samples("A", 150, 3.00), "wanted: {sugar: at least 190 g/L, pH: at most 3.20}");
  const auto* none = check(step, "plot A");
  ASSERT_NE(none, nullptr);
  EXPECT_FALSE(none->holds);
  EXPECT_TRUE(has(none->remedy,
                  "sugar at least 190 g/L is reached on 2026-08-30, but pH at most 3.20 holds only until "
                  "2026-08-27"))
      << none->remedy;
  EXPECT_EQ(cell(step, 0, 2), "none");
  EXPECT_THROW(result(step, "opens after"), std::out_of_range);
}

TEST(PinkHarvest, NotReachedWithinTheLookAhead) {
  const auto step = pick(samples("A", 150, 3.00), "wanted: {sugar: at least 230 g/L}, look ahead: 7 d");
  EXPECT_TRUE(has(check(step, "plot A")->remedy, "is not reached by 2026-09-02")) << check(step, "plot A")->remedy;
}

TEST(PinkHarvest, AWindowThatHasPassedFails) {
  const auto closed = pick(samples("A", 190, 3.20), "wanted: {sugar: at least 180 g/L, pH: at most 3.30}");
  EXPECT_FALSE(check(closed, "plot A")->holds);
  EXPECT_TRUE(has(check(closed, "plot A")->remedy, "before the last reading")) << check(closed, "plot A")->remedy;
  const auto never = pick(samples("A", 190, 3.40), "wanted: {pH: at most 3.30}");
  EXPECT_TRUE(has(check(never, "plot A")->remedy, "did not hold at the first reading any more"));
}

// A figure that stands still opens and closes nothing; out of its bound it never comes in.
TEST(PinkHarvest, AFigureThatStandsStill) {
  std::string rows;
  for (int i = 0; i < 3; ++i) rows += fmt::format("{{plot: A, date: 2026-08-{}, pH: 3.25}}, ", 14 + 4 * i);
  EXPECT_TRUE(check(pick(rows, "wanted: {pH: at most 3.30}"), "plot A")->holds);
  EXPECT_FALSE(check(pick(rows, "wanted: {pH: at most 3.20}"), "plot A")->holds);
}

// By hand for 0, 4, 8, 12 days and 150, 161, 169, 181 g/L: slope 2.525, start 150.1, residual sum of
// squares 2.7, so that s² = 1.35; t for two degrees of freedom is 4.3027 (printed tables). At x the line
// has the variance s² (1/4 + (x - 6)²/80).
// Outside check of pink.harvest: 2 values within 1e-6 and 1e-5 d, derived.
// Source: least squares by hand, with Student's t from printed tables.
TEST(PinkHarvest, TheDoubtOfTheDay) {
  std::string rows;
  const int sugar[] = {150, 161, 169, 181};
  for (int i = 0; i < 4; ++i)
    rows += fmt::format("{{plot: A, date: 2026-08-{}, sugar: {} g/L}}, ", 14 + 4 * i, sugar[i]);
  const auto step = pick(rows, "wanted: {sugar: at least 190 g/L}");
  const double day = (190 - 150.1) / 2.525;
  EXPECT_NEAR(result(step, "opens after"), std::ceil(day), 1e-6);
  const double doubt = 4.302653 * std::sqrt(1.35 * (0.25 + (day - 6) * (day - 6) / 80)) / 2.525;
  EXPECT_NEAR(std::get<double>(step.outcome.tables.at(0).rows.at(0).at(4)) / 86400, doubt, 1e-5);
}

// However straight three readings lie, their day is no surer than the instruments: with 1.96 times 0.6 g/L a reading
// the line at x is uncertain by that times the root of 1/3 + (x - 4)²/32.
TEST(PinkHarvest, NoDayIsSurerThanTheInstruments) {
  const auto step = pick(samples("A", 150, 3.00, 3), "wanted: {sugar: at least 190 g/L}");
  const double doubt = 1.96 * 0.6 * std::sqrt(1.0 / 3 + (16.0 - 4) * (16.0 - 4) / 32) / 2.5;
  EXPECT_NEAR(std::get<double>(step.outcome.tables.at(0).rows.at(0).at(4)) / 86400, doubt, 1e-3);
  std::mt19937 random(5);
  std::uniform_real_distribution<double> start(120, 185), ph(2.9, 3.2);
  for (int i = 0; i < 30; ++i) {
    const auto any =
        pick(samples("A", start(random), ph(random), 3), "wanted: {sugar: at least 195 g/L, pH: at most 3.4}");
    for (const auto& row : any.outcome.tables.at(0).rows)
      for (const std::size_t column : {std::size_t{4}, std::size_t{7}})
        if (const auto* half = std::get_if<double>(&row.at(column))) {
          EXPECT_GT(*half / 86400, 0.25);
        }
  }
}

// One plot has one window: in the work, the table, the check, the figures and the notes.
TEST(PinkHarvest, OneWindowWhereverItIsNamed) {
  std::mt19937 random(6);
  std::uniform_real_distribution<double> start(130, 190), ph(2.85, 3.25);
  int seen = 0;
  for (int i = 0; i < 60; ++i) {
    const auto step =
        pick(samples("A", start(random), ph(random)), "wanted: {sugar: at least 185 g/L, pH: at most 3.35}");
    if (step.outcome.work.empty()) continue;
    ++seen;
    const auto from = cell(step, 0, 2), to = cell(step, 0, 5);
    EXPECT_TRUE(has(step.outcome.work[0], from == to ? "on " + to : "from " + from + " to " + to))
        << step.outcome.work[0];
    const auto day = [](const std::string& date) {
      const int of_month = std::stoi(date.substr(8));
      return of_month - 14 + (date.substr(5, 2) == "09" ? 31 : 0);
    };
    EXPECT_NEAR(result(step, "opens after"), day(from), 1e-6);
    EXPECT_NEAR(result(step, "closes after"), day(to), 1e-6);
    EXPECT_NEAR(number(*check(step, "plot A")->value), day(from), 1e-6);
    EXPECT_NEAR(number(*check(step, "plot A")->limit), day(to), 1e-6);
    EXPECT_TRUE(!noted(step, "closes first") || noted(step, "after " + to + " it has no longer"));
  }
  EXPECT_GT(seen, 20);
}

TEST(PinkHarvest, RefusesWhatCannotBe) {
  const auto says = [](const std::string& rows, const std::string& more, std::string_view part) {
    const auto said = refusal("volume: 1 L", harvest(rows, more));
    EXPECT_TRUE(has(said, part)) << said;
  };
  says(samples("A", 150, 3.00, 2), "wanted: {sugar: at least 190 g/L}",
       "plot 'A' has readings of sugar on fewer than three days");
  says(samples("A", 150, 3.00) + samples("B", 150, 3.00, 1), "wanted: {pH: at most 3.3}",
       "plot 'B' has readings of pH");
  says(samples("A", 150, 3.00), "wanted: {soluble solids: at least 20 °Brix}", "readings of soluble solids on fewer");
  says(samples("A", 150, 3.00), "wanted: {pH: 3.30}", "pH is one figure");
  says(samples("A", 150, 3.00), "wanted: {free SO2: at most 3 mg/L}", "unknown key 'free SO2'");
  says("{plot: A, date: 2026-02-30, pH: 3.1}, ", "wanted: {pH: at most 3.3}", "is no day");
  says("{plot: A, pH: 3.1}, ", "wanted: {pH: at most 3.3}", "misses 'date'");
  const std::string one_day = "{plot: A, date: 2026-08-14, pH: 3.1}, ";
  says(one_day + one_day + one_day, "wanted: {pH: at most 3.3}", "on fewer than three days");
}

}  // namespace harvest_test
}  // namespace vatwright::test
