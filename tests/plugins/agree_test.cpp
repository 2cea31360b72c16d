// Readings that contradict each other: a slipped point is found, and readings of one must or wine are not.
#include "plugins/lab/agree.hpp"

#include <fmt/format.h>

#include <random>

#include "plugins/chemistry/extract.hpp"
#include "plugins/chemistry/hydrometer.hpp"
#include "plugins/chemistry/must.hpp"
#include "tests/plugins/run.hpp"

namespace vatwright::test {
namespace agree_test {

struct Must {
  double sugar, brix, density;  // g/L, °Brix, kg/m³
};

// A must as it is, by the two tables that everybody has.
Must must_of(double brix) {
  const MassFraction dissolved = brix * percent_mass;
  const Density density = chemistry::sucrose_density(dissolved, chemistry::hydrometer_temperature);
  return {chemistry::must_sugar(density).value(), brix, density.value()};
}

std::string lot_of(const Must& must) {
  return fmt::format(
      "volume: 20 hL, stage: must, sugar: {:.1f} g/L, soluble solids: {:.2f} °Brix, density: {:.1f} "
      "kg/m³",
      must.sugar, must.brix, must.density);
}

const std::string enrich = "sugar.enrichment: {target potential alcohol: 15.5 % vol}";

TEST(ReadingsAgree, ASlippedPointIsFoundAndNamed) {
  std::mt19937 random(2);
  std::uniform_real_distribution<> brix(15, 24), noise(-1, 1);
  for (int turn = 0; turn < 60; ++turn) {
    Must must = must_of(brix(random));
    must.sugar += 12 * noise(random);
    must.brix += 0.4 * noise(random);
    must.density += 2 * noise(random);
    SCOPED_TRACE(lot_of(must));
    EXPECT_EQ(check(run_step(lot_of(must), enrich), "readings of the must"), nullptr);
    Must slipped = must;
    slipped.sugar /= 10;
    const auto step = run_step(lot_of(slipped), enrich);
    const auto* found = check(step, "readings of the must agree: sugar of ");
    ASSERT_NE(found, nullptr);
    EXPECT_FALSE(found->holds);
    EXPECT_TRUE(has(found->name, "stands alone"));
    EXPECT_TRUE(step.outcome.additions.empty());
    EXPECT_TRUE(step.outcome.changes.empty());
    slipped = must;
    slipped.brix *= 0.5;
    EXPECT_NE(check(run_step(lot_of(slipped), enrich), "readings of the must agree: soluble solids of "), nullptr);
    slipped = must;
    slipped.density = 1000 + (must.density - 1000) / 10 + 50;
    if (must.density - slipped.density > 15) {
      EXPECT_NE(check(run_step(lot_of(slipped), enrich), "readings of the must agree: density of "), nullptr);
    }
  }
}

TEST(ReadingsAgree, DensityEthanolAndSugarOfAWine) {
  std::mt19937 random(12);
  std::uniform_real_distribution<> strength(8, 16), sugar(0, 120), rest(15, 45);
  const auto lot = [](double ethanol, double grams, double density) {
    return fmt::format(
        "volume: 20 hL, pH: 3.3, free SO2: 10 mg/L, total SO2: 60 mg/L, stage: wine, ethanol: {:.2f} % "
        "vol, sugar: {:.1f} g/L, density: {:.2f} kg/m³",
        ethanol, grams, density);
  };
  const std::string dose = "sulfite.addition: {target free SO2: 25 mg/L}";
  for (int turn = 0; turn < 60; ++turn) {
    const double ethanol = strength(random), grams = sugar(random);
    const double density =
        chemistry::wine_density(ethanol * percent_vol, (grams + rest(random)) * gram_per_litre).value();
    SCOPED_TRACE(lot(ethanol, grams, density));
    EXPECT_EQ(check(run_step(lot(ethanol, grams, density), dose), "density, ethanol and sugar"), nullptr);
    for (const double wrong : {density + 60, density - 40}) {
      if (wrong < 951) continue;
      const auto step = run_step(lot(ethanol, grams, wrong), dose);
      EXPECT_NE(check(step, "density, ethanol and sugar"), nullptr) << wrong;
      EXPECT_TRUE(step.outcome.additions.empty());
    }
  }
}

// What a step forecast is not held against what was read.
TEST(ReadingsAgree, AForecastIsNoReading) {
  const auto sheet = run(lot_of(must_of(19)), {enrich, "sugar.enrichment: {target potential alcohol: 15.6 % vol}"});
  EXPECT_FALSE(sheet.steps.at(0).contradicted);
  EXPECT_FALSE(sheet.steps.at(1).contradicted);
}

TEST(ReadingsAgree, APartIsNotMoreThanTheWhole) {
  const auto step = run_step(
      "volume: 20 hL, pH: 3.3, titratable acidity: 0.5 g/L as tartaric acid, volatile acidity: 0.6 g/L, ethanol: 12 % "
      "vol, stage: wine",
      "acid.addition: {target pH: 3.2}");
  EXPECT_NE(check(step, "volatile acidity is a part"), nullptr);
  EXPECT_TRUE(step.outcome.additions.empty());
}

// Molar masses from atomic weights by hand: 150.09, 134.09, 90.08 and 39.10 g/mol.
TEST(ReadingsAgree, TitratableAcidityAndTheSingleAcids) {
  std::mt19937 random(77);
  std::uniform_real_distribution<> tartaric(1, 4), malic(0.1, 4), lactic(0.1, 3), potassium(500, 1600), others(15, 50);
  const auto lot = [](double ta, double t, double m, double l, double k) {
    return fmt::format(
        "volume: 20 hL, stage: wine, ethanol: 12 % vol, pH: 3.40, titratable acidity: {:.3f} g/L as tartaric acid, "
        "tartaric acid: {:.3f} g/L, malic acid: {:.3f} g/L, lactic acid: {:.3f} g/L, potassium: {:.0f} mg/L",
        ta, t, m, l, k);
  };
  const std::string dose = "cellar.dose: {substance: bentonite, dose: 50 g/hL}";
  const std::string acidify = "acid.addition: {target pH: 3.35}";
  for (int turn = 0; turn < 40; ++turn) {
    const double t = tartaric(random), m = malic(random), l = lactic(random), k = potassium(random);
    const double all = t / 150.09 * 2000 + m / 134.09 * 2000 + l / 90.08 * 1000 + others(random);  // meq/L
    const double ta = (all - k / 39.10) * 150.09 / 2000;                                           // g/L
    if (ta < 3) continue;
    SCOPED_TRACE(lot(ta, t, m, l, k));
    const auto clash = [&](const std::string& of) {
      try {
        return check(run_step(of, acidify), "titratable acidity and the single acids") != nullptr;
      } catch (const BadInput&) {
        return false;  // refused by the model of acids for another reason
      }
    };
    EXPECT_FALSE(clash(lot(ta, t, m, l, k)));
    const auto far = run_step(lot(ta + 9, t / 10, m / 10, l / 10, k), acidify);
    EXPECT_NE(check(far, "titratable acidity and the single acids"), nullptr);
    EXPECT_TRUE(far.outcome.additions.empty());
  }
  // What does not look at acids is dosed all the same.
  EXPECT_FALSE(run_step(lot(12, 0.3, 0.1, 0.1, 900), dose).contradicted);
}

TEST(ReadingsAgree, ConductivityAndPotassium) {
  std::mt19937 random(78);
  std::uniform_real_distribution<> potassium(400, 1800), each(38, 60), others(400, 900);
  const auto lot = [](double k, double conductivity) {
    return fmt::format(
        "volume: 20 hL, stage: wine, pH: 3.40, free SO2: 10 mg/L, total SO2: 60 mg/L, potassium: {:.0f} mg/L, "
        "conductivity: {:.0f} µS/cm",
        k, conductivity);
  };
  const std::string dose = "sulfite.addition: {target free SO2: 25 mg/L}";
  for (int turn = 0; turn < 40; ++turn) {
    const double k = potassium(random), conductivity = k / 39.10 * each(random) + others(random);
    SCOPED_TRACE(lot(k, conductivity));
    EXPECT_EQ(check(run_step(lot(k, conductivity), dose), "conductivity and potassium"), nullptr);
    for (const double slip : {0.1, 10.0}) {
      const auto step = run_step(lot(k, std::min(conductivity * slip, 19999.0)), dose);
      EXPECT_NE(check(step, "conductivity and potassium"), nullptr) << slip;
      EXPECT_TRUE(step.outcome.additions.empty());
    }
  }
}

// Whatever doses looks.
TEST(ReadingsAgree, EveryCalculationThatDosesLooks) {
  TestHouse house;
  for (const auto* plugin : house.registry.all())
    for (const auto& calculation : plugin->calculations) {
      bool decides = false;
      for (const auto* result : calculation.results) decides = decides || result->decided;
      const bool joins = std::string_view(plugin->name) == "blend" && calculation.name != "scale";
      const bool draws = std::string_view(plugin->name) == "pink";
      if (!decides || joins || draws || !calculation.on_lot) continue;
      EXPECT_NE(calculation.agree, nullptr) << plugin->name << '.' << calculation.name;
    }
}

}  // namespace agree_test
}  // namespace vatwright::test
