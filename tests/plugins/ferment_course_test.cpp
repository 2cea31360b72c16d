// ferment.course, run by recipe, on courses whose answers can be written out.
#include "tests/plugins/run.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace vatwright::test {
namespace ferment_course_test {

constexpr double start = 1092, end_of_course = 993, rate = 0.8, middle = 5;

double density(double t) { return end_of_course + (start - end_of_course) / (1 + std::exp(rate * (t - middle))); }

std::string row(int day, double density) {
  return fmt::format("{{date: 2026-09-{}, density: {:.4f} kg/m³}}, ", 10 + day, density);
}

std::string rows(int days) {
  std::string text;
  for (int i = 0; i < days; ++i) text += row(i, density(i));
  return text;
}

StepSheet course(const std::string& rows, const std::string& more = "instrument: corrected") {
  return run_step("volume: 100 hL", "ferment.course: {readings: [" + rows.substr(0, rows.size() - 2) +
                                        "], original density: 1092 kg/m³, density when dry: 993 kg/m³, " + more + "}");
}

TEST(FermentCourse, AnExactCourseIsFoundAgain) {
  const auto step = course(rows(9));
  EXPECT_NEAR(result(step, "end density"), end_of_course, 0.05);
  EXPECT_NEAR(result(step, "fall a day"), density(8) - density(9), 0.05);
  EXPECT_TRUE(step.outcome.holds());
  EXPECT_TRUE(noted(step, "dry on 2026-09-20"));
  EXPECT_NEAR(result(step, "dry after"), 5 + std::log((99 - 1.83) / 1.83) / rate, 0.05);  // 4 g/L are 1.83 kg/m³
  EXPECT_EQ(step.outcome.charts.size(), 1u);
}

// 24 kcal a mole are 0.5574 kJ/g: 20 g/L in 100 hL and a day are 1.29 kW, and 51 m³ of gas are made of 20 g/L by a
// yield of 95 %.
// Outside check of ferment.course: 3 values within 1 %, seen.
// Source: Colombié and others (2007), 24 kcal for a mole of sugar.
TEST(FermentCourse, HeatAndGasOfADay) {
  const auto step = course(rows(7));
  const double sugar = result(step, "sugar a day");
  EXPECT_GT(sugar, 15);
  EXPECT_NEAR(result(step, "cooling power") / (1.29 * sugar / 20), 1, 0.01);
  EXPECT_NEAR(result(step, "heat of a day") / (24 * 1.29 * sugar / 20), 1, 0.01);
  EXPECT_NEAR(result(step, "carbon dioxide of a day") / (51 * sugar / 20), 1, 0.01);
  ASSERT_EQ(step.outcome.reagents.size(), 1u);
  EXPECT_EQ(step.outcome.reagents[0], "carbon dioxide");
}

// Three tanks whose courses are written out: what they fell since yesterday, and the day on which the logistic has no
// more than 4 g/L above its end, m + ln((S - E - A) / A) / k.
// Outside check of ferment.round: 6 values within 0.05 kg/m³ and the day, derived.
// Source: the logistic, worked out apart from this program.
TEST(FermentRound, ThreeCoursesWrittenOut) {
  struct Course {
    double original, rate, middle;
    int days;
  };
  const Course courses[] = {{1092, 0.8, 5, 9}, {1084, 0.7, 5.4, 10}, {1100, 0.9, 4.6, 8}};
  std::string all;
  for (const auto& [original, k, m, days] : courses) {
    for (int i = 0; i < days; ++i) {
      const double then = end_of_course + (original - end_of_course) / (1 + std::exp(k * (i - m)));
      all += fmt::format("{{tank: T{0}, date: 2026-09-{1}, density: {2:.4f} kg/m³, original density: {0} kg/m³}}, ",
                         original, 10 + i, then);
    }
  }
  const auto step = run_step(
      "volume: 1 L", "ferment.round: {instrument: corrected, readings: [" + all.substr(0, all.size() - 2) + "]}");
  EXPECT_NEAR(result(step, "slow tanks"), 0, 1e-9);
  ASSERT_EQ(step.outcome.tables.at(0).rows.size(), 3U);
  for (const auto& row : step.outcome.tables.at(0).rows) {
    const auto& name = std::get<std::string>(row.at(0));
    const auto of = std::ranges::find(courses, std::stod(name.substr(1)), &Course::original);
    ASSERT_NE(of, std::end(courses)) << name;
    const auto at = [&](double t) {
      return end_of_course + (of->original - end_of_course) / (1 + std::exp(of->rate * (t - of->middle)));
    };
    EXPECT_NEAR(std::get<double>(row.at(2)), at(of->days - 2) - at(of->days - 1), 0.05) << name;
    const double dry = of->middle + std::log((of->original - end_of_course - 1.83) / 1.83) / of->rate;
    const auto& day = std::get<std::string>(row.at(6));
    EXPECT_NEAR(std::stod(day.substr(8)), 10 + dry, 1.0) << name << " " << day;
  }
}

TEST(FermentCourse, NoDayOfDryBeforeTheMiddle) {
  const auto step = course(rows(5));
  EXPECT_TRUE(noted(step, "no day of dry is given before the middle"));
  EXPECT_THROW(result(step, "dry after"), std::out_of_range);
}

TEST(FermentCourse, OneThatStopsIsTold) {
  const auto step = course(rows(7) + row(7, density(6) - 0.2));
  EXPECT_FALSE(check(step, "the density falls in a day")->holds);
  EXPECT_FALSE(check(step, "the last reading lies on the course")->holds);
}

// It still falls by far more than what stands still; only its own course tells.
TEST(FermentCourse, OneThatSlowsDownIsToldBeforeItStops) {
  const auto step = course(rows(7) + row(7, density(6) - 4));
  EXPECT_TRUE(check(step, "the density falls in a day")->holds);
  EXPECT_FALSE(check(step, "the last reading lies on the course")->holds);
}

TEST(FermentCourse, FewReadingsGiveStateAndNoCourse) {
  const auto step = course(rows(3));
  EXPECT_TRUE(noted(step, "no course is fitted"));
  EXPECT_GT(result(step, "sugar"), 190);
  EXPECT_EQ(step.outcome.results.size(), 3u);
}

TEST(FermentCourse, TheOrderOfTheRowsDoesNotMatter) {
  std::string turned;
  for (int i = 8; i >= 0; --i) turned += row(i, density(i));
  EXPECT_NEAR(result(course(turned), "dry after"), result(course(rows(9)), "dry after"), 1e-6);
}

TEST(FermentCourse, AHydrometerAwayFromTwentyDegreesIsCorrected) {
  std::string warm;
  for (int i = 0; i < 9; ++i)
    warm += fmt::format("{{date: 2026-09-{}, density: {:.4f} kg/m³, temperature: 14 °C}}, ", 10 + i, density(i));
  EXPECT_LT(result(course(warm, "instrument: hydrometer"), "sugar"), result(course(warm), "sugar"));
  EXPECT_TRUE(has(refusal("volume: 1 hL",
                          "ferment.course: {instrument: hydrometer, original density: 1092 kg/m³, "
                          "readings: [{date: 2026-09-10, density: 1080 kg/m³}]}"),
                  "has no temperature"));
}

// --- the round

TEST(FermentRound, TheTankThatStandsStillComesFirst) {
  std::string all;
  for (int i = 0; i < 6; ++i)
    all += fmt::format(
        "{{tank: quick, date: 2026-09-{0}, density: {1:.2f} kg/m³}}, {{tank: still, date: 2026-09-{0}, "
        "density: {2:.2f} kg/m³}}, ",
        10 + i, density(i), i < 4 ? density(i) : density(3) - 0.1 * i);
  const auto step = run_step(
      "volume: 1 L", "ferment.round: {instrument: corrected, readings: [" + all.substr(0, all.size() - 2) + "]}");
  const auto& rows = step.outcome.tables.at(0).rows;
  ASSERT_EQ(rows.size(), 2u);
  EXPECT_EQ(std::get<std::string>(rows[0].at(0)), "still");
  EXPECT_EQ(std::get<std::string>(rows[0].at(5)), "stands still");
  EXPECT_EQ(result(step, "slow tanks"), 1);
}

}  // namespace ferment_course_test
}  // namespace vatwright::test
