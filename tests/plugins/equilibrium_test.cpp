// The acid-base engine: what must hold whatever the constants are, and fixed cases.
#include "plugins/chemistry/equilibrium.hpp"

#include "plugins/chemistry/acid_treatment.hpp"
#include "tests/plugins/wines.hpp"
#include "units/error.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <iterator>
#include <random>
#include <thread>
#include <vector>

namespace vatwright::chemistry {
namespace equilibrium_test {

const Composition pink = of({{Acid::tartaric, 2.4},
                             {Acid::malic, 2.1},
                             {Acid::lactic, 0.3},
                             {Acid::citric, 0.25},
                             {Acid::succinic, 0.6},
                             {Acid::acetic, 0.25},
                             {Acid::phosphoric, 0.2},
                             {Acid::carbonic, 0.9},
                             {Acid::sulfurous, 0.03},
                             {Acid::sulfuric, 0.3}},
                            850);

// --- Fixed cases, made once by a script with the same formulas (derived): Davies with A = 0.509, the
// ionic strength held at 0.05 mol/L.

constexpr AmountConcentration held = 0.05 * mole_per_litre;

// A solvent whose A is 0.509: A falls with the 3/2 power of the permittivity.
DebyeHuckel solvent() {
  const auto with = [](double permittivity) {
    return DebyeHuckel(coherent<Fraction>(permittivity), 1000.0 * kilogram_per_cubic_metre, celsius(25));
  };
  return with(80 * std::pow(with(80).a() / 0.509, 2.0 / 3));
}

// Constants of the script's own wine; the set is written as slopes at 1 % vol.
constexpr EthanolSet case_set = [] {
  EthanolSet set{"case", "for a test only", {}};
  const auto to = [&set](Acid acid, std::array<double, most_protons> pk) {
    for (std::size_t i = 0; i < row(acid).protons; ++i)
      set.per_percent_vol[index(acid)][i] = pk[i] - row(acid).constants[i].pk;
  };
  to(Acid::tartaric, {3.17, 4.52});
  to(Acid::malic, {3.55, 5.26});
  to(Acid::lactic, {4.00});
  to(Acid::citric, {3.28, 4.93, 6.58});
  to(Acid::succinic, {4.34, 5.80});
  to(Acid::acetic, {4.90});
  return set;
}();

struct Case {
  Medium medium;
  Composition base;
  double strong_difference, capacity, ta7, ta82;
};

const Case wine_case{Medium(solvent(), 1.0 * percent_vol, case_set).at_ionic_strength(held),
                     of({{Acid::tartaric, 3.0},
                         {Acid::malic, 2.5},
                         {Acid::lactic, 0.2},
                         {Acid::citric, 0.3},
                         {Acid::succinic, 0.6},
                         {Acid::acetic, 0.3}}),
                     23.39184,
                     31.111,
                     75.3108,
                     75.8970};
// The script's own constants of malic and citric acid in water.
const Case must_case{Medium(solvent(), {}, working_rule)
                         .with(Acid::malic, {3.40, 5.11})
                         .with(Acid::lactic, {3.86})
                         .with(Acid::citric, {3.128, 4.761, 6.396})
                         .at_ionic_strength(held),
                     of({{Acid::tartaric, 5.0}, {Acid::malic, 4.0}, {Acid::citric, 0.3}}),
                     42.98653,
                     47.7462,
                     87.6004,
                     87.9654};

Composition at_ph_330(const Case& c) {
  Composition out = c.base;
  out.rest = base_to(out, 3.30 * ph_unit, c.medium);
  return out;
}

// Outside check of acid.addition, acid.reduction, acid.malolactic, acid.curve: 8 values within 0.0002 and
// 0.0006 meq/L, derived.
// Source: the same formulas in another program.
TEST(FixedCases, StrongDifferenceCapacityAndAcidity) {
  for (const auto* c : {&wine_case, &must_case}) {
    const Composition sample = at_ph_330(*c);
    EXPECT_NEAR(sample.rest.value(), c->strong_difference, 2e-4);
    EXPECT_NEAR(buffer_capacity(sample, c->medium).value(), c->capacity, 6e-4);
    EXPECT_NEAR(ta_of(sample, 7.0 * ph_unit, c->medium), c->ta7, 6e-4);
    EXPECT_NEAR(ta_of(sample, 8.2 * ph_unit, c->medium), c->ta82, 6e-4);
  }
}

// Change of one acid (g/L) or of bicarbonate of potassium (g/L): pH, and acidity to pH 7 as tartaric
// acid, g/L.
// Outside check of acid.addition, acid.reduction, acid.malolactic, acid.curve: 40 values within 0.0001 pH,
// 0.001 g/L, derived.
// Source: the same formulas in another program.
TEST(FixedCases, Additions) {
  struct Row {
    Composition added;
    double bicarbonate, ph_wine, ta_wine, ph_must, ta_must;
  };
  const Row rows[] = {
      {of({{Acid::tartaric, 0.5}}), 0, 3.22904, 6.1511, 3.24579, 7.0735},
      {of({{Acid::tartaric, 1.0}}), 0, 3.16664, 6.6507, 3.19662, 7.5732},
      {of({{Acid::tartaric, 2.0}}), 0, 3.06151, 7.6498, 3.11045, 8.5726},
      {of({{Acid::tartaric, 4.0}}), 0, 2.90394, 9.6479, 2.97330, 10.5713},
      {of({{Acid::malic, 1.0}}), 0, 3.21060, 6.7653, 3.22693, 7.6892},
      {of({{Acid::lactic, 1.0}}), 0, 3.23735, 6.4840, 3.24668, 7.4064},
      {of({{Acid::citric, 1.0}}), 0, 3.20924, 6.7743, 3.22897, 7.7122},
      {{}, 0.5, 3.45709, 5.2768, 3.40432, 6.1991},
      {{}, 1.0, 3.60956, 4.9020, 3.50872, 5.8243},
      {{}, 2.0, 3.90894, 4.1524, 3.72060, 5.0747},
  };
  const double gram_per_equivalent = row(Acid::tartaric).molar_mass.value() / 2;
  for (const auto& r : rows)
    for (const auto* c : {&wine_case, &must_case}) {
      Composition sample = at_ph_330(*c);
      for (std::size_t i = 0; i < acid_count; ++i) sample.acids[i] += r.added.acids[i];
      sample[Ion::potassium] += r.bicarbonate * gram_per_litre / molar_mass("KHCO3");
      const bool is_wine = c == &wine_case;
      EXPECT_NEAR(ph_of(sample, c->medium), is_wine ? r.ph_wine : r.ph_must, 1e-4);
      EXPECT_NEAR(ta_of(sample, oiv_endpoint, c->medium) * gram_per_equivalent, is_wine ? r.ta_wine : r.ta_must, 1e-3);
    }
}

// 1 g/L of a carbonate with all that it brought fallen out, and the whole malolactic conversion.
// Outside check of acid.addition, acid.reduction, acid.malolactic, acid.curve: 12 values within 0.0001 pH,
// 0.001 g/L, derived.
// Source: the same formulas in another program.
TEST(FixedCases, Treatments) {
  static constexpr Fraction all = coherent<Fraction>(1);
  const auto by = [](const Carbonate& carbonate) {
    return [&carbonate](const Composition& c) {
      return after_carbonate(c, carbonate, carbonate.base(1.0 * gram_per_litre), all);
    };
  };
  struct Row {
    std::function<Composition(const Composition&)> treat;
    double ph_wine, ta_wine, ph_must, ta_must;
  };
  const Row rows[] = {
      {by(carbonates[1]), 3.58952, 4.1538, 3.50442, 5.0757},
      {by(carbonates[0]), 3.58963, 4.1534, 3.50449, 5.0752},
      {[](const Composition& c) { return after_malolactic(c, all); }, 3.45067, 4.2653, 3.48206, 4.3497}};
  const double gram_per_equivalent = row(Acid::tartaric).molar_mass.value() / 2;
  for (const auto& r : rows)
    for (const auto* c : {&wine_case, &must_case}) {
      const Composition sample = r.treat(at_ph_330(*c));
      const bool is_wine = c == &wine_case;
      EXPECT_NEAR(ph_of(sample, c->medium), is_wine ? r.ph_wine : r.ph_must, 1e-4);
      EXPECT_NEAR(ta_of(sample, oiv_endpoint, c->medium) * gram_per_equivalent, is_wine ? r.ta_wine : r.ta_must, 1e-3);
    }
}

TEST(FixedCases, TartaricAcidInWaterWithoutActivities) {
  const Medium ideal = Medium(solvent(), {}, working_rule).at_ionic_strength({});
  EXPECT_NEAR(ph_of(of({{Acid::tartaric, 1}}), ideal), 2.67772, 1e-5);
  EXPECT_NEAR(ph_of(of({{Acid::tartaric, 2}}), ideal), 2.50665, 1e-5);
  EXPECT_NEAR(ph_of(of({{Acid::tartaric, 5}}), ideal), 2.28913, 1e-5);
}

// --- What must hold of any composition.

TEST(Equilibrium, BaseToAPhBringsItThere) {
  for (const double to : {2.5, 3.0, 3.5, 5.0, 7.0, 8.2}) {
    Composition c = pink;
    c.add_base(base_to(c, to * ph_unit, wine));
    EXPECT_NEAR(ph_of(c, wine), to, 1e-9);
  }
}

TEST(Equilibrium, TitrationStopsAtTheEndpointOfTheDegassedSample) {
  Composition c = degassed(pink);
  c.add_base(titratable_acidity(pink, oiv_endpoint, wine));
  EXPECT_NEAR(ph_of(c, wine), 7.0, 1e-9);
  EXPECT_EQ(ta_of(pink, oiv_endpoint, wine), ta_of(degassed(pink), oiv_endpoint, wine));
}

// Two steps of a titration are one: base to 5, then from there to 7.
TEST(Equilibrium, TitrationsAdd) {
  const Acidity first = base_to(pink, 5.0 * ph_unit, wine);
  Composition on_the_way = pink;
  on_the_way.add_base(first);
  EXPECT_NEAR((first + base_to(on_the_way, 7.0 * ph_unit, wine)).value(), base_to(pink, 7.0 * ph_unit, wine).value(),
              1e-8);
}

// Every equivalent of a wine acid is titrated before pH 7 but for a trace: 1 g/L tartaric acid brings
// 0.99 g/L or more. It may be above 1 by a trace too: its ions raise the ionic strength, and with it
// what the phosphate in the wine gives.
TEST(Equilibrium, AcidityAddsInEquivalents) {
  Composition more = pink;
  more.add(Acid::tartaric, 1.0 * gram_per_litre);
  const double rise = ta_of(more, oiv_endpoint, wine) - ta_of(pink, oiv_endpoint, wine);
  const double all = 2 / row(Acid::tartaric).molar_mass.value();
  EXPECT_LT(rise, all * 1.005);
  EXPECT_GT(rise, all * 0.99);
  // A base takes away its own equivalents exactly: its ions are those that the titrant would bring.
  Composition less = pink;
  less.add_base(10.0 * milliequivalent_per_litre);
  EXPECT_NEAR(ta_of(pink, oiv_endpoint, wine) - ta_of(less, oiv_endpoint, wine), 10, 1e-9);
}

TEST(Equilibrium, PhRisesWithBaseAndFallsWithEveryAcid) {
  const double before = ph_of(pink, wine);
  for (const auto& acid : acids) {
    if (acid.acid == Acid::carbonic) continue;  // hardly any of it dissociates
    Composition more = pink;
    more[acid.acid] += 5.0 * millimole_per_litre;
    EXPECT_LT(ph_of(more, wine), before) << acid.name;
  }
  Composition based = pink;
  based.add_base(0.01 * milliequivalent_per_litre);
  const double rise = ph_of(based, wine) - before;
  EXPECT_NEAR(0.01 / rise, buffer_capacity(pink, wine).value(), 0.02);
}

TEST(Equilibrium, BlendConservesAndLiesBetween) {
  const Composition other = of({{Acid::tartaric, 5}, {Acid::malic, 4}}, 1300);
  const Fraction share_of_other = coherent<Fraction>(0.25);
  const Composition c = blend(pink, other, share_of_other);
  for (const auto& acid : acids)
    EXPECT_DOUBLE_EQ(c[acid.acid].value(), 0.75 * pink[acid.acid].value() + 0.25 * other[acid.acid].value());
  EXPECT_NEAR(c.strong_difference().value(),
              0.75 * pink.strong_difference().value() + 0.25 * other.strong_difference().value(), 1e-12);
  const double a = ph_of(pink, wine), b = ph_of(other, wine);
  EXPECT_GT(ph_of(c, wine), std::min(a, b));
  EXPECT_LT(ph_of(c, wine), std::max(a, b));
}

// 39.1 mg/L of potassium, 23.0 of sodium, 18.0 of ammonium, 20.0 of calcium and 12.15 of magnesium are
// one milliequivalent each, 35.45 mg/L of chloride takes one away (textbook).
TEST(Equilibrium, StrongIonsCountByTheirCharge) {
  constexpr struct {
    Ion ion;
    double mass, charge;
  } rows[] = {{Ion::potassium, 39.10, 1}, {Ion::sodium, 22.99, 1},    {Ion::ammonium, 18.04, 1},
              {Ion::calcium, 20.04, 1},   {Ion::magnesium, 12.15, 1}, {Ion::chloride, 35.45, -1}};
  for (const auto& r : rows) {
    Composition c;
    c.add(r.ion, r.mass * milligram_per_litre);
    EXPECT_NEAR(c.strong_difference().value(), r.charge, 1e-3) << row(r.ion).name;
  }
}

// The shares of an acid sum to one, and the charges they carry balance the strong ions.
TEST(Equilibrium, SharesCloseTheBalance) {
  const auto at = equilibrium(pink, wine);
  double charge = 0;
  for (const auto& acid : acids) {
    double sum = 0;
    for (std::size_t z = 0; z <= acid.protons; ++z) {
      const double part = share(acid.acid, z, at, wine).value();
      sum += part;
      charge += static_cast<double>(z) * part * pink[acid.acid].value();
    }
    EXPECT_NEAR(sum, 1, 1e-12) << acid.name;
  }
  const double gamma = wine.activity_coefficient(1, at.ionic_strength).value();
  const double protons = 1000 * std::pow(10.0, -at.ph.value()) / gamma;
  EXPECT_NEAR(charge, pink.strong_difference().value() + protons, 1e-7);
}

TEST(Equilibrium, RefusesWhatItCannotKnow) {
  Composition negative = pink;
  negative[Acid::malic] = -1.0 * millimole_per_litre;
  EXPECT_THROW(equilibrium(negative, wine), InputError);
  negative = pink;
  negative[Ion::potassium] = -1.0 * millimole_per_litre;
  EXPECT_THROW(equilibrium(negative, wine), InputError);
  Composition brine;
  brine[Ion::sodium] = brine[Ion::chloride] = 1.0 * mole_per_litre;
  EXPECT_THROW(equilibrium(brine, wine), InputError);
  EXPECT_THROW(base_to(pink, 15.0 * ph_unit, wine), InputError);
  EXPECT_THROW(base_to(pink, -1.0 * ph_unit, wine), InputError);
  EXPECT_THROW(base_to(pink, std::nan("") * ph_unit, wine), InputError);
  EXPECT_THROW(Medium(25.0 * percent_vol), InputError);
  Composition base;
  base[Ion::sodium] = 5.0 * mole_per_litre;
  EXPECT_THROW(equilibrium(base, wine), InputError);
}

// No state is shared: four threads find what one finds, to the last bit.
TEST(Equilibrium, RunsInParallel) {
  const double alone = ph_of(pink, wine);
  std::array<double, 4> found{};
  {
    std::vector<std::jthread> threads;
    for (double& out : found)
      threads.emplace_back([&out] {
        for (int i = 0; i < 200; ++i) out = ph_of(pink, wine);
      });
  }
  for (const double ph : found) EXPECT_EQ(ph, alone);
}

// The engine answers over the whole range of strong ions, or refuses; it never runs on.
TEST(Equilibrium, AnswersFromStrongAcidToStrongBase) {
  double last = 0;
  for (int difference = -200; difference <= 200; difference += 4) {
    Composition c;
    c[Acid::tartaric] = 20.0 * millimole_per_litre;
    c.rest = static_cast<double>(difference) * milliequivalent_per_litre;
    const double ph = ph_of(c, wine);
    EXPECT_GT(ph, last) << difference;
    last = ph;
  }
  EXPECT_GT(last, 12.5);
}

// Newton's method is one way to the pH, repeating the ionic strength at a held pH another: it takes no base to hold a
// liquid at the pH that it has. From pure water to what no wine is, near a pH that is known or not.
TEST(Equilibrium, TheChargesBalanceAtThePhThatIsFound) {
  std::mt19937_64 draw(17);
  const auto between = [&](double low, double high) {
    return low + (high - low) * static_cast<double>(draw() >> 11) / 9007199254740992.0;
  };
  const Medium media[] = {Medium(), wine, Medium(8.0 * percent_vol, celsius(0)), wine.at_ionic_strength(held)};
  int found = 0, of_wines = 0;
  for (int i = 0; i < 4000; ++i) {
    Composition c;
    for (auto& acid : c.acids)
      if (draw() % 2 == 0) acid = std::pow(10, between(-3, 1.9)) * millimole_per_litre;
    for (auto& ion : c.ions)
      if (draw() % 2 == 0) ion = std::pow(10, between(-3, 1.9)) * millimole_per_litre;
    if (draw() % 2 == 0) c.rest = between(-40, 40) * milliequivalent_per_litre;
    const Medium& medium = media[draw() % std::size(media)];
    try {
      const Ph ph = equilibrium(c, medium).ph;
      ++found;
      of_wines += ph.value() > 2.5 && ph.value() < 4.5 ? 1 : 0;
      const double steep = 1 + buffer_capacity(c, ph, medium).value();  // meq/L
      EXPECT_NEAR(base_to(c, ph, medium).value(), 0, 1e-8 * steep) << ph.value();
      EXPECT_NEAR(equilibrium(c, medium, ph).ph.value(), ph.value(), 1e-9);
      EXPECT_NEAR(equilibrium(c, medium, (ph.value() > 7 ? 2.0 : 9.0) * ph_unit).ph.value(), ph.value(), 1e-9);
    } catch (const InputError&) {  // too much of anything
    }
  }
  EXPECT_GT(found, 3000);
  EXPECT_GT(of_wines, 300);
}

TEST(Medium, NamesItsEthanolSetAndLeavesWaterAlone) {
  for (const auto* set : {&prenesti_2012, &working_rule}) {
    const Medium water({}, celsius(25), *set);
    EXPECT_EQ(&water.ethanol_set(), set);
    const Medium strong(15.0 * percent_vol, celsius(25), *set);
    for (const auto& acid : acids)
      for (std::size_t step = 0; step < acid.protons; ++step) {
        EXPECT_EQ(water.pk(acid.acid, step).value(), acid.constants[step].pk);
        const double rise = strong.pk(acid.acid, step).value() - acid.constants[step].pk;
        EXPECT_GT(rise, 0.15) << acid.name;
        EXPECT_LT(rise, 0.31) << acid.name;
      }
  }
}

}  // namespace equilibrium_test
}  // namespace vatwright::chemistry
