// Alcoholometry: there and back, what is refused, and cases worked out with another program from the
// same formula (derived).
#include "plugins/chemistry/alcoholometry.hpp"

#include "units/error.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <random>

namespace vatwright::chemistry {
namespace alcoholometry_test {

constexpr double everywhere[] = {-20, -7.5, 0, 4, 15.56, 20, 31, 40};

TEST(Alcoholometry, DensityAndBack) {
  for (const double t : everywhere)
    for (int i = 0; i <= 1000; ++i) {
      const auto ethanol = coherent<MassFraction>(i / 1000.0);
      const Density density = ethanol_water_density(ethanol, celsius(t));
      ASSERT_NEAR(ethanol_mass_fraction(density, celsius(t)).value(), ethanol.value(), 1e-11) << t << " °C";
    }
}

TEST(Alcoholometry, DensityFallsWithEthanol) {
  for (int t = -20; t <= 40; ++t)
    for (int i = 0; i < 1000; ++i)
      ASSERT_GT(ethanol_water_density(coherent<MassFraction>(i / 1000.0), celsius(t)),
                ethanol_water_density(coherent<MassFraction>((i + 1) / 1000.0), celsius(t)))
          << i << ", " << t << " °C";
}

TEST(Alcoholometry, StrengthAndBack) {
  for (int i = 0; i <= 1000; ++i) {
    const auto strength = coherent<Strength>(i / 1000.0);
    const MassFraction ethanol = ethanol_by_mass(strength);
    ASSERT_NEAR(strength_of(ethanol).value(), strength.value(), 1e-11);
    ASSERT_EQ(ethanol.value() < strength.value(), i % 1000 != 0);  // ethanol is the lighter one
  }
}

TEST(Alcoholometry, ApparentReading) {
  for (const auto instrument : {Alcoholometer::glass_hydrometer, Alcoholometer::density_meter})
    for (const double t : {10.0, 15.0, 20.0, 25.0, 30.0})
      for (int i = 10; i <= 90; ++i) {
        const auto shown = coherent<Strength>(i / 100.0);
        const Strength real = strength_from_apparent(shown, celsius(t), instrument);
        // Warm liquid is light, and so looks strong.
        ASSERT_EQ(shown - real > 1e-9 * percent_vol, t > 20);
        ASSERT_EQ(shown - real < -1e-9 * percent_vol, t < 20);
      }
}

// Outside check of sugar.alcohol: 18 values within 0.0051 % vol, derived.
// Source: OIML R 22 and R 44, worked out apart from this program.
TEST(Alcoholometry, GlassHydrometerAwayFrom20) {
  constexpr struct {
    double shown, t, real;
  } rows[] = {{12, 10, 13.74}, {12, 15, 12.95}, {12, 18, 12.40}, {12, 22, 11.58}, {12, 25, 10.93}, {12, 30, 9.75},
              {10, 10, 11.47}, {10, 15, 10.83}, {10, 18, 10.35}, {10, 22, 9.63},  {10, 25, 9.03},  {10, 30, 7.93},
              {14, 10, 16.06}, {14, 15, 15.09}, {14, 18, 14.45}, {14, 22, 13.54}, {14, 25, 12.82}, {14, 30, 11.55}};
  for (const auto& row : rows)
    EXPECT_NEAR(
        strength_from_apparent(row.shown * percent_vol, celsius(row.t), Alcoholometer::glass_hydrometer) / percent_vol,
        row.real, 0.0051)
        << row.shown << " at " << row.t << " °C";
}

// Of 100 L at 20 °C, so much strength takes that many litres of ethanol and this many of water.
TEST(Alcoholometry, ContractionOfEthanolAndWater) {
  constexpr struct {
    double strength, water, contraction;
  } rows[] = {{10, 90.742, 0.742}, {12, 88.925, 0.925}, {20, 81.718, 1.718}, {40, 63.349, 3.349},
              {55, 48.676, 3.676}, {70, 33.369, 3.369}, {96, 4.984, 0.984}};
  for (const auto& row : rows) {
    const Mixed made = mix(ethanol_water(row.strength * litre, 100.0 * percent_vol),
                           ethanol_water(row.water * litre, 0.0 * percent_vol));
    EXPECT_NEAR(made.volume / litre, 100, 0.001) << row.strength;
    EXPECT_NEAR(made.contraction / litre, row.contraction, 0.001) << row.strength;
    EXPECT_NEAR(strength_of(made.liquid.ethanol) / percent_vol, row.strength, 0.001);
  }
}

TEST(Alcoholometry, MixesByMass) {
  constexpr struct {
    double v1, s1, v2, s2, volume, strength;
  } rows[] = {{50, 100, 50, 0, 96.46, 51.83},
              {50, 96, 50, 0, 96.96, 49.50},
              {600, 13, 400, 11, 1000.01, 12.1999},
              {1000, 12, 75.491, 96, 1069.285, 18},
              {1000, 15, 249.034, 40, 1248.069, 20}};
  for (const auto& row : rows) {
    SCOPED_TRACE(row.s1);
    const Mixed made =
        mix(ethanol_water(row.v1 * litre, row.s1 * percent_vol), ethanol_water(row.v2 * litre, row.s2 * percent_vol));
    EXPECT_NEAR(made.volume / litre, row.volume, 0.0051);
    EXPECT_NEAR(strength_of(made.liquid.ethanol) / percent_vol, row.strength, 0.0051);
  }
  const Mixed half = mix(ethanol_water(500.0 * litre, 12.0 * percent_vol), ethanol_water(500.0 * litre, {}));
  EXPECT_NEAR(strength_of(half.liquid.ethanol) / percent_vol, 5.9967, 0.00006);
}

TEST(Alcoholometry, MixKeepsTheEthanolAndDoesNotMindTheOrder) {
  std::mt19937 draw(20);
  std::uniform_real_distribution<double> any(0, 1);
  for (int i = 0; i < 500; ++i) {
    const EthanolWater a{any(draw) * kilogram, coherent<MassFraction>(any(draw))};
    const EthanolWater b{any(draw) * kilogram, coherent<MassFraction>(any(draw))};
    const Temperature t = celsius(-20 + 60 * any(draw));
    const Mixed made = mix(a, b, t);
    EXPECT_NEAR((made.liquid.mass * made.liquid.ethanol).value(), (a.mass * a.ethanol + b.mass * b.ethanol).value(),
                1e-13);
    EXPECT_NEAR(made.volume.value(), mix(b, a, t).volume.value(), 1e-15);
    // One thing with itself loses nothing.
    EXPECT_NEAR(mix(a, a, t).contraction.value(), 0, 1e-15);
  }
}

TEST(Alcoholometry, RefusesWhatTheFormulaDoesNotCover) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  for (const double t : {-20.01, 40.01, nan}) {
    EXPECT_THROW(ethanol_water_density(10.0 * percent_mass, celsius(t)), InputError);
    EXPECT_THROW(ethanol_mass_fraction(980.0 * kilogram_per_cubic_metre, celsius(t)), InputError);
    EXPECT_THROW(strength_from_apparent(12.0 * percent_vol, celsius(t), Alcoholometer::density_meter), InputError);
  }
  for (const double beyond : {-0.01, 100.01, nan}) {
    EXPECT_THROW(ethanol_water_density(beyond * percent_mass, celsius(20)), InputError);
    EXPECT_THROW(strength_of(beyond * percent_mass), InputError);
    EXPECT_THROW(ethanol_by_mass(beyond * percent_vol), InputError);
    EXPECT_THROW(ethanol_concentration(beyond * percent_vol), InputError);
  }
  for (const double density : {789.2, 998.3, nan})
    EXPECT_THROW(ethanol_mass_fraction(density * kilogram_per_cubic_metre, celsius(20)), InputError);
  // A reading of nothing in warm water: denser than water is there.
  EXPECT_THROW(strength_from_apparent(0.0 * percent_vol, celsius(30), Alcoholometer::density_meter), InputError);
  const EthanolWater nothing{}, some = ethanol_water(1.0 * litre, 12.0 * percent_vol);
  EXPECT_THROW(mix(nothing, nothing), InputError);
  EXPECT_THROW(mix(some, {-some.mass, some.ethanol}), InputError);
  EXPECT_NO_THROW(mix(some, nothing));
}

}  // namespace alcoholometry_test
}  // namespace vatwright::chemistry
