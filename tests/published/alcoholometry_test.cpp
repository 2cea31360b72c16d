// Ethanol and water against printed tables and other formulas.
#include "plugins/chemistry/alcoholometry.hpp"

#include "plugins/chemistry/oiml_r22.hpp"
#include "plugins/chemistry/water.hpp"

#include <gtest/gtest.h>

#include <fstream>
#include <sstream>
#include <string>

namespace vatwright::chemistry {
namespace alcoholometry_test {

double density_at_20(Strength strength) {
  return ethanol_water_density(ethanol_by_mass(strength), strength_temperature).value();
}

// Outside check of sugar.alcohol, sugar.fortification, sugar.fermentation, blend.mix, blend.volume: 552
// values within 6e-6 kg/m³, 6e-9 by volume, derived.
// Source: OIML R 22, its formula in another program.
TEST(OimlR22, RowsComputedByAnotherProgram) {
  std::ifstream file(VATWRIGHT_SOURCE_DIR "/tests/published/oiml_r22_rows.csv");
  std::string line;
  int rows = 0;
  while (std::getline(file, line)) {
    if (line.starts_with('#') || line.starts_with('p')) continue;
    SCOPED_TRACE(line);
    std::istringstream cells(line);
    double p = -1, q = -1, t = -1, rho = -1;
    char comma{};
    ASSERT_TRUE(cells >> p >> comma >> q >> comma >> t >> comma >> rho);
    EXPECT_NEAR(ethanol_water_density(coherent<MassFraction>(p), celsius(t)).value(), rho, 6e-6);
    EXPECT_NEAR(strength_of(coherent<MassFraction>(p)).value(), q, 6e-9);
    ++rows;
  }
  EXPECT_EQ(rows, 276);
}

// A slip in one digit moves a density by less than the tables can show, so the coefficients are
// summed, each times its number in its row: in exact arithmetic, from the list they were copied from.
// Outside check of sugar.alcohol: 7 values within the rounding of a double, derived.
// Source: OIML R 22, sums over its list of coefficients.
TEST(OimlR22, CoefficientsAreTheOnesThatWereCopied) {
  const auto sum = [](auto first, auto last) {
    long double total = 0;
    for (int number = 1; first != last; ++first, ++number) total += static_cast<long double>(*first) * number;
    return static_cast<double>(total);
  };
  const auto& r = kernel::oiml_r22;
  EXPECT_NEAR(sum(r[0].begin(), r[0].end()), 474.5747764, 1e-9);
  double b[6];
  for (std::size_t i = 0; i < 6; ++i) b[i] = r[i + 1][0];
  EXPECT_NEAR(sum(b, b + 6), -0.2166147714207454, 1e-15);
  constexpr double c[] = {0.3579048461475187, -0.0078999534903469, -0.0008512323532877003, 3.1214261029071e-08,
                          -9.6848587795701e-10};
  constexpr double rounding[] = {1e-10, 1e-12, 1e-14, 1e-19, 1e-21};
  for (std::size_t i = 0; i < 5; ++i) EXPECT_NEAR(sum(r[i + 1].begin() + 1, r[i + 1].end()), c[i], rounding[i]) << i;
}

// Density at 20 °C, kg/m³, by % vol, to two decimals: a list that goes round in the trade (common
// practice, no source).
// Outside check of sugar.alcohol: 19 values within 0.0051 kg/m³, common practice.
// Source: a list of densities that goes round in the trade.
TEST(OimlR22, ListOfDensitiesAt20) {
  constexpr std::pair<double, double> rows[] = {{10, 984.71}, {20, 973.56}, {30, 962.21}, {40, 948.05}, {50, 930.14},
                                                {60, 909.11}, {70, 885.56}, {80, 859.27}, {90, 829.18}, {91, 825.83},
                                                {92, 822.39}, {93, 818.85}, {94, 815.18}, {95, 811.38}, {96, 807.42},
                                                {97, 803.27}, {98, 798.90}, {99, 794.25}, {100, 789.24}};
  for (const auto& [strength, rho] : rows)
    EXPECT_NEAR(density_at_20(strength * percent_vol), rho, 0.0051) << strength << " % vol";
}

// USP 29, alcoholometric table (after NBS Bulletin 9, pages 424-425). There the strength is by volume
// at 15.56 °C (60 °F), and the specific gravity is of weights in air, over water of the same
// temperature. Air: 1.2 kg/m³.
constexpr Temperature usp_temperature = celsius(15.56);

double usp_strength(double mass_percent) {
  const Density mixture = ethanol_water_density(mass_percent * percent_mass, usp_temperature);
  const Density ethanol = ethanol_water_density(100.0 * percent_mass, usp_temperature);
  return mass_percent * (mixture / ethanol).value();
}

double usp_gravity(double mass_percent, Temperature t) {
  constexpr Density air = 1.2 * kilogram_per_cubic_metre;
  const Density mixture = ethanol_water_density(mass_percent * percent_mass, t);
  return ((mixture - air) / (ethanol_water_density(0.0 * percent_mass, t) - air)).value();
}

constexpr struct {
  double strength, mass_percent, gravity_25, gravity_15;
} usp_by_volume[] = {
    {5, 4.00, 0.9927, 0.9928},   {8, 6.42, 0.9888, 0.9890},   {10, 8.05, 0.9862, 0.9866},  {12, 9.68, 0.9838, 0.9843},
    {13, 10.50, 0.9826, 0.9832}, {14, 11.32, 0.9814, 0.9821}, {15, 12.14, 0.9802, 0.9810}, {20, 16.27, 0.9744, 0.9759},
    {25, 20.44, 0.9685, 0.9708}, {30, 24.67, 0.9622, 0.9653},
};

// Outside check of sugar.alcohol: 30 values within 0.0075 % vol, 0.00007 of a gravity, seen.
// Source: USP 29, alcoholometric table.
TEST(Usp29, ByVolume) {
  for (const auto& row : usp_by_volume) {
    SCOPED_TRACE(row.strength);
    EXPECT_NEAR(usp_strength(row.mass_percent), row.strength, 0.0075);  // half of the last digit of % mass
    EXPECT_NEAR(usp_gravity(row.mass_percent, celsius(25)), row.gravity_25, 0.00006);
    // At 15 % vol the table has 0.9810 and the formula 0.98106.
    EXPECT_NEAR(usp_gravity(row.mass_percent, usp_temperature), row.gravity_15, 0.00007);
  }
}

// Outside check of sugar.alcohol: 5 values within 0.0051 % vol, seen.
// Source: USP 29, alcoholometric table.
TEST(Usp29, ByMass) {
  constexpr std::pair<double, double> rows[] = {{5, 6.24}, {10, 12.39}, {15, 18.47}, {20, 24.47}, {30, 36.18}};
  for (const auto& [mass, strength] : rows) EXPECT_NEAR(usp_strength(mass), strength, 0.0051) << mass;
}

// Tanaka et al., Metrologia 38 (2001) 301, the water of the CIPM, 0 to 40 °C (coefficients from
// memory). OIML R 22 stands on an older scale and is up to 0.0075 kg/m³ below it.
double cipm_water(double t) {
  const double a = t - 3.983035;
  return 999.974950 * (1 - a * a * (t + 301.797) / (522528.9 * (t + 69.34881)));
}

// Outside check of sugar.alcohol: 41 values within 0.0075 kg/m³, from memory.
// Source: Tanaka et al., Metrologia 38 (2001) 301.
TEST(OimlR22, ZeroStrengthIsWater) {
  for (int t = 0; t <= 40; ++t) {
    const double ours = ethanol_water_density(0.0 * percent_mass, celsius(t)).value();
    EXPECT_LT(ours, cipm_water(t)) << t;
    EXPECT_NEAR(ours, cipm_water(t), 0.0075) << t;
  }
}

TEST(OimlR22, ZeroStrengthIsSupercooledWater) {
  for (int t = -20; t <= 0; ++t)
    EXPECT_NEAR(ethanol_water_density(0.0 * percent_mass, celsius(t)).value(), kernel::water_density(t), 0.03) << t;
}

// 7.894 g/L for 1 % vol in print, 94.7 g/L for 12 % vol and 103 for 13 (encyclopaedia and state
// laboratory lists).
// Outside check of sugar.alcohol: 3 values within 0.002 to 0.5 g/L, seen.
// Source: an encyclopaedia and lists of state laboratories.
TEST(Alcoholometry, GramsInALitre) {
  EXPECT_NEAR(ethanol_concentration(1.0 * percent_vol).value(), 7.894, 0.002);
  EXPECT_NEAR(ethanol_concentration(12.0 * percent_vol).value(), 94.7, 0.05);
  EXPECT_NEAR(ethanol_concentration(13.0 * percent_vol).value(), 103, 0.5);
}

}  // namespace alcoholometry_test
}  // namespace vatwright::chemistry
