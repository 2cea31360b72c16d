// The acid-base engine against another program, a general aqueous engine, on compositions of must and wine.
#include "plugins/chemistry/equilibrium.hpp"

#include <gtest/gtest.h>

#include <array>
#include <fstream>
#include <sstream>
#include <string>

namespace vatwright::chemistry {
namespace aqueous_engine_test {

// The constants with which the table was made; those of today that differ from them are put aside.
Medium of_the_table(Strength strength) {
  return Medium(DebyeHuckel::ethanol_water(strength, celsius(20)), strength, prenesti_2012)
      .with(Acid::malic, {3.40, 5.11})
      .with(Acid::lactic, {3.86})
      .with(Acid::citric, {3.128, 4.761, 6.396})
      .with(Acid::succinic, {4.207, 5.638})
      .with(Acid::acetic, {4.756});
}

// PHREEQC 3 with these constants and Davies' equation, neutral molecules at activity one, cations strong.
// Outside check of acid.addition, acid.reduction, acid.malolactic, acid.curve: 180 values within 1e-6 pH and 1e-4
// meq/L, another program. Source: PHREEQC 3, tests/published/aqueous_rows.csv.
TEST(AqueousEngine, GivesThePhAndTheAcidity) {
  std::ifstream file(VATWRIGHT_SOURCE_DIR "/tests/published/aqueous_rows.csv");
  std::string line;
  ASSERT_TRUE(std::getline(file, line));
  int rows = 0;
  for (; std::getline(file, line); ++rows) {
    std::array<double, 14> x{};
    std::istringstream cells(line);
    for (auto& number : x) {
      std::string cell;
      std::getline(cells, cell, ',');
      number = std::stod(cell);
    }
    constexpr Acid columns[] = {Acid::tartaric, Acid::malic,  Acid::citric,   Acid::succinic,
                                Acid::acetic,   Acid::lactic, Acid::sulfurous};
    constexpr Ion cations[] = {Ion::potassium, Ion::calcium, Ion::sodium};
    Composition c;
    for (std::size_t i = 0; i < std::size(columns); ++i) c[columns[i]] = x[1 + i] * millimole_per_litre;
    for (std::size_t i = 0; i < std::size(cations); ++i) c[cations[i]] = x[8 + i] * millimole_per_litre;
    const Medium medium = of_the_table(x[0] * percent_vol);
    EXPECT_NEAR(equilibrium(c, medium).ph.value(), x[11], 1e-6) << line;
    EXPECT_NEAR(base_to(c, 7.0 * ph_unit, medium).value(), x[12], 1e-4) << line;
    EXPECT_NEAR(base_to(c, 8.2 * ph_unit, medium).value(), x[13], 1e-4) << line;
  }
  EXPECT_EQ(rows, 60);
}

// Staples and Bates, J. Res. NBS 73A (1969) 37, potassium dihydrogen citrate 0.05 mol/kg (from memory; 25 °C also as
// Buck et al., Pure Appl. Chem. 74 (2002) 2169, have it).
// Outside check of acid.curve: 6 values within 0.01 pH, from memory.
// Source: Staples and Bates, J. Res. NBS 73A (1969) 37.
TEST(CitrateStandard, FromNoughtToTwentyFiveDegrees) {
  constexpr struct {
    double celsius, ph;
  } rows[] = {{0, 3.863}, {5, 3.840}, {10, 3.820}, {15, 3.802}, {20, 3.788}, {25, 3.776}};
  Composition c;
  c[Acid::citric] = c[Ion::potassium] = 0.05 * mole_per_litre;
  for (const auto& row : rows)
    EXPECT_NEAR(equilibrium(c, Medium({}, celsius(row.celsius))).ph.value(), row.ph, 0.01) << row.celsius;
}

}  // namespace aqueous_engine_test
}  // namespace vatwright::chemistry
