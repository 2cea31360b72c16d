// Cold stability against standards, handbooks and worked figures.
#include "plugins/chemistry/conductivity.hpp"
#include "plugins/chemistry/tartrate.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace vatwright::chemistry {
namespace cold_values_test {

double grams(AmountConcentration bitartrate) { return (bitartrate * bitartrate_molar_mass).value(); }

// Solubility of the salt alone, by bisection.
double solubility(Strength strength, Temperature t) {
  const Bitartrate model(strength);
  Composition c;
  double low = 0, high = 200;  // mmol/L
  for (int i = 0; i < 60; ++i) {
    const double middle = (low + high) / 2;
    c[Ion::potassium] = c[Acid::tartaric] = middle * millimole_per_litre;
    (model.saturation(c, t).value() < 1 ? low : high) = middle;
  }
  return grams(low * millimole_per_litre);
}

// Primary standard of pH: potassium hydrogen tartrate saturated in water at 25 °C has pH 3.557 (seen in
// copies of the NIST and IUPAC tables) at 0.0341 mol/kg (from memory). The model must be at
// saturation there, and what is dissolved beyond it must fall out again.
// Outside check of cold.tartrate: 1 value within 0.01 pH, seen.
// Source: pH standards of NIST and IUPAC, saturated tartrate, in copies.
// Outside check of cold.tartrate: 1 value within 1e-9 of the saturation (an anchor), from memory.
// Source: pH standards of NIST and IUPAC, saturated tartrate, its amount.
TEST(SaturatedTartrate, InWaterAt25) {
  const Bitartrate water(Strength{});
  Composition c;
  c[Ion::potassium] = c[Acid::tartaric] = 0.0341 * mole_per_litre;
  EXPECT_NEAR(water.saturation(c, celsius(25)).value(), 1, 1e-9);
  c[Ion::potassium] = c[Acid::tartaric] = 0.0400 * mole_per_litre;
  const auto d = water.deposit(c, celsius(25));
  EXPECT_NEAR(d.removed.value(), 5.9, 1e-6);  // mmol/L
  EXPECT_NEAR(d.at.ph.value(), 3.557, 0.01);
}

// The thermodynamic product that the notes derived from the same standard by a script of their own:
// 5.32e-4 (derived).
// Outside check of cold.tartrate: 1 value within 2 %, derived.
// Source: a script of the notes.
TEST(SaturatedTartrate, ProductInWater) {
  EXPECT_NEAR(Bitartrate(Strength{}).product(celsius(25)).value() / 1e6, 5.32e-4, 0.01e-4);
}

// Solubilities in general encyclopaedias (seen, secondary): 2.9 g/L at 10 % vol and 20 °C is an anchor;
// 5.7 g/L in water at 20 °C, 6.17 g/L in water at about 25 °C and 4 g/L at 10 °C (one digit) are not, and
// the tolerance is the spread that the worksheet states.
// Outside check of cold.tartrate: 6 values within 5 to 15 %; one is an anchor, 1e-6 g/L, seen.
// Source: solubilities of bitartrate in general encyclopaedias.
TEST(CitedSolubilities, WithinTheStatedSpread) {
  EXPECT_NEAR(solubility(10.0 * percent_vol, celsius(20)), 2.9, 1e-6);
  EXPECT_NEAR(solubility({}, celsius(20)), 5.7, 0.09 * 5.7);
  EXPECT_NEAR(solubility({}, celsius(25)), 6.17, 0.05 * 6.17);
  EXPECT_NEAR(solubility({}, celsius(10)), 4.0, 0.14 * 4.0);
  // 45 g/L at 80 °C and 61 g/L at 100 °C: only the line in water goes there.
  EXPECT_NEAR(bitartrate_solubility_in_water(celsius(80), Course::all_values).value(), 45, 0.15 * 45);
  EXPECT_NEAR(bitartrate_solubility_in_water(celsius(100), Course::all_values).value(), 61, 0.10 * 61);
}

// Deposits with the pH held, from potassium mg/L, tartaric acid g/L, share of bitartrate and the product
// that is left: bitartrate g/L (derived, by a script of its own).
// Outside check of cold.tartrate: 5 values within 1e-4 g/L, derived.
// Source: a script of the notes.
TEST(WorkedFigures, DepositAtHeldPh) {
  constexpr struct {
    double potassium, tartaric, share, left, deposit;
  } rows[] = {{1000, 2.0, 0.59305, 6e-5, 1.4441},
              {1200, 2.5, 0.65454, 6e-5, 2.2212},
              {900, 1.8, 0.62412, 6e-5, 1.1775},
              {900, 1.8, 0.62412, 16.5e-5, 0.0635},
              {600, 1.5, 0.59305, 16.5e-5, 0}};
  for (const auto& r : rows) {
    const auto found = deposit_at_held_ph(r.potassium * milligram_per_litre / row(Ion::potassium).molar_mass,
                                          r.tartaric * gram_per_litre / row(Acid::tartaric).molar_mass,
                                          coherent<Fraction>(r.share), r.left * (mole_per_litre * mole_per_litre));
    EXPECT_NEAR(grams(found), r.deposit, 1e-4) << r.potassium << " " << r.left;
  }
}

// The share of bitartrate in water at an ionic strength of 0.05 mol/L, per cent (derived, by a script of
// its own); it is largest half way between the constants of tartaric acid.
// Outside check of cold.tartrate: 8 values within 0.05 % and 0.005 pH, derived.
// Source: a script of the notes.
TEST(WorkedFigures, ShareOfBitartrate) {
  const AmountConcentration ionic = 0.05 * mole_per_litre;
  const Medium water = Medium().at_ionic_strength(ionic);
  constexpr struct {
    double ph, per_cent;
  } rows[] = {{2.8, 40.59}, {3.0, 50.76}, {3.2, 59.30}, {3.4, 64.50}, {3.6, 65.22}, {3.8, 61.30}, {4.0, 53.60}};
  for (const auto& r : rows)
    EXPECT_NEAR(100 * share(Acid::tartaric, 1, {r.ph * ph_unit, ionic}, water).value(), r.per_cent, 0.05) << r.ph;
  const Ph pivot = tartrate_pivot({3.5 * ph_unit, ionic}, water);
  EXPECT_NEAR(pivot.value(), 3.53, 0.005);  // derived, water, 0.05 mol/L
  const auto at = [&](double off) { return share(Acid::tartaric, 1, {pivot + off * ph_unit, ionic}, water).value(); };
  EXPECT_GT(at(0), at(0.01));
  EXPECT_GT(at(0), at(-0.01));
}

// One gram per litre of bitartrate out of 3 g/L tartaric and 2 g/L malic acid in water (derived, by a
// script of its own, ionic strength 0.05 mol/L, malic acid at 3.46 and 5.10). Below the pivot the pH
// falls, above it rises.
// Outside check of cold.tartrate: 5 values within 0.003 pH, derived.
// Source: a script of the notes.
TEST(WorkedFigures, PhAfterADeposit) {
  const Medium water = Medium().at_ionic_strength(0.05 * mole_per_litre);
  constexpr struct {
    double before, after;
  } rows[] = {{3.2, 3.1371}, {3.4, 3.3756}, {3.6, 3.6132}, {3.8, 3.8528}, {4.0, 4.0958}};
  for (const auto& r : rows) {
    Composition c;
    c.add(Acid::tartaric, 3.0 * gram_per_litre);
    c.add(Acid::malic, 2.0 * gram_per_litre);
    c[Ion::potassium] = charges(base_to(c, r.before * ph_unit, water));
    const auto out = 1.0 * gram_per_litre / bitartrate_molar_mass;
    c[Ion::potassium] -= out;
    c[Acid::tartaric] -= out;
    EXPECT_NEAR(equilibrium(c, water).ph.value(), r.after, 0.003) << r.before;
  }
}

// Per gram of bitartrate: 207.8 mg of potassium, 797.6 mg of tartaric acid, and 0.3988 g of titratable
// acidity as tartaric acid (derived from the formula). To pH 7 a trace of bitartrate is left.
// Outside check of cold.tartrate: 3 values within 0.05 mg/L, 0.002 g/L, derived.
// Source: atomic weights.
TEST(WorkedFigures, WhatAGramTakesAlong) {
  const auto gram_of = 1.0 * gram_per_litre / bitartrate_molar_mass;
  EXPECT_NEAR((gram_of * row(Ion::potassium).molar_mass).value() * 1000, 207.8, 0.05);
  EXPECT_NEAR((gram_of * row(Acid::tartaric).molar_mass).value() * 1000, 797.6, 0.05);
  Composition c;
  c.add(Acid::tartaric, 3.0 * gram_per_litre);
  c.add(Ion::potassium, 900.0 * milligram_per_litre);
  const Medium water;
  const auto before = titratable_acidity(c, oiv_endpoint, water);
  c[Ion::potassium] -= gram_of;
  c[Acid::tartaric] -= gram_of;
  const auto lost = before - titratable_acidity(c, oiv_endpoint, water);
  EXPECT_NEAR(lost.value() * 0.150086 / 2, 0.3988, 0.002);
}

// Handbook of Enology, volume 2, table 1.12: potassium chloride 0.02 mol/L, µS/cm and ohm cm. The
// conductivities are those of the library, the resistivities stand here alone.
// Outside check of cold.conductivity: 10 values within 1 µS/cm, seen.
// Source: Handbook of Enology, volume 2, table 1.12.
TEST(HandbookOfEnology, PotassiumChloride) {
  constexpr double resistivities[] = {446, 436, 426, 417, 408, 400, 392, 384, 376, 369};
  double t = 15;
  for (const double resistivity : resistivities) {
    const double found = potassium_chloride_conductivity(celsius(t)) / microsiemens_per_centimetre;
    EXPECT_NEAR(found, 1e6 / resistivity, 1.0) << t;
    t += 1;
  }
  EXPECT_NEAR(potassium_chloride_conductivity(celsius(19.5)) / microsiemens_per_centimetre, 2475.5, 1e-6);
}

// Würdig et al. 1982, T = 20 - rise / 29.30, and Maujean et al., T = 29.90 - rise / 58.30, µS/cm and °C:
// worked figures (derived), and the class limits as the rise that just meets them (derived): white 12.5
// °C, pink 14 °C, red 22 to 24 °C, sparkling base 8 °C.
// Outside check of cold.conductivity: 9 values within 0.0005 and 0.002 °C, derived.
// Source: formulas of Würdig et al. 1982 and of Maujean et al..
TEST(SaturationTemperature, FormulasAndClassLimits) {
  constexpr struct {
    const SaturationFormula& formula;
    double rise, temperature, tolerance;
  } rows[] = {{wuerdig, 300, 9.761, 5e-4}, {wuerdig, 0, 20, 1e-9},       {wuerdig, 219.8, 12.5, 0.002},
              {wuerdig, 351.6, 8, 0.002},  {maujean, 900, 14.463, 5e-4}, {maujean, 0, 29.90, 1e-9},
              {maujean, 927.0, 14, 0.002}, {maujean, 460.6, 22, 0.002},  {maujean, 344.0, 24, 0.002}};
  for (const auto& r : rows)
    EXPECT_NEAR(degrees_celsius(saturation_temperature(r.rise * microsiemens_per_centimetre, r.formula)), r.temperature,
                r.tolerance)
        << r.rise;
}

// ECHA dossier 19371 (OECD 105): 412 mg/L in water at 20 °C and pH 7. Taken as tetrahydrate that is
// 63.5 mg/L of calcium and a product in activities of 1.28e-6 (derived, by a script of its own).
// Outside check of cold.calcium: 2 values within 0.1 mg/L, 2 % of the product, derived.
// Source: ECHA dossier 19371 (OECD 105).
TEST(CalciumTartrate, InWaterAt20) {
  const auto saturated = 412.0 * milligram_per_litre / calcium_tartrate_molar_mass;
  EXPECT_NEAR((saturated * row(Ion::calcium).molar_mass).value() * 1000, 63.5, 0.1);
  const Medium water({}, celsius(20));
  Composition c;
  c[Ion::calcium] = c[Acid::tartaric] = saturated;
  const auto at = equilibrium(c, water);
  EXPECT_NEAR(calcium_tartrate_saturation(c, at, water).value(), 1, 1e-9);
  const double gamma = water.activity_coefficient(2, at.ionic_strength).value();
  EXPECT_NEAR(std::pow(saturated / mole_per_litre * gamma, 2), 1.28e-6, 0.02e-6);
}

}  // namespace cold_values_test
}  // namespace vatwright::chemistry
