// pink.contact, run by recipe. Readings made from a known course must give it back.
#include "tests/plugins/run.hpp"

#include <fmt/format.h>

#include <cmath>
#include <random>
#include <vector>

namespace vatwright::test {
namespace pink_contact_test {

struct Course {
  double start, plateau, rate;  // AU, AU, 1/h
  double at(double t) const { return plateau - (plateau - start) * std::exp(-rate * t); }
  double when(double colour) const { return std::log((plateau - start) / (plateau - colour)) / rate; }
};
constexpr Course course{0.1, 2.4, 0.18};

// Readings of the course through `path` mm, pushed up and down in turn by `noise`.
std::string readings(const std::vector<double>& hours, double noise = 0, double path = 10, const Course& c = course) {
  std::string text = fmt::format("readings: {{path: {} mm", path);
  double sign = 1;
  for (const double t : hours) {
    text += fmt::format(", {} h: {:.9f} AU", t, (c.at(t) + sign * noise) * path / 10);
    sign = -sign;
  }
  return text + "}";
}
const std::vector<double> usual{1, 2, 3, 4, 6, 8};

StepSheet contact(const std::string& inputs) { return run_step("stage: must", "pink.contact: {" + inputs + "}"); }
std::string refused(const std::string& inputs) { return refusal("stage: must", "pink.contact: {" + inputs + "}"); }

bool has_result(const StepSheet& step, std::string_view name) {
  for (const auto& value : step.outcome.results)
    if (value.info->name == name) return true;
  return false;
}
bool holds(const StepSheet& step, std::string_view name) {
  const auto* one = check(step, name);
  EXPECT_NE(one, nullptr) << name;
  return one != nullptr && one->holds;
}

TEST(PinkContact, GivesTheCourseBack) {
  const auto step = contact(readings(usual) + ", target: 2.0 AU");
  EXPECT_NEAR(result(step, "plateau"), 2.4, 1e-6);
  EXPECT_NEAR(result(step, "fitted start"), 0.1, 1e-6);
  EXPECT_NEAR(result(step, "half time"), std::log(2) / 0.18, 1e-5);
  EXPECT_NEAR(result(step, "press at"), course.when(2.0), 1e-5);
  EXPECT_NEAR(result(step, "uncertainty of press at"), 0, 1e-5);
  EXPECT_TRUE(holds(step, "closing check"));
  EXPECT_TRUE(holds(step, "the plateau lies above"));
  EXPECT_TRUE(holds(step, "usual shortest"));
  EXPECT_TRUE(holds(step, "usual longest"));
  ASSERT_EQ(step.outcome.charts.size(), 1u);
  EXPECT_EQ(step.outcome.charts[0].traces.size(), 3u);
}

// Absorbance goes with the path: readings in a short cell give the same hours.
TEST(PinkContact, ThroughAnotherCell) {
  const auto short_cell = contact(readings(usual, 0.01, 2) + ", target: 1.8 AU");
  const auto usual_cell = contact(readings(usual, 0.01, 10) + ", target: 1.8 AU");
  EXPECT_NEAR(result(short_cell, "press at"), result(usual_cell, "press at"), 1e-6);
  EXPECT_NEAR(result(short_cell, "plateau"), result(usual_cell, "plateau"), 1e-6);
  EXPECT_TRUE(noted(short_cell, "from a cell of 2.0 mm"));
}

// Readings that scatter make the hour unsure, in step with their scatter; the interval is Student's, 3.182
// for the 3 readings that there are more than unknowns (every textbook's table).
TEST(PinkContact, UncertaintyFollowsTheScatter) {
  const auto calm = contact(readings(usual, 0.005) + ", target: 1.8 AU");
  const auto rough = contact(readings(usual, 0.010) + ", target: 1.8 AU");
  const double u = result(calm, "uncertainty of press at");
  EXPECT_GT(u, 0);
  EXPECT_NEAR(result(rough, "uncertainty of press at") / u, 2, 0.1);
  EXPECT_NEAR(result(calm, "press at") - result(calm, "earliest"), 3.182 * u, 1e-3 * u);
  EXPECT_NEAR(result(calm, "latest") - result(calm, "press at"), 3.182 * u, 1e-3 * u);
  EXPECT_GT(result(calm, "uncertainty of plateau"), 0);
  EXPECT_GT(result(calm, "scatter"), 0);
}

TEST(PinkContact, PastThePlateau) {
  const auto step = contact(readings(usual, 0.005) + ", target: 3.0 AU");
  EXPECT_FALSE(holds(step, "the plateau lies above"));
  EXPECT_TRUE(has(check(step, "the plateau lies above")->remedy, "do not give that colour"));
  for (const char* name : {"press at", "uncertainty of press at", "earliest", "latest"})
    EXPECT_FALSE(has_result(step, name)) << name;
  EXPECT_NEAR(result(step, "plateau"), 2.4, 0.1);
  EXPECT_TRUE(step.outcome.tables.empty());
}

TEST(PinkContact, BelowTheStart) {
  const auto step = contact(readings(usual, 0, 10, {0.6, 2.4, 0.18}) + ", target: 0.4 AU");
  EXPECT_FALSE(holds(step, "the target lies above the start"));
  EXPECT_FALSE(has_result(step, "press at"));
}

TEST(PinkContact, OutsideTheReadings) {
  const auto beyond = contact(readings(usual, 0.002) + ", target: 2.1 AU");
  EXPECT_TRUE(noted(beyond, "extrapolated: the last reading was at 8.0 h"));
  const auto passed = contact(readings(usual, 0.002) + ", target: 1.5 AU");
  EXPECT_TRUE(noted(passed, "reached before the last reading"));
  EXPECT_FALSE(noted(passed, "extrapolated"));
  EXPECT_TRUE(passed.outcome.tables.empty());
  const auto early = contact(readings({4, 5, 6, 8, 10}, 0.002) + ", target: 0.9 AU");
  EXPECT_TRUE(noted(early, "before the first reading at 4.0 h"));
}

// The next readings lie after the last one and not after the hour to press, in order.
TEST(PinkContact, NextReadings) {
  const auto step = contact(readings(usual, 0.01) + ", target: 2.1 AU");
  ASSERT_EQ(step.outcome.tables.size(), 1u);
  const auto& rows = step.outcome.tables[0].rows;
  ASSERT_GE(rows.size(), 2u);
  double before = 8 * 3600.0;
  for (const auto& row : rows) {
    const double at = std::get<double>(row.at(0));
    EXPECT_GT(at, before);
    before = at;
  }
  EXPECT_NEAR(before / 3600, result(step, "press at"), 1e-9);
  EXPECT_NEAR(std::get<double>(rows.back().at(1)), 2.1, 1e-9);
}

// The usual span is 2 to 48 h (common practice, no source).
TEST(PinkContact, UsualSpan) {
  const auto quick = contact(readings({0.25, 0.5, 1, 1.5, 2, 3}, 0.001, 10, {0.1, 2.4, 0.9}) + ", target: 1.2 AU");
  EXPECT_LT(result(quick, "press at"), 2);
  EXPECT_FALSE(holds(quick, "usual shortest"));
  const auto slow = contact(readings({6, 12, 20, 30, 40}, 0.001, 10, {0.1, 2.4, 0.03}) + ", target: 2.0 AU");
  EXPECT_GT(result(slow, "press at"), 48);
  EXPECT_FALSE(holds(slow, "usual longest"));
}

// The work: when to read again, and when to press.
TEST(PinkContact, SaysWhatToDo) {
  const auto beyond = contact(readings(usual, 0.002) + ", target: 2.1 AU").outcome.work;  // at 11.3 h
  ASSERT_EQ(beyond.size(), 2u);
  EXPECT_TRUE(has(beyond[0], "read the colour again at 9.")) << beyond[0];
  EXPECT_TRUE(has(beyond[1], "press at 11.")) << beyond[1];
  const auto passed = contact(readings(usual, 0.002) + ", target: 1.5 AU").outcome.work;
  ASSERT_EQ(passed.size(), 1u);
  EXPECT_TRUE(has(passed[0], "press now")) << passed[0];
  const auto wine = contact(readings(usual, 0.002) + ", target in wine: 0.2 AU").outcome.work;
  ASSERT_EQ(wine.size(), 2u);
  EXPECT_TRUE(has(wine[1], "set no hour to press before that reading: it may be any from 1.")) << wine[1];
}

TEST(PinkContact, TooFewReadings) {
  const auto two = refused(readings({1, 2}) + ", target: 1.5 AU");
  EXPECT_TRUE(has(two, "2 different times are too few")) << two;
  EXPECT_TRUE(has(two, "it takes 4"));
  EXPECT_FALSE(refused(readings({1, 2, 4}) + ", target: 1.5 AU").empty());
  EXPECT_TRUE(refused(readings({1, 2, 4, 6}, 0.001) + ", target: 1.5 AU").empty());
  // One unknown fewer when the colour at 0 h is known.
  EXPECT_TRUE(refused(readings({1, 2, 4}, 0.001) + ", target: 1.5 AU, colour at 0 h: 0.1 AU").empty());
  EXPECT_TRUE(has(refused(readings({1, 2}) + ", target: 1.5 AU, colour at 0 h: 0.1 AU"), "it takes 3"));
}

TEST(PinkContact, KnownStartIsHeld) {
  const auto step = contact(readings(usual, 0.01) + ", target: 1.8 AU, colour at 0 h: 0.1 AU");
  EXPECT_NEAR(result(step, "fitted start"), 0.1, 1e-12);
  EXPECT_LT(result(step, "uncertainty of press at"),
            result(contact(readings(usual, 0.01) + ", target: 1.8 AU"), "uncertainty of press at"));
}

// Skins that begin to give after half an hour: the same as a start below zero, and the sheet says when.
TEST(PinkContact, SlowToBegin) {
  const Course slow{2.4 * (1 - std::exp(0.18 * 0.5)), 2.4, 0.18};
  const auto step = contact(readings(usual, 0, 10, slow) + ", target: 2.0 AU");
  EXPECT_LT(result(step, "fitted start"), 0);
  EXPECT_NEAR(result(step, "press at"), slow.when(2.0), 1e-5);
  EXPECT_TRUE(noted(step, "colour began to come only at 0.5 h"));
  EXPECT_FALSE(noted(contact(readings(usual) + ", target: 1.3 AU"), "began to come"));
}

TEST(PinkContact, RefusesWhatIsNoExtraction) {
  const auto straight =
      refused("readings: {path: 10 mm, 1 h: 0.2 AU, 2 h: 0.4 AU, 3 h: 0.6 AU, 4 h: 0.8 AU}, target: 1 AU");
  EXPECT_TRUE(has(straight, "straight line")) << straight;
  const auto steeper =
      refused("readings: {path: 10 mm, 1 h: 0.1 AU, 2 h: 0.3 AU, 3 h: 0.7 AU, 4 h: 1.5 AU}, target: 1 AU");
  EXPECT_TRUE(has(steeper, "straight line")) << steeper;
  const auto falls =
      refused("readings: {path: 10 mm, 1 h: 1.2 AU, 2 h: 0.9 AU, 3 h: 0.8 AU, 4 h: 0.75 AU}, target: 1 AU");
  EXPECT_TRUE(has(falls, "does not rise")) << falls;
  const auto level = refused("readings: {path: 10 mm, 1 h: 1 AU, 2 h: 1 AU, 3 h: 1 AU, 4 h: 1 AU}, target: 2 AU");
  EXPECT_TRUE(has(level, "does not rise")) << level;
  const auto over =
      refused("readings: {path: 10 mm, 0 h: 0.2 AU, 8 h: 1.00 AU, 9 h: 1.01 AU, 10 h: 1.00 AU}, target: 0.9 AU");
  EXPECT_TRUE(has(over, "how fast")) << over;
  const auto before =
      refused("readings: {path: 10 mm, -1 h: 0.2 AU, 2 h: 0.4 AU, 3 h: 0.6 AU, 4 h: 0.7 AU}, target: 1 AU");
  EXPECT_FALSE(before.empty());
  EXPECT_FALSE(refused(readings(usual)).empty());
  EXPECT_FALSE(refused(readings(usual) + ", target: 1 AU, target in wine: 0.3 AU").empty());
  EXPECT_FALSE(refused(readings(usual) + ", target: nan AU").empty());
}

// A wine of 0.2 wants a must of 0.5 to 2.0: 60 to 90 % is lost (Phytoma, La Vigne, VI1562118679); in the middle, 0.8.
TEST(PinkContact, TargetInWineIsAnInterval) {
  const auto step = contact(readings(usual, 0.002) + ", target in wine: 0.2 AU");
  EXPECT_NEAR(result(step, "press at"), course.when(0.8), 0.1);
  EXPECT_NEAR(result(step, "earliest"), course.when(0.5), 0.2);
  EXPECT_NEAR(result(step, "latest"), course.when(2.0), 0.5);
  EXPECT_LE(result(step, "earliest"), course.when(0.5));
  EXPECT_GE(result(step, "latest"), course.when(2.0));
  EXPECT_TRUE(noted(step, "0.500 AU to 2.000 AU"));
  EXPECT_NEAR(number(*check(step, "usual shortest")->value), course.when(0.8), 0.1);
  // The upper end is past the plateau: no latest hour, and what can be had is told all the same.
  const auto dark = contact(readings(usual, 0.002) + ", target in wine: 0.4 AU");
  EXPECT_TRUE(has_result(dark, "earliest"));
  EXPECT_FALSE(has_result(dark, "latest"));
  EXPECT_NEAR(result(dark, "press at"), course.when(1.6), 0.2);
  EXPECT_TRUE(holds(dark, "the plateau lies above"));
  EXPECT_TRUE(noted(dark, "there is no latest hour"));
  // Not even the least of what the must may need.
  const auto too_dark = contact(readings(usual, 0.002) + ", target in wine: 1.0 AU");
  EXPECT_FALSE(holds(too_dark, "the plateau lies above"));
  EXPECT_TRUE(too_dark.outcome.work.empty());
}

// Whatever the colours are: the check fails only where the skins give not even the least, and an hour to press is
// ordered only where the hours that it may be lie close together.
TEST(PinkContact, AWideSpanOrdersAReadingAndNoHour) {
  std::mt19937 random(11);
  std::uniform_real_distribution<double> plateau(0.8, 4), rate(0.05, 0.5), wine(0.05, 0.6);
  int wide = 0;
  for (int i = 0; i < 60; ++i) {
    const Course any{0.1, plateau(random), rate(random)};
    const double wanted = wine(random);
    const auto step = contact(readings(usual, 0.001, 10, any) + fmt::format(", target in wine: {:.4f} AU", wanted));
    SCOPED_TRACE(fmt::format("{} AU in wine, plateau {} AU, {} 1/h", wanted, any.plateau, any.rate));
    const double least = wanted / 0.4;
    if (std::abs(least / any.plateau - 1) > 0.05) {
      EXPECT_EQ(holds(step, "the plateau lies above"), least < any.plateau);
    }
    for (const auto& work : step.outcome.work) {
      const bool names_one = work.starts_with("press at") || work.starts_with("press between");
      const double span = has_result(step, "latest") ? result(step, "latest") - result(step, "earliest") : 1000;
      if (names_one) {
        EXPECT_LE(span, 4);
      }
      wide += work.starts_with("set no hour") ? 1 : 0;
    }
  }
  EXPECT_GT(wide, 5);
}

}  // namespace pink_contact_test
}  // namespace vatwright::test
