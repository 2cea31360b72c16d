// What the law counts over all additions of a substance is counted, whichever substance it is: every topic on what is
// weighed in, of every rule set.
#include "plugins/lab/dosed_limits.hpp"
#include "tests/plugins/run.hpp"

#include <fmt/format.h>

#include <cmath>
#include <map>
#include <random>
#include <set>

namespace vatwright::test {
namespace counted_doses_test {

// A dosed limit that is not counted stands here, with the reason.
const std::map<std::string_view, const char*> never_counted{};

TEST(CountedDoses, EveryDosedLimitIsCountedOrSaysWhyNot) {
  for (const auto& row : lab::dosed_limits)
    EXPECT_NE(lot::is_counted(row.substance), never_counted.contains(row.substance))
        << row.substance << ", " << row.limit->name;
}

// The shares that the topics count are those of the catalogue's formulas.
TEST(CountedDoses, SharesAreTheCatalogues) {
  const TestHouse house;
  for (const auto& row : lab::dosed_limits) {
    const auto* substance = house.catalogue.find(std::string(row.substance));
    ASSERT_NE(substance, nullptr) << row.substance;
    const double share = substance->facts.active_share;
    if (!lab::counts_what_acts(row.limit) || !(share > 0)) continue;
    EXPECT_NEAR(row.counts, share, 1e-9) << row.substance << ", " << row.limit->name;
  }
}

std::string step_of(std::string_view substance, double dose) {
  const bool by_label = substance == "silica sol" || substance == "copper citrate";
  return fmt::format("cellar.dose: {{substance: {}, dose: {:.6f} mg/L{}}}", substance, dose,
                     by_label ? ", share that acts: 30 %" : "");
}

// Two doses, each of them within the limit and past it together: the second is not weighed.
TEST(CountedDoses, TwoDosesAreHeldTogether) {
  std::mt19937 random(41);
  std::uniform_real_distribution<double> part(0.55, 0.95);
  std::set<std::string_view> tried;
  for (const std::string rules : {"EU", "OIV", "US"}) {
    for (const char* stage : {"must", "wine"}) {
      const auto lot = fmt::format("volume: 1000 hL, class: still, colour: white, sugar: 8 g/L, stage: {}", stage);
      for (const auto& row : lab::dosed_limits) {
        SCOPED_TRACE(fmt::format("{}, {}, {}, {}", rules, stage, row.substance, row.limit->name));
        const auto name = std::string(row.limit->name) + " limit, ";
        const auto tiny = run_step(lot, step_of(row.substance, 0.2), rules);
        const auto* held = check(tiny, name);
        if (held == nullptr || !(held->limit->number > 0) || !tiny.outcome.holds()) continue;
        double most = 0.2 * held->limit->number / held->value->number;
        for (const auto& other : tiny.outcome.checks)  // the strictest row that the substance meets
          if (other.on != nullptr && other.limit->number > 0 && other.value->number > 0)
            most = std::min(most, 0.2 * other.limit->number / other.value->number);
        const auto sheet =
            run(lot, {step_of(row.substance, most * part(random)), step_of(row.substance, most * part(random))}, rules);
        EXPECT_EQ(sheet.steps[0].outcome.additions.size(), 1U);
        EXPECT_TRUE(sheet.steps[1].outcome.additions.empty());
        EXPECT_FALSE(sheet.steps[1].outcome.holds());
        tried.insert(row.substance);
      }
    }
  }
  // No rule set here has a row for the autolysate; a house may.
  for (const auto& row : lab::dosed_limits)
    EXPECT_NE(tried.contains(row.substance), row.limit == &lab::autolysate) << row.substance;
}

// Half the limit of a topic in one substance, and more than half in another that counts under it.
TEST(CountedDoses, OneTopicCountsAllItsSubstances) {
  const struct {
    const char *lot, *first, *second, *rules;
  } rows[] = {{"stage: wine", "pea protein, dose: 30 g/hL", "potato protein, dose: 25 g/hL", "OIV"},
              {"stage: must", "diammonium phosphate, dose: 60 g/hL", "ammonium sulfate, dose: 45 g/hL", "EU"},
              {"stage: wine", "copper citrate, share that acts: 2 %, dose: 0.6 mg/L",
               "copper sulfate pentahydrate, dose: 2 mg/L", "EU"}};
  for (const auto& row : rows) {
    SCOPED_TRACE(row.second);
    const std::string lot = std::string("volume: 1000 hL, class: still, colour: white, ") + row.lot;
    const auto dose = [](const char* what) { return fmt::format("cellar.dose: {{substance: {}}}", what); };
    EXPECT_EQ(run_step(lot, dose(row.second), row.rules).outcome.additions.size(), 1U);
    const auto sheet = run(lot, {dose(row.first), dose(row.second)}, row.rules);
    EXPECT_EQ(sheet.steps[0].outcome.additions.size(), 1U);
    EXPECT_TRUE(sheet.steps[1].outcome.additions.empty());
  }
}

// 20 lb of a sol of 30 % in 1000 gal, 2.4 g/L: 0.72 g/L of silica, in whatever sol it comes.
// Outside check of cellar.dose: 3 values within 0.5 %, from either side, seen.
// Source: 27 CFR 24.246, table of materials (2015 edition).
TEST(CountedDoses, SilicaSolOfEveryStrength) {
  for (const double share : {15.0, 30.0, 40.0})
    for (const double times : {0.995, 1.005}) {
      const auto step =
          run_step("volume: 48 hL, stage: wine",
                   fmt::format("cellar.dose: {{substance: silica sol, share that acts: {} %, dose: {:.6f} g/L}}", share,
                               0.72 * times),
                   "US");
      EXPECT_EQ(step.outcome.additions.size(), times < 1 ? 1U : 0U) << share;
      if (times > 1) continue;
      const double kilograms = 0.72 * times * 4.8 / share * 100;
      EXPECT_NEAR(step.outcome.additions[0].mass->value(), kilograms, 0.005 * kilograms);
    }
}

}  // namespace counted_doses_test
}  // namespace vatwright::test
