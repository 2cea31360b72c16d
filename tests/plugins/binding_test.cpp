// sulfite.binding, run by recipe: a table reckoned apart, and the way back from what it gives.
#include "tests/plugins/run.hpp"

#include <fmt/format.h>

#include <cmath>
#include <random>

namespace vatwright::test {
namespace binding_test {

// Acetaldehyde 30, pyruvic acid 20, 2-oxoglutaric acid 50, glucose 1000 mg/L at pH 3.30, pK1 1.81:
// free, and bound by each, mg/L. Derived by another program; the constants are from memory.
constexpr struct {
  double free, bound, by[4];
} table[] = {{10, 56.0077, {43.1989, 7.5547, 5.1701, 0.0840}},
             {20, 61.8927, {43.4121, 9.9454, 8.3672, 0.1679}},
             {30, 65.3934, {43.4837, 11.1182, 10.5397, 0.2519}},
             {40, 67.7822, {43.5195, 11.8149, 12.1121, 0.3357}}};
constexpr const char* compounds[] = {"acetaldehyde: 30 mg/L", "pyruvic acid: 20 mg/L", "2-oxoglutaric acid: 50 mg/L",
                                     "glucose: 1 g/L"};

// The table counts sulfur dioxide at 64.064 g/mol, the program at 64.058: one part in 10 000.
double tolerance(double bound) { return 1.2e-4 * bound + 1e-4; }

StepSheet bind_all(double total, const std::string& binders, const std::string& more = {}) {
  return run_step(fmt::format("pH: 3.30, total SO2: {:.10g} mg/L{}", total, more),
                  "sulfite.binding: {" + binders + "}");
}

// Outside check of sulfite.binding: 8 values within 1.2e-4 of what is bound, derived.
// Source: equilibria reckoned by another program; constants from memory.
TEST(SulfiteBinding, FourCompoundsTogether) {
  std::string all;
  for (const char* compound : compounds) all += (all.empty() ? "" : ", ") + std::string(compound);
  for (const auto& row : table) {
    const auto step = bind_all(row.free + row.bound, all);
    EXPECT_NEAR(result(step, "free SO2"), row.free, tolerance(row.bound));
    EXPECT_NEAR(result(step, "bound SO2"), row.bound, tolerance(row.bound));
    ASSERT_NE(check(step, "closing check"), nullptr);
    EXPECT_TRUE(check(step, "closing check")->holds);
  }
}

// Outside check of sulfite.binding: 16 values within 1.2e-4 of what is bound, derived.
// Source: equilibria reckoned by another program; constants from memory.
TEST(SulfiteBinding, EachCompoundAlone) {
  for (const auto& row : table)
    for (int i = 0; i < 4; ++i) {
      const auto step = bind_all(row.free + row.by[i], compounds[i]);
      EXPECT_NEAR(result(step, "free SO2"), row.free, tolerance(row.by[i])) << compounds[i];
      EXPECT_NEAR(result(step, "bound SO2"), row.by[i], tolerance(row.by[i])) << compounds[i];
    }
}

// Bound = sites · S / (S + Kd), from the free that was found, gives the total back.
TEST(SulfiteBinding, TheWayBackGivesTheTotal) {
  constexpr double so2 = 32.06 + 2 * 15.999;
  constexpr double molar_mass[] = {44.053, 88.062, 146.098, 180.156};  // g/mol
  constexpr double dissociation[] = {1.5e-6, 1.4e-4, 4.9e-4, 0.64};    // mol/L, from memory
  std::mt19937 random(20240607);
  const auto between = [&](double low, double high) { return std::uniform_real_distribution(low, high)(random); };
  for (int turn = 0; turn < 200; ++turn) {
    const double c[] = {between(0.1, 150), between(0, 300), between(0, 250), between(0, 160000)};  // mg/L
    const double total = between(0, 400), ph = between(2.9, 4.0);
    const auto step =
        run_step(fmt::format("pH: {:.9f}, total SO2: {:.9f} mg/L, acetaldehyde: {:.9f} mg/L", ph, total, c[0]),
                 fmt::format("sulfite.binding: {{pyruvic acid: {:.9f} mg/L, 2-oxoglutaric acid: {:.9f} mg/L, glucose: "
                             "{:.9f} mg/L}}",
                             c[1], c[2], c[3]));
    const double free = result(step, "free SO2");
    const double bisulfite = free / 1000 / so2 * (1 - 1 / (1 + std::pow(10, ph - 1.81)));
    double sum = free;
    for (int i = 0; i < 4; ++i) sum += c[i] / molar_mass[i] * so2 * bisulfite / (bisulfite + dissociation[i]);
    EXPECT_NEAR(sum, total, 1e-4 * total + 1e-6);
    EXPECT_GE(free, 0);
    EXPECT_NEAR(free + result(step, "bound SO2"), total, 1e-6 * total);
  }
}

TEST(SulfiteBinding, NothingThatBindsIsRefused) {
  for (const char* step : {"sulfite.binding", "sulfite.binding: {glucose: 0 g/L, acetaldehyde: 0 mg/L}"}) {
    const auto said = refusal("pH: 3.30, total SO2: 85 mg/L", step);
    EXPECT_TRUE(has(said, "nothing that binds sulfur dioxide was given")) << said;
    EXPECT_TRUE(has(said, "give at least one of")) << said;
  }
}

TEST(SulfiteBinding, TheMeasuredFreeStandsBeside) {
  const auto step = bind_all(66.0077, "acetaldehyde: 30 mg/L, pyruvic acid: 20 mg/L", ", free SO2: 18 mg/L");
  const auto* measured = opinion(step, "free SO2 as measured");
  ASSERT_NE(measured, nullptr);
  EXPECT_NEAR(number(measured->there), 18, 1e-9);
  EXPECT_NEAR(number(measured->here), result(step, "free SO2"), 1e-9);
  EXPECT_TRUE(noted(step, "go by the measured free SO2"));
  EXPECT_EQ(opinion(bind_all(66, "acetaldehyde: 30 mg/L"), "free SO2 as measured"), nullptr);
}

TEST(SulfiteBinding, NoSulfurDioxideAtAllBindsNone) {
  const auto step = bind_all(0, "acetaldehyde: 30 mg/L");
  EXPECT_EQ(result(step, "free SO2"), 0);
  EXPECT_EQ(result(step, "bound SO2"), 0);
}

}  // namespace binding_test
}  // namespace vatwright::test
