// Volumes of vessels, purging, heat and filters against closed integrals and figures in print.
#include "plugins/chemistry/vessel.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

namespace vatwright::chemistry {
namespace cellar_test {

Length metres(double x) { return coherent<Length>(x); }
double cubic_metres(const Vessel& vessel, double dip) { return volume_to(vessel, metres(dip)).value(); }

constexpr double pi = 3.14159265358979323846;

// Outside check of cellar.tank: 11 values within 1e-5, derived.
// Source: closed integrals of solids of revolution.
TEST(Vessel, ClosedIntegrals) {
  const Upright cone{metres(2), metres(2), Bottom::cone, metres(0.4)};
  EXPECT_NEAR(cubic_metres(cone, 0.2), 0.05236, 1e-5);
  EXPECT_NEAR(cubic_metres(cone, 0.4), 0.41888, 1e-5);
  EXPECT_NEAR(cubic_metres(cone, 1.0), 2.30383, 1e-5);
  const Upright round{metres(2), metres(2), Bottom::ellipsoid, metres(0.5)};
  EXPECT_NEAR(cubic_metres(round, 0.25), 0.32725, 1e-5);
  EXPECT_NEAR(cubic_metres(round, 0.5), 1.04720, 1e-5);
  EXPECT_NEAR(cubic_metres(Lying{metres(2), metres(2), metres(3)}, 0.7), 2.93977, 1e-5);
  EXPECT_NEAR(cubic_metres(Lying{metres(2), metres(2), metres(3), metres(0.5)}, 0.7), 2.93977 + 0.59010, 2e-5);
  const Lying oval{metres(1.6), metres(2.4), metres(2)};
  EXPECT_NEAR(cubic_metres(oval, 0.9), 2.06602, 1e-5);
  EXPECT_NEAR(capacity(oval).value(), 6.03186, 1e-5);
  EXPECT_NEAR(capacity(Barrel{metres(0.700), metres(0.565), metres(0.950)}).value(), 0.32132, 1e-5);
  EXPECT_NEAR(cubic_metres(Box{metres(3), metres(2), metres(2), metres(0.2)}, 1.0), 6 * 0.9, 1e-9);
}

// Torispherical heads: depth 0.19377 D and volume 0.09897 D³; 0.25447 D and 0.13077 D³.
// Outside check of cellar.tank: 4 values within 1e-4, derived.
// Source: DIN 28011 and DIN 28013, by their radii.
TEST(Vessel, DishedBottoms) {
  const Upright shallow{metres(1), metres(1), Bottom::shallow_dish}, deep{metres(1), metres(1), Bottom::deep_dish};
  EXPECT_NEAR(depth(shallow).value() - 1, 0.19377, 1e-5);
  EXPECT_NEAR(cubic_metres(shallow, 0.19377), 0.09897, 2e-5);
  EXPECT_NEAR(depth(deep).value() - 1, 0.25447, 1e-5);
  EXPECT_NEAR(cubic_metres(deep, 0.25447), 0.13077, 2e-5);
}

// A vessel never holds less at a higher dip, nothing at none, and what the slices of it add up to.
TEST(Vessel, RisesAndAddsUp) {
  std::mt19937 random(7);
  const auto between = [&](double low, double high) { return std::uniform_real_distribution(low, high)(random); };
  for (int i = 0; i < 300; ++i) {
    const double d = between(0.4, 4), head = between(0.3, 1);
    const Vessel vessels[] = {
        Upright{metres(d), metres(between(0.3, 6)), static_cast<Bottom>(random() % 5), metres(between(0.05, 1))},
        Lying{metres(d), metres(between(0.4, 4)), metres(between(0.5, 8)), metres(between(0, 0.8))},
        Box{metres(between(0.5, 5)), metres(d), metres(2), metres(between(0, 1.5))},
        Barrel{metres(d), metres(d * head), metres(between(0.5, 3))}};
    for (const auto& vessel : vessels) {
      const double deep = depth(vessel).value(), whole = capacity(vessel).value();
      EXPECT_NEAR(cubic_metres(vessel, 0), 0, 1e-12);
      double before = 0;
      for (int k = 1; k <= 40; ++k) {
        const double now = cubic_metres(vessel, deep * k / 40);
        EXPECT_GE(now, before - 1e-9 * whole);
        before = now;
      }
      EXPECT_NEAR(before, whole, 1e-9 * whole);
    }
  }
}

// A barrel that is half full holds half, whatever its shape; a lying one too.
TEST(Vessel, HalfIsHalf) {
  std::mt19937 random(11);
  const auto between = [&](double low, double high) { return std::uniform_real_distribution(low, high)(random); };
  for (int i = 0; i < 100; ++i) {
    const double d = between(0.4, 2);
    const Barrel barrel{metres(d), metres(d * between(0.5, 1)), metres(between(0.5, 2))};
    EXPECT_NEAR(cubic_metres(barrel, d / 2), capacity(barrel).value() / 2, 1e-9);
    const Lying lying{metres(d), metres(d), metres(2), metres(between(0, 0.5))};
    EXPECT_NEAR(cubic_metres(lying, d / 2), capacity(lying).value() / 2, 1e-12);
  }
}

// A straight barrel is a cylinder.
TEST(Vessel, AStraightBarrelIsACylinder) {
  const Barrel barrel{metres(0.6), metres(0.6), metres(1)};
  for (double h = 0.05; h < 0.6; h += 0.05)
    EXPECT_NEAR(cubic_metres(barrel, h), cubic_metres(Lying{metres(0.6), metres(0.6), metres(1)}, h), 1e-10);
  EXPECT_NEAR(capacity(barrel).value(), pi * 0.09, 1e-10);
}

}  // namespace cellar_test
}  // namespace vatwright::chemistry
