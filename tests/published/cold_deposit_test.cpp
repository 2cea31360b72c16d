// The deposit of bitartrate with its charge balance, against a second solver in another language and by
// another method (mpmath), on random wines. Both read the constants of plugins/chemistry; everything
// else is written twice.
#include "tests/published/cold_deposit.hpp"
#include "plugins/chemistry/tartrate.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>
#include <vector>

namespace vatwright::chemistry {
namespace cold_deposit_test {

constexpr std::size_t lots = 100;
constexpr Strength strength = 12.0 * percent_vol;
constexpr Temperature cold = celsius(-4);

// Supersaturated wines of pH 2.9 to 4.1 before the deposit.
std::vector<Composition> random_wines() {
  const Bitartrate model(strength);
  const Medium medium = model.medium(cold);
  std::mt19937_64 draw(6);
  // Not std::uniform_real_distribution: its draws are not the same in every library.
  const auto between = [&](double low, double high) {
    return low + (high - low) * static_cast<double>(draw() >> 11) / 9007199254740992.0;
  };
  std::vector<Composition> wines;
  while (wines.size() < lots) {
    Composition c;
    c[Acid::tartaric] = between(3, 40) * millimole_per_litre;
    c[Ion::potassium] = between(5, 45) * millimole_per_litre;
    for (const Acid acid : {Acid::malic, Acid::lactic, Acid::citric, Acid::succinic, Acid::acetic, Acid::sulfurous})
      if (draw() % 3 != 0) c[acid] = between(0, 15) * millimole_per_litre;
    c[Ion::calcium] = between(0, 2) * millimole_per_litre;
    c[Ion::chloride] = between(0, 3) * millimole_per_litre;
    c.rest = base_to(c, between(2.9, 4.1) * ph_unit, medium);
    if (model.saturation(c, cold).value() > 1) wines.push_back(c);
  }
  return wines;
}

// Outside check of cold.tartrate: 200 values within 1e-7 mmol/L, 1e-7 pH, derived.
// Source: cold_deposit.py, Newton's method of mpmath.
TEST(SecondSolver, BitartrateDeposit) {
  const auto wines = random_wines();
  const auto theirs = published::other_deposits(wines, strength, cold);
  const Bitartrate model(strength);
  int lower = 0, higher = 0;
  for (std::size_t i = 0; i < wines.size(); ++i) {
    const auto& c = wines[i];
    const Deposit ours = model.deposit(c, cold);
    EXPECT_NEAR(ours.removed.value(), 1000 * theirs[i].removed, 1e-7);  // mmol/L
    EXPECT_NEAR(ours.at.ph.value(), theirs[i].ph, 1e-7);
    (ours.at.ph < equilibrium(c, model.medium(cold)).ph ? lower : higher) += 1;
  }
  // Wines on either side of the pivot were among them.
  EXPECT_GT(lower, 20);
  EXPECT_GT(higher, 10);
}

TEST(Deposit, ClosesTheMassBalance) {
  const Bitartrate model(strength);
  for (const auto& c : random_wines()) {
    const Deposit d = model.deposit(c, cold);
    const auto close = [](AmountConcentration before, AmountConcentration after) {
      return std::abs((before - after).value()) <= 1e-9 * before.value();
    };
    EXPECT_TRUE(close(c[Ion::potassium], d.left[Ion::potassium] + d.removed));
    EXPECT_TRUE(close(c[Acid::tartaric], d.left[Acid::tartaric] + d.removed));
    EXPECT_NEAR(c.strong_difference().value(), d.left.strong_difference().value() + d.removed.value(), 1e-9);
    EXPECT_NEAR(model.saturation(d.left, cold).value(), 1, 1e-7);
    for (const auto& acid : acids) {
      if (acid.acid == Acid::tartaric) continue;
      EXPECT_EQ(c[acid.acid], d.left[acid.acid]);
    }
  }
}

}  // namespace cold_deposit_test
}  // namespace vatwright::chemistry
