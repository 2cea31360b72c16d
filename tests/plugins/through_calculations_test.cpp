// Values from outside that run through the calculation as a recipe does: what would find a fault between a law and the
// sheet.
#include "tests/plugins/blend.hpp"
#include "tests/plugins/run.hpp"
#include "tests/plugins/wines.hpp"
#include "tests/published/cold_deposit.hpp"

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <fstream>
#include <random>
#include <sstream>
#include <string>
#include <utility>
#include <vector>

namespace through_calculations_test {

using namespace vatwright;
using test::result;
using test::run_step;

// The wines of a table that PHREEQC 3 made (aqueous_rows.csv), with their acidity to pH 7 as the titration: the base to
// pH 8.2 follows. 10 mL with 0.1 mol/L: a tenth of the acidity, in mL. Constants of that table are the former ones.
// Outside check of acid.curve: 30 values within 0.02 mL, another program.
// Source: PHREEQC 3, tests/published/aqueous_rows.csv.
TEST(ThroughCalculations, TitrantOfAnotherProgramsWines) {
  std::ifstream file(VATWRIGHT_SOURCE_DIR "/tests/published/aqueous_rows.csv");
  std::string line;
  int rows = 0;
  while (std::getline(file, line)) {
    if (!line.starts_with("12,")) continue;
    std::array<double, 14> x{};
    std::istringstream cells(line);
    for (auto& number : x) {
      std::string cell;
      std::getline(cells, cell, ',');
      number = std::stod(cell);
    }
    const auto step = run_step(
        fmt::format(
            "stage: wine, ethanol: 12 % vol, pH: {}, titratable acidity: {} meq/L, tartaric acid: {} g/L, "
            "malic acid: {} g/L, citric acid: {} g/L, succinic acid: {} g/L, volatile acidity: {} meq/L, lactic "
            "acid: {} g/L, free SO2: {} mg/L",
            x[11], x[12], x[1] * 0.150087, x[2] * 0.134087, x[3] * 0.192124, x[4] * 0.118088, x[5], x[6] * 0.090078,
            x[7] * 64.066),
        "acid.curve: {}");
    EXPECT_NEAR(result(step, "titrant to pH 8.2"), x[13] / 10, 0.02) << line;
    ++rows;
  }
  EXPECT_EQ(rows, 30);
}

// Ripper's factor in every handbook: 1 mL of 0.02 mol/L iodine in equivalents (0.01 mol/L of I2) is 0.64 mg.
// Outside check of sulfite.titration: 3 values within 0.2 %, from memory.
// Source: Ripper's titration in handbooks.
TEST(ThroughCalculations, SulfurDioxideByIodine) {
  for (const double millilitres : {1.0, 2.1, 5.5}) {
    const auto step = run_step("free SO2: 20 mg/L", fmt::format("sulfite.titration: {{method: iodine, titrant: {} mL, "
                                                                "titrant concentration: 0.010 mol/L, sample: 50 mL}}",
                                                                millilitres));
    EXPECT_NEAR(result(step, "SO2") / (millilitres * 0.6406 / 0.050), 1, 0.002);
  }
}

// Solutions that are saturated with bitartrate by the classical table, g/L: a pure solution is then at its saturation
// temperature. The table and the model differ by 9 % of the solubility, which is 2.5 K.
// Outside check of cold.tartrate: 20 values within 3 K, from memory.
// Source: Berg and Keefer, Am. J. Enol. Vitic. 9 (1958) 180.
TEST(ThroughCalculations, SaturationOfTheClassicalTable) {
  constexpr double strengths[] = {0, 10, 12, 14};
  const struct {
    double celsius;
    double grams[4];
  } rows[] = {{0, {2.25, 1.26, 1.10, 0.98}},
              {5, {2.66, 1.58, 1.49, 1.24}},
              {10, {3.42, 2.02, 1.81, 1.63}},
              {15, {4.17, 2.45, 2.25, 2.03}},
              {20, {4.92, 3.08, 2.77, 2.51}}};
  using namespace chemistry;
  for (const auto& row : rows)
    for (std::size_t i = 0; i < std::size(strengths); ++i) {
      const Medium medium(strengths[i] * percent_vol, vatwright::celsius(20));
      Composition c;
      c[Acid::tartaric] = c[Ion::potassium] = row.grams[i] / 188.177 * mole_per_litre;
      const auto step = run_step(
          fmt::format(
              "stage: wine, ethanol: {} % vol, pH: {}, titratable acidity: {} meq/L, tartaric acid: {} g/L, malic "
              "acid: 0 g/L, lactic acid: 0 g/L, succinic acid: 0 g/L, citric acid: 0 g/L, volatile acidity: 0 "
              "meq/L, potassium: {} mg/L",
              strengths[i], ph_of(c, medium), ta_of(c, oiv_endpoint, medium), row.grams[i] / 188.177 * 150.087,
              row.grams[i] / 188.177 * 39098.3),
          "cold.tartrate: {hold at: 0 °C, model: pure solution}");
      EXPECT_NEAR(result(step, "saturation temperature"), row.celsius, 3) << strengths[i] << " % vol";
    }
}

// First-order extraction: half of the colour is out after ln 2 / k, and all of it is the plateau.
// Outside check of pink.contact: 3 values within 0.001, derived.
// Source: 1 - exp(-k t), worked out apart from this program.
TEST(ThroughCalculations, TheCourseOfAnExtraction) {
  std::string readings = "path: 10 mm";
  for (const double hours : {1.0, 2.0, 4.0, 6.0, 9.0, 14.0})
    readings += fmt::format(", {} h: {:.9f} AU", hours, 2.4 * (1 - std::exp(-0.2 * hours)));
  const auto step = run_step("volume: 10 hL", "pink.contact: {readings: {" + readings + "}, target: 2.0 AU}");
  EXPECT_NEAR(result(step, "plateau"), 2.4, 0.001);
  EXPECT_NEAR(result(step, "half time"), std::log(2) / 0.2, 0.001);
  EXPECT_NEAR(result(step, "press at"), -std::log(1 - 2.0 / 2.4) / 0.2, 0.001);
}

// What would fall out after a bicarbonate or a tartaric acid, held at 10 °C: on the sheet, and by the other solver from
// the same wine and the dose that the sheet gives. The pH is of the wine that is left, read at 20 °C.
struct Treated {
  const char* step;
  double potassium, tartaric;  // mol that a gram brings
};

// Outside check of acid.reduction, acid.addition: 40 values within 0.01 g/L and 0.003 pH, derived.
// Source: cold_deposit.py, Newton's method of mpmath.
TEST(ThroughCalculations, TreatmentAtEquilibriumInTheTank) {
  using namespace chemistry;
  const Medium bench(12.0 * percent_vol, vatwright::celsius(20));
  // KHCO3 100.115 g/mol, C4H6O6 150.087 g/mol.
  const Treated treatments[] = {
      {"acid.reduction: {substance: potassium bicarbonate, target titratable acidity: ", 1 / 100.115, 0},
      {"acid.addition: {substance: tartaric acid, target titratable acidity: ", 0, 1 / 150.087}};
  std::mt19937_64 draw(11);
  const auto between = [&](double low, double high) {
    return low + (high - low) * static_cast<double>(draw() >> 11) / 9007199254740992.0;
  };
  for (const auto& treatment : treatments) {
    std::vector<Composition> dissolved;
    std::vector<StepSheet> sheets;
    for (int i = 0; i < 10; ++i) {
      Composition c;
      c[Acid::tartaric] = between(14, 26) * millimole_per_litre;
      c[Acid::malic] = between(5, 30) * millimole_per_litre;
      c[Acid::lactic] = between(0, 5) * millimole_per_litre;
      c[Acid::succinic] = between(3, 7) * millimole_per_litre;
      c[Acid::citric] = between(0.5, 2) * millimole_per_litre;
      c[Acid::acetic] = between(2, 8) * millimole_per_litre;
      c[Ion::potassium] = between(18, 30) * millimole_per_litre;
      c.rest = base_to(c, between(3.05, 3.4) * ph_unit, bench);
      const double ta = ta_of(c, oiv_endpoint, bench);
      sheets.push_back(run_step(
          fmt::format(
              "volume: 1000 hL, stage: wine, ethanol: 12 % vol, temperature: 10 °C, pH: {:.9f}, titratable acidity: "
              "{:.9f} meq/L, tartaric acid: {:.9f} g/L, malic acid: {:.9f} g/L, lactic acid: {:.9f} g/L, succinic "
              "acid: {:.9f} g/L, citric acid: {:.9f} g/L, volatile acidity: {:.9f} meq/L, potassium: {:.9f} mg/L",
              ph_of(c, bench), ta, c[Acid::tartaric].value() * 0.150087, c[Acid::malic].value() * 0.134087,
              c[Acid::lactic].value() * 0.090078, c[Acid::succinic].value() * 0.118088,
              c[Acid::citric].value() * 0.192124, c[Acid::acetic].value(), c[Ion::potassium].value() * 39.0983),
          fmt::format("{}{:.6f} meq/L}}", treatment.step, ta + (treatment.tartaric > 0 ? 10 : -10))));
      const double grams = result(sheets.back(), "dose");
      c[Ion::potassium] += grams * treatment.potassium * mole_per_litre;
      c[Acid::tartaric] += grams * treatment.tartaric * mole_per_litre;
      dissolved.push_back(c);
    }
    const auto theirs = published::other_deposits(dissolved, 12.0 * percent_vol, vatwright::celsius(10));
    for (std::size_t i = 0; i < sheets.size(); ++i) {
      SCOPED_TRACE(fmt::format("{} {}", treatment.step, i));
      Composition left = dissolved[i];
      left[Ion::potassium] -= theirs[i].removed * mole_per_litre;
      left[Acid::tartaric] -= theirs[i].removed * mole_per_litre;
      const Table* found =
          test::named(sheets[i].outcome.tables, treatment.tartaric > 0 ? "If potassium" : "Before and");
      ASSERT_NE(found, nullptr);
      const auto& table = *found;
      const auto& settled = table.rows.back();
      EXPECT_NEAR(std::get<double>(settled[1]), ph_of(left, bench), 0.003);
      // The acid's table names the crystals; of the carbonate's, each bitartrate takes its one hydrogen along.
      constexpr double bitartrate = 188.177;
      const double crystals =
          treatment.tartaric > 0
              ? std::get<double>(settled[0])
              : (std::get<double>(table.rows.front()[2]) - std::get<double>(settled[2])) / 1000 * bitartrate;
      EXPECT_NEAR(crystals, theirs[i].removed * bitartrate, 0.01);
    }
  }
}

// A wine above the criterion is at risk, one below it is not: 80 mg/L in white and pink wine, 60 in red.
// Outside check of cold.calcium: 3 values within 1 mg/L, seen.
// Source: Australian Wine Research Institute, column on calcium; the trade press for pink wine.
TEST(ThroughCalculations, CalciumByColour) {
  for (const auto& [colour, most] : {std::pair{"white", 80}, std::pair{"pink", 80}, std::pair{"red", 60}})
    for (const int off : {-1, 1}) {
      const auto step = run_step(
          fmt::format("stage: wine, colour: {}, calcium: {} mg/L, tartaric acid: 2 g/L, pH: 3.4", colour, most + off),
          "cold.calcium: {}");
      EXPECT_EQ(test::check(step, "calcium tartrate risk")->holds, off < 0) << colour;
    }
}

// OIML R 22 at 12.440435 % vol: the densities at two temperatures, as another program has them.
// Outside check of blend.volume: 4 values within 0.01 L in 1000 L, derived.
// Source: OIML R 22, its formula in another program.
TEST(ThroughCalculations, VolumeOfAColdTank) {
  constexpr struct {
    double celsius, density, at_20;
  } rows[] = {
      {0, 984.74993, 981.84781}, {10, 983.92967, 981.84781}, {25, 980.40619, 981.84781}, {30, 978.73088, 981.84781}};
  for (const auto& row : rows) {
    const auto step =
        run_step(fmt::format("stage: wine, ethanol: 12.440435 % vol, volume: 1000 L, temperature: {} °C", row.celsius),
                 "blend.volume: {}");
    const double litres = parse_unit("L").number(step.outcome.results.front().number);
    EXPECT_NEAR(litres, 1000 * row.density / row.at_20, 0.01) << row.celsius;
  }
}

// OIML R 22 at 20 °C, computed by another program from the same formula.
// Outside check of blend.mix: 3 values within 0.01 L and 0.006 % vol, derived.
// Source: OIML R 22, its formula in another program.
TEST(ThroughCalculations, ContractionOfABlend) {
  constexpr struct {
    double first, first_strength, second, second_strength, volume, strength;
  } rows[] = {{1000, 12, 500, 14, 1500.0125, 12.66656}, {1000, 11, 1000, 15, 2000.0740, 0}};
  for (const auto& row : rows) {
    const auto sheet =
        test::blend(fmt::format("{{A: {{volume: {} L, ethanol: {} % vol}}, B: {{volume: {} L, ethanol: {} % vol}}}}",
                                row.first, row.first_strength, row.second, row.second_strength),
                    "{lots: [A, B], into: C}");
    const auto& step = sheet.steps.at(0);
    EXPECT_EQ(step.calculation, "blend.mix");
    EXPECT_NEAR(result(step, "volume") * 100, row.volume, 0.01);
    if (row.strength > 0) {
      EXPECT_NEAR(result(step, "ethanol"), row.strength, 0.006);
    }
  }
}

// Two straight courses written out by hand: sugar from 160 g/L by 3 a day, from 172 by 2, wanted 190.
// Outside check of pink.harvest: 2 values within 1e-6 d, derived.
// Source: the straight lines by hand.
TEST(ThroughCalculations, TheDayThatASugarIsReached) {
  constexpr struct { double sugar, daily, days; } plots[] = {{160, 3, 10}, {172, 2, 9}};
  for (const auto& plot : plots) {
    std::string rows;
    for (int i = 0; i < 4; ++i)
      rows += fmt::format("{}{{plot: A, date: 2026-08-{}, sugar: {} g/L}}", i == 0 ? "" : ", ", 14 + 2 * i,
                          plot.sugar + 2 * plot.daily * i);
    const auto step =
        run_step("volume: 1 L", "pink.harvest: {readings: [" + rows + "], wanted: {sugar: at least 190 g/L}}");
    EXPECT_NEAR(result(step, "opens after"), plot.days, 1e-6);
  }
}

}  // namespace through_calculations_test
