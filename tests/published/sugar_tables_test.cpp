// Sugar, enrichment, fermentation and extract against printed tables, formulas and worked examples.
#include "plugins/chemistry/alcoholometry.hpp"
#include "plugins/chemistry/extract.hpp"
#include "plugins/chemistry/fermentation.hpp"
#include "plugins/chemistry/must.hpp"
#include "plugins/chemistry/sucrose.hpp"
#include "plugins/chemistry/sweetening.hpp"
#include "tests/published/other_program.hpp"
#include "units/catalogue.hpp"
#include "units/parse.hpp"

#include <gtest/gtest.h>

#include <sstream>
#include <string>

namespace vatwright::chemistry {
namespace sugar_tables_test {

constexpr Temperature at_20 = celsius(20);

// GNU units, `baume`, modulus 145: every degree from water to 70 °Bé.
// Outside check of sugar.convert: 71 values within 1e-10, another program.
// Source: GNU units.
TEST(MustTables, BaumeOfGnuUnitsOnItsWholeSpan) {
  std::istringstream table(published::output_of(
      "for degrees in $(seq 0 70); do units -t -o %.12g \"baume($degrees)\" g/cm^3 || exit 1; done"));
  const Unit baume = parse_unit("°Bé");
  int degrees = 0;
  for (double gravity = 0; table >> gravity; ++degrees)
    EXPECT_NEAR(baume.coherent(degrees) / water_density_20, gravity, 1e-10) << degrees;
  EXPECT_EQ(degrees, 71);
}

// NBS Circular 440 (seen as quoted): 259.8 US gallons in a metric ton, weighed in air, at 5 % mass.
// Outside check of sugar.convert: 1 value within 0.06 US gal, seen.
// Source: NBS Circular 440, as quoted.
TEST(MustTables, GallonsInATonne) {
  constexpr Density air = 1.2 * kilogram_per_cubic_metre;
  const Density in_air = (sucrose_density(5.0 * percent_mass, at_20) - air) / (1 - 1.2 / 8400);
  EXPECT_NEAR(tonne / in_air / us_gallon, 259.8, 0.06);
}

// German practice: 1 kg of sugar makes 470 g of alcohol (BLE project 07 HS 012, page 116): 16.79 g/L
// for 1 % vol, 0.3 % beside the legal factor.
// Outside check of sugar.convert, sugar.enrichment: 5 values within 0.3 %, seen.
// Source: BLE project 07 HS 012, page 116.
TEST(MustTables, SugarToAlcoholByGermanPractice) {
  for (const double sugar : {50.0, 120.0, 170.0, 210.0, 260.0}) {
    const auto grams = ethanol_concentration(potential_alcohol(sugar * gram_per_litre));
    EXPECT_NEAR(grams.value(), 0.470 * sugar, 0.003 * 0.470 * sugar) << sugar;
  }
}

// must_dissolved is must_sugar turned round, up to 60 °Brix.
TEST(MustTables, DissolvedAndBack) {
  for (int brix = 3; brix <= 60; ++brix) {
    const auto w = double(brix) * percent_mass;
    EXPECT_NEAR(must_dissolved(must_sugar(sucrose_density(w, at_20))) / percent_mass, brix, 1e-8);
  }
}

// --- enrichment

SweetMust must_of(double brix, Volume volume) {
  const auto w = brix * percent_mass;
  return {volume, sucrose_concentration(w), Strength{}, w};
}

// BLE project 07 HS 012, formula 3: kg of sugar for 100 L of must from a to b grams of alcohol in a
// litre: 100 (b - a) / (470 - 0.6 b). It counts the sugar as it is weighed, and 0.6 L/kg where SPS-4 has
// 0.62, which is 0.5 % of the mass.
// Outside check of sugar.enrichment: 4 values within 0.6 %, seen.
// Source: BLE project 07 HS 012, formula 3.
TEST(Enrichment, BleFormula) {
  const MassConcentration grams_of_pure = ethanol_concentration(coherent<Strength>(1));
  const YieldFactor factor = grams_of_pure / 0.470 / coherent<Strength>(1);
  const Sweetener as_weighed{100.0 * percent_mass, coherent<Fraction>(1)};
  for (const auto& [a, b] : {std::pair{80.0, 95.0}, {71.0, 91.0}, {83.0, 95.0}, {75.0, 99.0}}) {
    const MassConcentration sugar = a / 470 * 1000.0 * gram_per_litre;
    const SweetMust must{100.0 * litre, sugar, Strength{}, must_dissolved(sugar)};
    const auto wanted = coherent<Strength>(b / grams_of_pure.value());
    const Mass ours = sweetener_for_strength(must, as_weighed, wanted, factor);
    const double theirs = 100 * (b - a) / (470 - 0.6 * b);
    EXPECT_NEAR(ours / kilogram, theirs, 0.006 * theirs) << a << " to " << b;
  }
}

// Balance of masses with SPS-4, worked out apart from this program: kg of sucrose and litres after it,
// from one degree Brix to another.
// Outside check of sugar.enrichment: 6 values within 0.0002 °Brix, 1e-5 of the volume, derived.
// Source: ICUMSA SPS-4, a balance worked out apart from this program.
TEST(Enrichment, BrixBalance) {
  constexpr struct {
    double litres, from, to, kilograms, after;
  } rows[] = {{100, 20, 22, 2.7717, 101.722}, {100, 18, 21, 4.0715, 102.528}, {1000, 19.5, 22.5, 41.759, 1025.95}};
  for (const auto& row : rows) {
    const auto then = sweetened(must_of(row.from, row.litres * litre), sucrose_sweetener(), row.kilograms * kilogram);
    EXPECT_NEAR(then.dissolved / percent_mass, row.to, 0.0002) << row.from;
    EXPECT_NEAR(then.volume / litre, row.after, 1e-5 * row.after) << row.from;
  }
}

// 27 CFR 24.181: 13.5 lb of sugar take up a US gallon, 0.618 L/kg. At 10 to 25 °Brix SPS-4 has 0.618 to
// 0.623.
// Outside check of sugar.enrichment: 1 value within 0.006 L/kg, at four musts, seen.
// Source: 27 CFR 24.181.
TEST(Enrichment, VolumeOfAKilogram) {
  const double law = us_gallon / litre / (13.5 * pound / kilogram);
  EXPECT_NEAR(law, 0.618, 0.0005);
  for (const double brix : {10.0, 15.0, 20.0, 25.0}) {
    const auto must = must_of(brix, 1000.0 * litre);
    const auto then = sweetened(must, sucrose_sweetener(), 1.0 * kilogram);
    EXPECT_NEAR((then.volume - must.volume) / litre, law, 0.006) << brix;
  }
}

// Sucrose takes up water and becomes 1.0526 of its mass of glucose and fructose (atomic weights).
// Outside check of sugar.enrichment: 1 value within 1e-5, derived.
// Source: atomic weights.
TEST(Enrichment, Inversion) { EXPECT_NEAR(sucrose_sweetener().hexose.value(), 360.312 / 342.297, 1e-5); }

// --- fermentation and extract

// A must of 217.8 g/L of sugar and 22 g/L of extract, 16.83 g/L for 1 % vol: OIML R 22, SPS-4 and
// Tabarié's relation, worked out apart from this program.
// Outside check of sugar.fermentation: 18 values within 0.006 % vol, 0.06 kg/m³, derived.
// Source: OIML R 22, SPS-4 and Tabarié, worked out apart from this program.
TEST(Fermentation, CourseOfAMust) {
  constexpr struct {
    double left, strength, density;
  } rows[] = {{200, 1.06, 1081.59}, {150, 4.03, 1058.34}, {100, 7.00, 1035.31},
              {50, 9.97, 1012.46},  {30, 11.16, 1003.36}, {20, 11.75, 998.83},
              {10, 12.35, 994.29},  {4, 12.70, 991.57},   {0, 12.94, 989.76}};
  const FermentingMust must{217.8 * gram_per_litre, 22.0 * gram_per_litre, eu_yield_factor};
  for (const auto& row : rows) {
    EXPECT_NEAR(alcohol_at(must, row.left * gram_per_litre) / percent_vol, row.strength, 0.006) << row.left;
    EXPECT_NEAR(density_at(must, row.left * gram_per_litre).value(), row.density, 0.06) << row.left;
    EXPECT_NEAR(sugar_left(must, coherent<Density>(row.density)).value(), row.left, 0.15) << row.left;
  }
}

// OIV-MA-AS2-03B, table of extracts: 1.001 is 2.6 g/L and 1.010 is 25.8 (from memory); the others
// derived from SPS-4 apart from this program.
// Outside check of sugar.extract: 2 values within 0.1 g/L, from memory.
// Source: OIV-MA-AS2-03B, table of extracts.
// Outside check of sugar.extract: 9 values within 0.02 g/L, 0.1 below 1.011, derived.
// Source: ICUMSA SPS-4, worked out apart from this program.
TEST(Extract, TableOfGravities) {
  constexpr std::pair<double, double> rows[] = {{1.001, 2.6},    {1.010, 25.8},   {1.002, 5.17},  {1.005, 12.94},
                                                {1.008, 20.71},  {1.015, 38.86},  {1.020, 51.83}, {1.030, 77.82},
                                                {1.050, 129.94}, {1.080, 208.51}, {1.100, 261.17}};
  for (const auto& [gravity, extract] : rows)
    EXPECT_NEAR(total_dry_extract(coherent<Fraction>(gravity)).value(), extract, gravity < 1.011 ? 0.1 : 0.02)
        << gravity;
}

TEST(Extract, DensityAndBack) {
  for (const double grams : {0.0, 5.0, 25.0, 60.0, 180.0}) {
    const Density wine = wine_density(12.5 * percent_vol, grams * gram_per_litre);
    EXPECT_NEAR(total_dry_extract(extract_gravity(wine, 12.5 * percent_vol)).value(), grams, 1e-3) << grams;
  }
}

// OIV-MA-AS2-01A: 0.0006 g/mL for 1 g/L of sulfur dioxide; 0.0000086 g/mL for 1 meq/L of volatile
// acidity (from memory).
// Outside check of sugar.extract: 2 values within 1e-9 kg/m³, from memory.
// Source: OIV-MA-AS2-01A.
TEST(Extract, WhatIsTakenOff) {
  const Density wine = coherent<Density>(992);
  EXPECT_NEAR(extract_density(wine, 1.0 * gram_per_litre, Acidity{}).value(), 991.4, 1e-9);
  EXPECT_NEAR(extract_density(wine, MassConcentration{}, 10.0 * milliequivalent_per_litre).value(), 991.914, 1e-9);
}

// --- fortification

// Balance of masses with OIML R 22 (derived apart from this program): litres of spirit, litres after.
// Outside check of sugar.fortification: 14 values within 0.006 L, 0.006 % vol, derived.
// Source: OIML R 22, a balance worked out apart from this program.
TEST(Fortification, MixedByMass) {
  constexpr struct {
    double litres, wine, spirit, added, after, strength;
  } rows[] = {{1000, 12, 96, 75.491, 1069.285, 18},  {1000, 12, 77, 100.377, 1096.057, 18},
              {1000, 15, 40, 249.034, 1248.069, 20}, {100, 12, 96, 3.649, 103.355, 15},
              {50, 0, 96, 50, 96.96, 49.50},         {50, 0, 100, 50, 96.46, 51.83},
              {600, 13, 11, 400, 1000.01, 12.1999}};
  for (const auto& row : rows) {
    const auto mixed = mix(ethanol_water(row.litres * litre, row.wine * percent_vol),
                           ethanol_water(row.added * litre, row.spirit * percent_vol));
    EXPECT_NEAR(mixed.volume / litre, row.after, 0.006) << row.wine << ", " << row.spirit;
    EXPECT_NEAR(strength_of(mixed.liquid.ethanol) / percent_vol, row.strength, 0.006) << row.wine << ", " << row.spirit;
  }
}

}  // namespace sugar_tables_test
}  // namespace vatwright::chemistry
