// The plugin cellar, run by recipe.
#include "tests/plugins/run.hpp"

#include <fmt/format.h>

#include <cmath>
#include <random>

namespace vatwright::test {
namespace cellar_test {

// Purge with full mixing: ln(20.9 / wanted).
// Outside check of cellar.gas: 5 values within 0.005, derived.
// Source: exponential dilution of a mixed volume.
TEST(CellarGas, VolumesByTheExponentialLaw) {
  const std::pair<const char*, double> rows[] = {{"5", 1.43}, {"2", 2.35}, {"1", 3.04}, {"0.5", 3.73}, {"0.1", 5.34}};
  for (const auto& [wanted, volumes] : rows) {
    const auto step =
        run_step("volume: 1 L", "cellar.gas: {headspace: 1000 L, gas: nitrogen, oxygen now: 20.9 %, wanted oxygen: " +
                                    std::string(wanted) + " %}");
    EXPECT_NEAR(result(step, "changes of volume"), volumes, 0.005);
    EXPECT_NEAR(result(step, "gas volume"), 1000 * std::log(20.9 / std::stod(wanted)), 1e-6);
    ASSERT_EQ(step.outcome.additions.size(), 1U);
    EXPECT_TRUE(noted(step, "CONFINED SPACE"));
  }
  const auto enough =
      run_step("volume: 1 L", "cellar.gas: {headspace: 1000 L, gas: argon, oxygen now: 0.4 %, wanted oxygen: 0.5 %}");
  EXPECT_TRUE(enough.outcome.additions.empty());
  EXPECT_TRUE(noted(enough, "CONFINED SPACE"));
}

// 1.250 kg/m³ of nitrogen and 1.784 of argon at 0 °C and 1.013 bar.
// Outside check of cellar.gas: 2 values within 0.3 %, from memory.
// Source: densities of gases at 0 °C and 101.325 kPa, handbook values.
TEST(CellarGas, MassesOfGases) {
  for (const auto& [gas, density] : {std::pair{"nitrogen", 1.2506}, {"argon", 1.7837}}) {
    const auto step = run_step(
        "volume: 1 L",
        fmt::format("cellar.gas: {{headspace: 100 hL, gas: {}, gas temperature: 0 °C, wanted oxygen: 1 %}}", gas));
    EXPECT_NEAR(result(step, "gas mass") / (result(step, "gas volume") / 1000), density, 0.005 * density);
  }
}

// 24 kcal/mol: 0.557 kJ/g, and 20 g/L in a day in 100 hL make 1.29 kW; 10 and 30 make 0.65 and 1.94.
// Outside check of cellar.cooling: 3 values within 0.5 %, derived.
// Source: heat of fermentation as quoted by Colombié, Malherbe and Sablayrolles (2007).
TEST(CellarCooling, HeatOfFermentation) {
  for (const auto& [rate, power] : {std::pair{10, 0.645}, {20, 1.29}, {30, 1.935}}) {
    const auto step = run_step("volume: 100 hL",
                               fmt::format("cellar.cooling: {{sugar fermented: {} g/L/d, heat gained: 0 %}}", rate));
    EXPECT_NEAR(result(step, "heat of fermentation"), power, 0.005 * power);
  }
}

TEST(CellarCooling, HeatToTakeOut) {
  const auto step = run_step("volume: 100 hL, temperature: 24 °C, density: 1085 kg/m³",
                             "cellar.cooling: {cool to: 14 °C, within: 10 h, heat gained: 0 %}");
  const double kilojoule = 10 * 1085 * 3.85 * 10;
  EXPECT_NEAR(result(step, "heat"), kilojoule / 3600, 1e-6);
  EXPECT_NEAR(result(step, "cooling power"), kilojoule / 36000, 1e-6);
  EXPECT_NEAR(result(step, "ice"), kilojoule / 333.6, 1e-6);
  const auto cold =
      run_step("volume: 100 hL, temperature: 10 °C, density: 1085 kg/m³", "cellar.cooling: {cool to: 14 °C}");
  EXPECT_NEAR(result(cold, "heat"), 0, 0);
  EXPECT_TRUE(cold.outcome.work.empty());
}

// T400 - 2 T200: 45 s and 98 s make 8 s. Classes at 25, 50 and 100 s; 4000, 2500 and 1500 mL.
// Outside check of cellar.filtration: 9 values within 1e-3, seen.
// Source: Winetech Technical Yearbook 2019, page 168; classes of Romat (2014), as quoted.
TEST(CellarFiltration, IndexAndClasses) {
  const std::pair<int, const char*> by_index[] = {{20, "very good"}, {40, "good"}, {80, "poor"}, {120, "very poor"}};
  for (const auto& [index, name] : by_index) {
    const auto step = run_step(
        "volume: 1 L", fmt::format("cellar.filtration: {{time to 200 mL: 45 s, time to 400 mL: {} s}}", 90 + index));
    EXPECT_NEAR(result(step, "clogging index"), index, 1e-9);
    EXPECT_TRUE(noted(step, std::string("clogging index: ") + name)) << index;
  }
  const auto eight = run_step("volume: 1 L", "cellar.filtration: {time to 200 mL: 45 s, time to 400 mL: 98 s}");
  EXPECT_NEAR(result(eight, "clogging index"), 8, 1e-9);
  for (const auto& [most, name] :
       {std::pair{4500, "very good"}, {3000, "average"}, {2000, "poor"}, {1000, "very poor"}}) {
    std::string rows;
    for (const double t : {60.0, 150.0, 240.0}) {
      const double volume = t / (0.2 + t / most);  // t/V = 1/Q0 + t/Vmax
      rows += fmt::format("{}{{filtered: {:.9f} mL, time: {} s}}", rows.empty() ? "" : ", ", volume, t);
    }
    const auto step = run_step("volume: 1 L", "cellar.filtration: {readings: [" + rows + "]}");
    EXPECT_NEAR(result(step, "largest volume"), most, 1e-3);
    EXPECT_TRUE(noted(step, std::string("largest volume: ") + name)) << most;
  }
}

// 15 mL of air at 20 °C hold 4.18 mg of oxygen, 5.57 mg for each litre of a bottle of 750 mL.
// Outside check of cellar.bottling: 1 value within 0.5 %, derived.
// Source: ideal gas law; share of oxygen in dry air.
TEST(CellarBottling, OxygenOfTheHeadSpace) {
  const auto step =
      run_step("free SO2: 30 mg/L", "cellar.bottling: {dissolved oxygen: 0 mg/L, headspace: 15 mL, closure: 0 mg/d}");
  EXPECT_NEAR(result(step, "oxygen in all"), 5.57, 0.005 * 5.57);
  EXPECT_NEAR(result(step, "free SO2 used up"), 2.5 * 5.57, 0.1);
}

// 0.003 mg a day for a year into 750 mL; 1 mL of oxygen at 20 °C, by 1.429 g/L at 0 °C; each mg takes 2.5 mg.
// Outside check of cellar.bottling: 4 values within 0.5 %, derived.
// Source: the sum of what is dissolved, packed and let in; density of oxygen at 0 °C from a handbook.
TEST(CellarBottling, OxygenFromEverywhere) {
  const auto oxygen = [](const std::string& more) {
    return result(run_step("free SO2: 30 mg/L", "cellar.bottling: {" + more + "}"), "oxygen in all");
  };
  EXPECT_NEAR(oxygen("dissolved oxygen: 0 mg/L, headspace: 0 mL, closure: 0.003 mg/d, after: 365 d"), 1.46, 0.005);
  const double packed = 1.429 * 273.15 / 293.15 / 0.75;
  EXPECT_NEAR(oxygen("dissolved oxygen: 0 mg/L, headspace: 10 mL, headspace oxygen: 10 %, closure: 0 mg/d"), packed,
              0.005 * packed);
  const auto all = run_step("free SO2: 30 mg/L",
                            "cellar.bottling: {dissolved oxygen: 1 mg/L, headspace: 10 mL, headspace oxygen: 10 %, "
                            "closure: 0.003 mg/d, after: 365 d}");
  EXPECT_NEAR(result(all, "oxygen in all"), 1 + packed + 1.46, 0.02);
  EXPECT_NEAR(result(all, "free SO2 after"), 30 - 2.5 * (1 + packed + 1.46), 0.06);
}

TEST(CellarBottling, TheFillerShowsWhatIsWantedLater) {
  std::mt19937 random(3);
  const auto between = [&](double low, double high) { return std::uniform_real_distribution(low, high)(random); };
  for (int i = 0; i < 50; ++i) {
    const auto inputs = fmt::format(
        "dissolved oxygen: {:.3f} mg/L, headspace: {:.1f} mL, headspace oxygen: {:.1f} %, closure: {:.4f} mg/d, after: "
        "{:.0f} d",
        between(0, 4), between(0, 30), between(0.1, 20.9), between(0, 0.01), between(30, 900));
    const auto first = run_step("free SO2: 60 mg/L", "cellar.bottling: {" + inputs + ", wanted free SO2: 12 mg/L}");
    const auto again = run_step(fmt::format("free SO2: {:.9f} mg/L", result(first, "free SO2 at the filler")),
                                "cellar.bottling: {" + inputs + "}");
    EXPECT_NEAR(result(again, "free SO2 after"), 12, 1e-6) << inputs;
  }
}

// 4800 L less 3 % of lees and 20 L of losses; half of the lees are won back.
// Outside check of cellar.racking: 3 values within 1e-9 L, derived.
// Source: balance of volumes.
TEST(CellarRacking, VolumesBalance) {
  const auto step = run_step("volume: 48 hL", "cellar.racking: {lees share: 3 %, losses: 20 L, wine in lees: 50 %}");
  EXPECT_NEAR(result(step, "racked volume"), 4800 * 0.97 - 20, 1e-9);
  EXPECT_NEAR(result(step, "lees left"), 144, 1e-9);
  EXPECT_NEAR(result(step, "wine from lees"), 72, 1e-9);
}

TEST(CellarDose, WhatIsWeighedIsTheDose) {
  std::mt19937 random(5);
  const auto between = [&](double low, double high) { return std::uniform_real_distribution(low, high)(random); };
  for (const char* substance : {"pectolytic enzyme", "active dry yeast", "bentonite", "gum arabic", "pea protein"})
    for (int i = 0; i < 20; ++i) {
      const double dose = between(0.5, 25), volume = between(1, 400);
      const auto step =
          run_step(fmt::format("volume: {:.2f} hL, stage: wine, colour: white", volume),
                   fmt::format("cellar.dose: {{substance: {}, dose: {:.2f} g/hL}}", substance, dose), "EU");
      ASSERT_EQ(step.outcome.additions.size(), 1U) << substance << dose;
      EXPECT_NEAR(step.outcome.additions[0].mass->value() * 1e3, dose * volume, 0.006 * dose * volume);
    }
}

// Gum arabic 0.3 g/L: OIV Code, Annex "Maximum acceptable limits".
// Outside check of cellar.dose: 2 values within 1 g/hL, seen.
// Source: OIV Code of Oenological Practices.
TEST(CellarDose, TheLawIsHeld) {
  const std::string lot = "volume: 10 hL, stage: wine, colour: white";
  EXPECT_EQ(run_step(lot, "cellar.dose: {substance: gum arabic, dose: 30 g/hL}", "OIV").outcome.additions.size(), 1U);
  EXPECT_TRUE(run_step(lot, "cellar.dose: {substance: gum arabic, dose: 31 g/hL}", "OIV").outcome.additions.empty());
}

TEST(CellarDose, OnFruitAndByVolume) {
  const auto fruit =
      run_step("volume: 30 hL", "cellar.dose: {substance: pectolytic enzyme, dose on fruit: 2 g/100 kg, fruit: 4.2 t}");
  EXPECT_NEAR(result(fruit, "mass"), 84, 1e-9);
  EXPECT_EQ(fruit.outcome.additions.size(), 1U);
  EXPECT_FALSE(fruit.outcome.work.empty());
  const auto unknown =
      run_step("stage: must", "cellar.dose: {substance: pectolytic enzyme, dose on fruit: 2 g/100 kg, fruit: 4.2 t}");
  EXPECT_NEAR(result(unknown, "mass"), 84, 1e-9);
  EXPECT_FALSE(unknown.outcome.reagents.empty());
  const auto liquid =
      run_step("volume: 48 hL", "cellar.dose: {substance: liquid pectolytic enzyme, liquid dose: 2.5 mL/hL}");
  EXPECT_NEAR(result(liquid, "product volume"), 120, 1e-9);
}

TEST(CellarTank, ADipIsAVolume) {
  const auto step = run_step("volume: 1 L",
                             "cellar.tank: {shape: upright cylinder, diameter: 2 m, wall height: 2.5 m, bottom: cone, "
                             "bottom depth: 0.4 m, dip: 100 cm}");
  EXPECT_NEAR(result(step, "volume"), 2303.83, 0.01);
  EXPECT_NEAR(result(step, "for each centimetre"), 31.4159, 1e-3);
  const auto ullage = run_step("volume: 1 L",
                               "cellar.tank: {shape: upright cylinder, diameter: 2 m, wall height: 2.5 m, bottom: "
                               "cone, bottom depth: 0.4 m, ullage: 190 cm}");
  EXPECT_NEAR(result(ullage, "volume"), 2303.83, 0.01);
}

}  // namespace cellar_test
}  // namespace vatwright::test
