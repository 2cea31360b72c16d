// Chemical formulas, read while compiling.
#include "units/atomic_weights.hpp"

#include <gtest/gtest.h>

namespace vatwright {
namespace formula_test {

constexpr bool near(double a, double b) { return a - b < 1e-9 && b - a < 1e-9; }
constexpr double grams(std::string_view formula) { return 1000 * molar_mass(formula).value(); }

static_assert(near(grams("O2"), 2 * 15.999));
static_assert(near(grams("SO2"), 32.06 + 2 * 15.999));
static_assert(near(grams("K2S2O5"), 2 * 39.098 + 2 * 32.06 + 5 * 15.999));
static_assert(near(grams("(NH4)2HPO4"), 2 * (14.007 + 4 * 1.008) + 1.008 + 30.974 + 4 * 15.999));
static_assert(near(grams("CuSO4·5H2O"), 63.546 + 32.06 + 4 * 15.999 + 5 * (2 * 1.008 + 15.999)));
static_assert(near(grams("Ca(HCO3)2"), 40.078 + 2 * (1.008 + 12.011 + 3 * 15.999)));
static_assert(near(grams("C4H6O6"), grams("H6C4O6")));

TEST(Formula, RefusesWhatIsNone) {
  for (const char* text :
       {"", "h2o", "H2O)", "(OH", "()", "H()2", "Xx", "12", "·", "CuSO4·", "·5H2O", "H2-O", "H2 O", "H0", "H2O\n"})
    EXPECT_THROW(molar_mass(text), std::invalid_argument) << text;
}

}  // namespace formula_test
}  // namespace vatwright
