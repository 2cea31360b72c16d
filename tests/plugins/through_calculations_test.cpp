// Values from outside that run through the calculation as a recipe does: what would find a fault between a law and the
// sheet.
#include "tests/plugins/run.hpp"
#include "tests/plugins/wines.hpp"

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <fstream>
#include <sstream>
#include <string>

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

// A tank that is not saturated loses nothing, and one at its equilibrium keeps its ion product: the row of a carbonate
// at equilibrium is that of the deposit of the engine's other solver (cold_deposit.py).
TEST(ThroughCalculations, CarbonateAtEquilibriumInTheTank) {
  const auto step = run_step(
      "volume: 10 hL, stage: wine, ethanol: 12 % vol, temperature: 10 °C, pH: 3.1, titratable acidity: 7.5 g/L as "
      "tartaric "
      "acid, tartaric acid: 3 g/L, malic acid: 2.5 g/L, potassium: 800 mg/L",
      "acid.reduction: {target titratable acidity: 6.5 g/L as tartaric acid}");
  const Table* table = test::named(step.outcome.tables, "Before and after the crystals");
  ASSERT_NE(table, nullptr);
  const auto& settled = table->rows.back();
  EXPECT_EQ(std::get<std::string>(settled[0]), "at equilibrium, held at 10 °C");
  EXPECT_LT(std::get<double>(settled[2]), std::get<double>(table->rows.front()[2]));
  EXPECT_TRUE(test::noted(step, "what is likely lies between none of it and that"));
  EXPECT_TRUE(test::noted(step, "in the tank, at 10 °C, this is pH"));
}

}  // namespace through_calculations_test
