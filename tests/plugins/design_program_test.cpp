// The programs behind blend.design: solver, prices, clashes.
#include "plugins/blend/design/clash.hpp"
#include "plugins/blend/design/program.hpp"
#include "units/error.hpp"

#include <glpk.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <thread>

namespace vatwright::blend::program {
namespace design_program_test {

// The example of the GLPK reference manual, section 1.3, from memory: maximize 10a + 6b + 4c with
// a + b + c <= 100, 10a + 4b + 5c <= 600, 2a + 2b + 6c <= 300. Answer 733.333 at 33.33, 66.67, 0;
// prices 3.333, 0.667, 0.
Model manual() {
  Model m;
  for (const double gain : {10.0, 6.0, 4.0}) m.add({.name = "x", .cost = -gain});
  m.add({.name = "p", .high = 100, .terms = {{0, 1}, {1, 1}, {2, 1}}});
  m.add({.name = "q", .high = 600, .terms = {{0, 10}, {1, 4}, {2, 5}}});
  m.add({.name = "r", .high = 300, .terms = {{0, 2}, {1, 2}, {2, 6}}});
  return m;
}

// Outside check of blend.design: 7 values within 1e-9, from memory.
// Source: GLPK reference manual, section 1.3.
TEST(Program, SolvesTheManualsExampleWithPrices) {
  const auto s = solve(manual());
  ASSERT_TRUE(s);
  EXPECT_NEAR(s->objective, -2200.0 / 3, 1e-9);
  EXPECT_NEAR(s->values[0], 100.0 / 3, 1e-9);
  EXPECT_NEAR(s->values[1], 200.0 / 3, 1e-9);
  EXPECT_NEAR(s->values[2], 0, 1e-9);
  EXPECT_NEAR(s->prices[0], -10.0 / 3, 1e-9);
  EXPECT_NEAR(s->prices[1], -2.0 / 3, 1e-9);
  EXPECT_NEAR(s->prices[2], 0, 1e-9);
}

// A knapsack small enough to try all of it.
TEST(Program, ChoosesAsTryingAllDoes) {
  const std::vector<double> worth{8, 11, 6, 4, 7, 3}, weight{5, 7, 4, 3, 5, 2};
  double best = 0;
  for (unsigned set = 0; set < 64; ++set) {
    double w = 0, v = 0;
    for (unsigned i = 0; i < 6; ++i)
      if ((set >> i & 1U) != 0) w += weight[i], v += worth[i];
    if (w <= 14) best = std::max(best, v);
  }
  Model m;
  Row row{.name = "weight", .high = 14};
  for (std::size_t i = 0; i < 6; ++i)
    row.terms.push_back({m.add({.name = "x", .high = 1, .cost = -worth[i], .yes_or_no = true}), weight[i]});
  m.add(row);
  const auto s = solve(m);
  ASSERT_TRUE(s);
  EXPECT_NEAR(-s->objective, best, 1e-9);
  for (const double x : s->values) EXPECT_NEAR(x, std::round(x), 1e-9);
}

TEST(Program, HasNoAnswerWhereThereIsNone) {
  Model m = manual();
  m.add({.name = "too much", .low = 101, .terms = {{0, 1}, {1, 1}, {2, 1}}});
  EXPECT_FALSE(solve(m));
  // No whole number lies between.
  Model whole;
  whole.add({.name = "x", .high = 1, .yes_or_no = true});
  whole.add({.name = "half", .low = 0.4, .high = 0.6, .terms = {{0, 1}}});
  EXPECT_FALSE(solve(whole));
}

// GLPK would end the process; none of these may reach it.
TEST(Program, RefusesWhatIsNotInOrder) {
  EXPECT_THROW(solve(Model{}), std::logic_error);
  const auto spoiled = [](auto spoil) {
    Model m = manual();
    spoil(m);
    EXPECT_THROW(solve(m), std::logic_error);
  };
  spoiled([](Model& m) { m.rows[0].terms[0].coefficient = std::nan(""); });
  spoiled([](Model& m) { m.rows[0].terms[0].coefficient = infinity; });
  spoiled([](Model& m) { m.rows[0].terms[0].column = 3; });
  spoiled([](Model& m) { m.rows[0].terms[0].column = 1; });
  spoiled([](Model& m) { m.rows[0].low = 101; });
  spoiled([](Model& m) { m.rows[0].high = std::nan(""); });
  spoiled([](Model& m) { m.columns[0].cost = infinity; });
  spoiled([](Model& m) { m.columns[0].high = -1; });
  spoiled([](Model& m) { m.rows.clear(); });  // nothing holds the objective
}

// The library as it is packaged keeps its state by thread.
TEST(Program, RunsOnSeveralThreadsAtOnce) {
  ASSERT_NE(glp_config("TLS"), nullptr);
  std::vector<std::thread> threads;
  std::vector<int> right(4, 0);
  for (std::size_t t = 0; t < right.size(); ++t)
    threads.emplace_back([&right, t] {
      for (int i = 0; i < 200; ++i) right[t] += std::abs(solve(manual())->objective + 2200.0 / 3) < 1e-9 ? 1 : 0;
    });
  for (auto& thread : threads) thread.join();
  EXPECT_EQ(right, (std::vector<int>{200, 200, 200, 200}));
}

TEST(Program, IsWrittenInTheLpFormat) {
  const auto text = written(manual());
  EXPECT_NE(text.find("Minimize\n cost:\n -10 x1\n -6 x2\n -4 x3\n"), std::string::npos) << text;
  EXPECT_NE(text.find(" r1high:\n +1 x1\n +1 x2\n +1 x3 <= 100\n"), std::string::npos) << text;
}

// Demands as sets of numbers: those that are kept are feasible while no forbidden set is whole.
struct Forbidden {
  std::vector<std::vector<std::size_t>> sets;
  bool operator()(const std::vector<bool>& kept) const {
    for (const auto& set : sets)
      if (std::all_of(set.begin(), set.end(), [&](std::size_t i) { return kept[i]; })) return false;
    return true;
  }
};

TEST(Clash, IsTheOneAloneOrTheTwo) {
  EXPECT_EQ(clash(6, Forbidden{{{0, 1, 2}, {4}}}), (std::vector<std::size_t>{4}));
  EXPECT_EQ(clash(6, Forbidden{{{3, 4, 5}, {1, 2}}}), (std::vector<std::size_t>{1, 2}));
  EXPECT_EQ(clash(6, Forbidden{{{0, 1, 2}, {2, 3, 4, 5}}}).size(), 4U);  // irreducible: the last are kept
  EXPECT_EQ(clash(3, Forbidden{{{0, 1, 2}}}), (std::vector<std::size_t>{0, 1, 2}));
}

TEST(Clash, NoneOfItCanBeLeftOut) {
  const Forbidden feasible{{{0, 3, 5, 7}, {1, 2, 6, 7}, {2, 4, 5, 6}}};
  const auto found = clash(8, feasible);
  std::vector<bool> kept(8, false);
  for (const auto i : found) kept[i] = true;
  EXPECT_FALSE(feasible(kept));
  for (const auto i : found) {
    kept[i] = false;
    EXPECT_TRUE(feasible(kept)) << i;
    kept[i] = true;
  }
}

}  // namespace design_program_test
}  // namespace vatwright::blend::program
