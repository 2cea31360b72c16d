// What becomes of each fact of a lot when something that holds none of them is poured in, over all facts and volumes.
#include "host/facts/pour.hpp"

#include "host/plugin/lot.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <random>

namespace vatwright::facts {
namespace pour_test {

// A lot that states every fact.
Analysis of_everything() {
  Analysis lot;
  for (const Input* key : lot::keys) {
    Value value;
    value.number = 2;
    value.word = "something";
    value.series.points = {{5e-7, 2.0}};
    value.amounts = {{"something", 2.0}};
    lot.emplace(key->name, value);
  }
  return lot;
}

Poured poured(double before, double after) {
  return {Volume::from_value(before), Volume::from_value(after), Mass::from_value(1000 * (after - before))};
}

template <class Rows>
bool names(const Rows& rows, const Input& fact) {
  return std::any_of(rows.begin(), rows.end(), [&](const auto& row) {
    if constexpr (std::is_pointer_v<std::decay_t<decltype(row)>>)
      return row == &fact;
    else
      return row.key == &fact;
  });
}

// A fact that nothing thins is not so much as touched: what a laboratory read of it stays a reading.
TEST(PourTest, TouchesOnlyWhatItMoves) {
  const Analysis lot = of_everything();
  Outcome outcome;
  outcome.poured = poured(4, 5);
  pour_in(lot, lot::keys, outcome);
  for (const Input* fact : lot::keys) {
    SCOPED_TRACE(fact->name);
    const bool moved = fact->behaves.thins != Thins::no;
    EXPECT_EQ(names(outcome.changes, *fact) || names(outcome.forgotten, *fact), moved);
    EXPECT_FALSE(names(outcome.changes, *fact) && names(outcome.forgotten, *fact));
  }
}

TEST(PourTest, NothingPouredMovesNothing) {
  Outcome outcome;
  pour_in(of_everything(), lot::keys, outcome);
  EXPECT_TRUE(outcome.changes.empty());
  EXPECT_TRUE(outcome.forgotten.empty());
}

// What the step itself settles is left to it.
TEST(PourTest, LeavesToTheStepWhatItSettles) {
  const Analysis lot = of_everything();
  for (const Input* fact : lot::keys) {
    Outcome outcome;
    outcome.poured = poured(4, 5);
    Value settled;
    settled.number = 7;
    outcome.changes.push_back({fact, settled});
    pour_in(lot, lot::keys, outcome);
    EXPECT_EQ(std::count_if(outcome.changes.begin(), outcome.changes.end(),
                            [&](const Changed& changed) { return changed.key == fact; }),
              1)
        << fact->name;
    EXPECT_FALSE(names(outcome.forgotten, *fact)) << fact->name;
  }
}

TEST(PourTest, EachThinsAsItBehaves) {
  std::mt19937 random(4);
  const auto drawn = [&](double low, double high) { return std::uniform_real_distribution(low, high)(random); };
  const Analysis lot = of_everything();
  for (int turn = 0; turn < 50; ++turn) {
    const double before = drawn(0.1, 50), after = before * drawn(1.02, 1.9);
    for (const Input* fact : lot::keys) {
      SCOPED_TRACE(fact->name);
      if (fact->kind != Kind::quantity) continue;
      const auto then = thinned(*fact, lot.find(fact->name)->second, lot, poured(before, after));
      switch (fact->behaves.thins) {
        case Thins::no:
          ASSERT_TRUE(then);
          EXPECT_EQ(then->number, 2);
          break;
        case Thins::grows:
          ASSERT_TRUE(then);
          EXPECT_NEAR(then->number, after, 1e-12 * after);
          break;
        case Thins::yes:
          ASSERT_TRUE(then);
          EXPECT_NEAR(then->number, 2 * before / after, 1e-12);
          break;
        case Thins::buffered:
        case Thins::unknown:
          EXPECT_FALSE(then);
          break;
        case Thins::by_mass:
        case Thins::to_mean_mass:
          ASSERT_TRUE(then);
          break;
      }
    }
  }
}

}  // namespace pour_test
}  // namespace vatwright::facts
