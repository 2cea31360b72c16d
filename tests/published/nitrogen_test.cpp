// Factors of assimilable nitrogen against printed ones, and against the Python package periodictable.
#include "plugins/chemistry/nitrogen.hpp"
#include "tests/published/other_program.hpp"

#include <gtest/gtest.h>

#include <sstream>
#include <string>

namespace vatwright {
namespace nitrogen_test {

using chemistry::formol_nitrogen;

double milligrams(MassConcentration nitrogen) { return (nitrogen / milligram_per_litre).value(); }

// Virginia Tech, Enology Extension, formol titration: 10 mL of must to 25 mL, 10 mL of that titrated
// with 0.05 mol/L: N in mg/L = 175 for each mL. The page reckons with 14 for nitrogen.
// Outside check of nutrient.nitrogen: 1 value within 0.05 %, seen.
// Source: Virginia Tech, Enology Extension, formol titration.
TEST(PublishedNitrogen, FormolFactor175) {
  const auto one = formol_nitrogen(1.0 * millilitre, 0.05 * mole_per_litre, 10.0 * (10.0 / 25.0) * millilitre);
  EXPECT_NEAR(milligrams(one), 175, 175 * 0.007 / 14 + 1e-9);
}

// 50 mL with 0.1 mol/L: 28 for each mL, from one mole for one and 14 for nitrogen (derived).
// Outside check of nutrient.nitrogen: 1 value within 0.07 %, derived.
// Source: stoichiometry of the formol titration.
TEST(PublishedNitrogen, FormolFactor28) {
  EXPECT_NEAR(milligrams(formol_nitrogen(1.0 * millilitre, 0.1 * mole_per_litre, 50.0 * millilitre)), 28, 0.02);
}

// A stronger titrant stands for more nitrogen, in proportion. The page prints its correction for
// another strength upside down; stoichiometry decides.
TEST(PublishedNitrogen, FormolFollowsTheTitrantsStrength) {
  const auto weak = formol_nitrogen(1.0 * millilitre, 0.05 * mole_per_litre, 4.0 * millilitre);
  const auto strong = formol_nitrogen(1.0 * millilitre, 0.10 * mole_per_litre, 4.0 * millilitre);
  EXPECT_NEAR((strong / weak).value(), 2, 1e-12);
}

// Molar masses by periodictable, which shares nothing with units/atomic_weights.hpp.
// Outside check of nutrient.nitrogen: 2 values within 2e-5, another program.
// Source: periodictable (Python).
TEST(PublishedNitrogen, SharesByAnotherTableOfWeights) {
  std::istringstream masses(published::output_of(
      published::shell_word(VATWRIGHT_SOURCE_DIR "/tests/published/molar_masses.py") + " N NH4 NH3"));
  double nitrogen = 0, ammonium = 0, ammonia = 0;
  ASSERT_TRUE(masses >> nitrogen >> ammonium >> ammonia);
  EXPECT_NEAR(chemistry::nitrogen_in_ammonium.value(), nitrogen / ammonium, 2e-5);
  EXPECT_NEAR(chemistry::nitrogen_in_ammonia.value(), nitrogen / ammonia, 2e-5);
}

// The four rows of the table (Bisson and Butzke 2000, from memory).
// Outside check of nutrient.nitrogen: 4 values within 1e-9 mg/L, from memory.
// Source: Bisson and Butzke 2000.
TEST(PublishedNitrogen, NeedBySolubleSolids) {
  const auto need = [](double brix) { return milligrams(chemistry::tabled_nitrogen_need(brix * percent_mass)); };
  EXPECT_NEAR(need(21), 200, 1e-9);
  EXPECT_NEAR(need(23), 250, 1e-9);
  EXPECT_NEAR(need(25), 300, 1e-9);
  EXPECT_NEAR(need(27), 350, 1e-9);
}

}  // namespace nitrogen_test
}  // namespace vatwright
