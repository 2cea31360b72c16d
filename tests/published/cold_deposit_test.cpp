// The deposit of bitartrate with its charge balance, against a second solver in another language and by
// another method (mpmath), on random wines. Both read the constants of plugins/chemistry; everything
// else is written twice.
#include "plugins/chemistry/tartrate.hpp"
#include "tests/folder.hpp"
#include "tests/published/other_program.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <iomanip>
#include <random>
#include <sstream>
#include <string>
#include <vector>

namespace vatwright::chemistry {
namespace cold_deposit_test {

constexpr std::size_t lots = 100;
constexpr Strength strength = 12.0 * percent_vol;
constexpr Temperature cold = celsius(-4);

std::string one_word(std::string_view name) { return std::string(name.substr(0, name.find(' '))); }

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

std::string as_text(const std::vector<Composition>& wines) {
  const Bitartrate model(strength);
  const Medium medium = model.medium(cold);
  std::ostringstream text;
  text << std::setprecision(17) << "medium " << medium.davies_a() << ' ' << medium.water_pk() << "\nproduct "
       << model.product(cold).value() / 1e6 << '\n';
  for (const auto& acid : acids) {
    text << "acid " << one_word(acid.name);
    for (std::size_t step = 0; step < acid.protons; ++step) text << ' ' << medium.pk(acid.acid, step).value();
    text << '\n';
  }
  for (const auto& ion : ions) text << "ion " << ion.name << ' ' << ion.charge << '\n';
  for (const auto& c : wines) {
    text << "sample " << c.rest.value() / 1000;
    for (const auto& acid : acids) text << ' ' << one_word(acid.name) << '=' << c[acid.acid].value() / 1000;
    for (const auto& ion : ions) text << ' ' << ion.name << '=' << c[ion.ion].value() / 1000;
    text << '\n';
  }
  return text.str();
}

// Outside check of cold.tartrate: 200 values within 1e-7 mmol/L, 1e-7 pH, derived.
// Source: cold_deposit.py, Newton's method of mpmath.
TEST(SecondSolver, BitartrateDeposit) {
  const auto wines = random_wines();
  const test::Folder folder;
  const std::string file = folder.write("wines.txt", as_text(wines)).string();
  std::istringstream theirs(
      published::output_of(published::shell_word(VATWRIGHT_SOURCE_DIR "/tests/published/cold_deposit.py") + " " +
                           published::shell_word(file)));
  const Bitartrate model(strength);
  int lower = 0, higher = 0;
  for (const auto& c : wines) {
    double removed = 0, ph = 0;
    ASSERT_TRUE(theirs >> removed >> ph);
    const Deposit ours = model.deposit(c, cold);
    EXPECT_NEAR(ours.removed.value(), 1000 * removed, 1e-7);  // mmol/L
    EXPECT_NEAR(ours.at.ph.value(), ph, 1e-7);
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
