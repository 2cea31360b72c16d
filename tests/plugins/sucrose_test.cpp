// Sucrose and must: there and back, what is refused, and rows of the same formulas from another
// program (derived).
#include "plugins/chemistry/sucrose.hpp"

#include "plugins/chemistry/must.hpp"
#include "plugins/chemistry/refractometer.hpp"
#include "units/error.hpp"

#include <gtest/gtest.h>

#include <limits>

namespace vatwright::chemistry {
namespace sucrose_test {

const double nan = std::numeric_limits<double>::quiet_NaN();

TEST(Sucrose, DensityAndBack) {
  for (const double t : {0.0, 4.0, 15.56, 20.0, 31.0, 60.0})
    for (int i = 0; i <= 950; ++i) {
      const auto sucrose = coherent<MassFraction>(i / 1000.0);
      const Density density = sucrose_density(sucrose, celsius(t));
      ASSERT_NEAR(sucrose_mass_fraction(density, celsius(t)).value(), sucrose.value(), 1e-11) << t << " °C";
    }
}

TEST(Sucrose, DensityRisesWithSucrose) {
  for (int t = 0; t <= 60; ++t)
    for (int i = 0; i < 950; ++i)
      ASSERT_LT(sucrose_density(coherent<MassFraction>(i / 1000.0), celsius(t)),
                sucrose_density(coherent<MassFraction>((i + 1) / 1000.0), celsius(t)));
}

TEST(Sucrose, RefractionAndBack) {
  for (int i = 0; i <= 700; ++i) {
    const auto sucrose = coherent<MassFraction>(i / 1000.0);
    ASSERT_NEAR(sucrose_by_refraction(sucrose_refractive_index(sucrose)).value(), sucrose.value(), 1e-9);
  }
  EXPECT_EQ(sucrose_by_refraction(coherent<Fraction>(1.33299)).value(), 0);  // the fit alone is below zero
}

TEST(Sucrose, DensityByTemperature) {
  constexpr struct {
    double brix, rho[7];
  } rows[] = {{20, {1084.48, 1083.56, 1082.38, 1080.98, 1079.37, 1077.58, 1073.50}},
              {24, {1102.86, 1101.81, 1100.51, 1099.00, 1097.30, 1095.43, 1091.22}}};
  constexpr double t[] = {5, 10, 15, 20, 25, 30, 40};
  for (const auto& row : rows)
    for (std::size_t i = 0; i < 7; ++i)
      EXPECT_NEAR(sucrose_density(row.brix * percent_mass, celsius(t[i])).value(), row.rho[i], 0.0051);
}

TEST(BrixHydrometer, CorrectionByTemperature) {
  constexpr double brix[] = {0, 5, 10, 15, 20, 25, 30};
  constexpr struct {
    double t, added[7];
  } rows[] = {{10, {-0.32, -0.37, -0.42, -0.47, -0.51, -0.56, -0.59}},
              {18, {-0.09, -0.10, -0.11, -0.11, -0.12, -0.13, -0.13}},
              {20, {0, 0, 0, 0, 0, 0, 0}},
              {25, {0.27, 0.29, 0.30, 0.32, 0.33, 0.35, 0.36}},
              {35, {1.00, 1.03, 1.07, 1.10, 1.13, 1.15, 1.17}}};
  for (const auto& row : rows)
    for (std::size_t i = 0; i < 7; ++i)
      EXPECT_NEAR(brix_from_hydrometer(brix[i] * percent_mass, celsius(row.t)) / percent_mass, brix[i] + row.added[i],
                  0.0051)
          << brix[i] << " at " << row.t << " °C";
}

TEST(Must, SugarAndStrengthAndBack) {
  for (const double grams : {0.0, 50.0, 217.8, 300.0}) {
    const auto sugar = grams * gram_per_litre;
    for (const YieldFactor& factor : {least_usual_yield_factor, eu_yield_factor, most_usual_yield_factor})
      EXPECT_NEAR(sugar_for(potential_alcohol(sugar, factor), factor).value(), grams, 1e-10);
  }
  EXPECT_DOUBLE_EQ(potential_alcohol(168.3 * gram_per_litre) / percent_vol, 10);
}

TEST(Must, AllowanceIsTakenFromAllThatIsDissolved) {
  const Density must = sucrose_density(22.0 * percent_mass, celsius(20));
  EXPECT_NEAR(must_sugar(must, 0.0 * percent_mass).value(), sucrose_concentration(22.0 * percent_mass).value(), 1e-8);
  EXPECT_NEAR((must_sugar(must, 1.0 * percent_mass) - must_sugar(must, 3.0 * percent_mass)).value(),
              0.02 * must.value(), 1e-8);
}

TEST(Sucrose, RefusesWhatIsNotCovered) {
  for (const double t : {-0.01, 60.01, nan}) {
    EXPECT_THROW(sucrose_density(10.0 * percent_mass, celsius(t)), InputError);
    EXPECT_THROW(sucrose_mass_fraction(1040.0 * kilogram_per_cubic_metre, celsius(t)), InputError);
    EXPECT_THROW(brix_from_hydrometer(10.0 * percent_mass, celsius(t)), InputError);
  }
  for (const double brix : {-0.01, 95.01, nan}) {
    EXPECT_THROW(sucrose_density(brix * percent_mass, celsius(20)), InputError);
    EXPECT_THROW(sucrose_refractive_index(brix * percent_mass), InputError);
  }
  for (const double rho : {998.1, 1520.0, nan})
    EXPECT_THROW(sucrose_mass_fraction(coherent<Density>(rho), celsius(20)), InputError);
  for (const double n : {1.3325, 1.4660, nan}) EXPECT_THROW(sucrose_by_refraction(coherent<Fraction>(n)), InputError);
  for (const double brix : {-5.1, 70.1, nan})
    EXPECT_THROW(brix_from_hydrometer(brix * percent_mass, celsius(20)), InputError);
}

TEST(Sucrose, RefractometerTableAnswersOnlyWhereItWasSeen) {
  constexpr std::pair<double, double> blanks[] = {{9.9, 15}, {70.1, 15}, {20, 4.9},  {20, 20.1}, {35, 5},
                                                  {40, 8},   {70, 17},   {65, 16.5}, {61, 18},   {30.1, 7}};
  for (const auto& [brix, t] : blanks)
    EXPECT_THROW(corrected_refraction(brix * percent_mass, celsius(t)), InputError) << brix << " at " << t << " °C";
  EXPECT_THROW(corrected_refraction(nan * percent_mass, celsius(15)), InputError);
  EXPECT_THROW(corrected_refraction(20.0 * percent_mass, celsius(nan)), InputError);
  for (const auto& [brix, t] : {std::pair{30.0, 7.0}, {60.0, 18.0}, {70.0, 16.0}, {70.0, 20.0}, {40.0, 10.0}})
    EXPECT_NO_THROW(corrected_refraction(brix * percent_mass, celsius(t))) << brix << " at " << t << " °C";
}

TEST(Must, RefusesWhatIsNoMust) {
  EXPECT_THROW(must_sugar(990.0 * kilogram_per_cubic_metre), InputError);   // a dry wine
  EXPECT_THROW(must_sugar(1004.0 * kilogram_per_cubic_metre), InputError);  // less than the allowance
  EXPECT_THROW(must_sugar(1090.0 * kilogram_per_cubic_metre, -1.0 * percent_mass), InputError);
  EXPECT_THROW(potential_alcohol(200.0 * gram_per_litre, 15.4 * gram_per_litre / percent_vol), InputError);
  EXPECT_THROW(potential_alcohol(-1.0 * gram_per_litre), InputError);
  EXPECT_THROW(potential_alcohol(nan * gram_per_litre), InputError);
  EXPECT_THROW(potential_alcohol(1700.0 * gram_per_litre), InputError);
  EXPECT_THROW(sugar_for(12.0 * percent_vol, nan * gram_per_litre / percent_vol), InputError);
}

}  // namespace sucrose_test
}  // namespace vatwright::chemistry
