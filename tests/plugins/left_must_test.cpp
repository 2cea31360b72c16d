// What was read of a must is no reading of the wine that it becomes: what is taken on waits to be measured, and what
// says nothing of the wine is unknown.
#include "plugins/lab/left_must.hpp"
#include "tests/plugins/run.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <random>

namespace vatwright::test {
namespace left_must_test {

const std::string read_as_must =
    "volume: 31 hL, class: still, colour: pink, ethanol: 11.5 % vol, pH: 3.30, titratable acidity: 7.0 g/L as tartaric "
    "acid, tartaric acid: 3.4 g/L, malic acid: 2.6 g/L, potassium: 1300 mg/L, total SO2: 40 mg/L, free SO2: 12 mg/L, "
    "turbidity: 120 NTU, conductivity: 2200 µS/cm, absorbance: {path: 10 mm, 420 nm: 0.3 AU, 520 nm: 0.5 AU, 620 nm: "
    "0.1 "
    "AU}";
const std::string dry =
    "sugar.fermentation: {original density: 1088 kg/m³, density: 990.6 kg/m³, density a day ago: 990.7 kg/m³, sugar by "
    "analysis: 1.4 g/L}";
const std::string running =
    "sugar.fermentation: {original density: 1088 kg/m³, density: 1024 kg/m³, density a day ago: 1033 kg/m³}";

bool waits_for(const StepSheet& step, std::string_view figure) {
  if (!step.measure_first) return false;
  const auto& figures = step.measure_first->figures;
  return std::find(figures.begin(), figures.end(), figure) != figures.end();
}

TEST(LeftMust, ADoseOnTheWineWaitsForReadings) {
  const std::string acid = "acid.addition: {target titratable acidity: 7.6 g/L as tartaric acid}";
  for (const char* stage : {"", ", stage: must"}) {
    const auto sheet = run(read_as_must + stage, {dry, acid});
    const auto& after = sheet.lots.at(0).after;
    for (const Input* key : lab::unknown_of_wine) EXPECT_FALSE(after.contains(key->name)) << key->name;
    EXPECT_TRUE(noted(sheet.steps[0], "no reading of the wine"));
    ASSERT_FALSE(sheet.steps[1].outcome.additions.empty());
    for (const char* figure : {"pH", "titratable acidity", "tartaric acid", "malic acid", "potassium"})
      EXPECT_TRUE(waits_for(sheet.steps[1], figure)) << figure;
  }
}

// A dose of sulfite wants the free SO2 of the wine, and is given none of the must.
TEST(LeftMust, FreeSulfurDioxideIsAskedForAnew) {
  static TestHouse house;
  EXPECT_THROW(house.run(recipe(read_as_must + ", stage: must", {dry, "sulfite.addition: {target free SO2: 30 mg/L}"})),
               BadInput);
  const auto sheet =
      run(read_as_must + ", stage: must", {dry, "sulfite.addition: {target free SO2: 30 mg/L, free SO2: 4 mg/L}"});
  EXPECT_FALSE(sheet.steps[1].outcome.additions.empty());
  EXPECT_TRUE(waits_for(sheet.steps[1], "pH"));
  EXPECT_FALSE(waits_for(sheet.steps[1], "free SO2"));
}

// The figures themselves stay, whatever they are.
TEST(LeftMust, TheFigureStays) {
  std::mt19937 random(43);
  std::uniform_real_distribution<double> ph(2.9, 3.8), acidity(4.5, 9);
  for (int i = 0; i < 30; ++i) {
    const double p = ph(random), a = acidity(random);
    const auto sheet = run(fmt::format("volume: 10 hL, stage: must, pH: {:.3f}, titratable acidity: {:.3f} g/L as "
                                       "tartaric acid",
                                       p, a),
                           {dry});
    EXPECT_NEAR(after(sheet, "pH", "pH"), p, 1e-3);
    EXPECT_NEAR(after(sheet, "titratable acidity", "g/L as tartaric acid"), a, 1e-3);
  }
}

TEST(LeftMust, AWineThatWasReadAsOneKeepsItsReadings) {
  const auto sheet = run(read_as_must + ", stage: wine", {dry, "sulfite.addition: {target free SO2: 30 mg/L}"});
  EXPECT_FALSE(sheet.steps[1].outcome.additions.empty());
  for (const char* figure : {"pH", "free SO2", "total SO2"}) EXPECT_FALSE(waits_for(sheet.steps[1], figure)) << figure;
  const auto alone = run(read_as_must + ", stage: wine", {dry});
  for (const Input* key : {static_cast<const Input*>(&lot::turbidity), static_cast<const Input*>(&lot::absorbance)})
    EXPECT_TRUE(alone.lots.at(0).after.contains(key->name)) << key->name;
}

TEST(LeftMust, WhatStillFermentsIsTheMustThatWasRead) {
  const auto sheet = run(read_as_must + ", stage: must", {running});
  for (const Input* key : lab::unknown_of_wine)
    EXPECT_EQ(sheet.lots.at(0).after.contains(key->name), sheet.lots.at(0).before.contains(key->name)) << key->name;
  EXPECT_FALSE(noted(sheet.steps[0], "no reading of the wine"));
}

// Bacteria move more than what is reckoned: a dose of sulfite after them waits for free SO2 and pH.
TEST(LeftMust, AfterTheMalolacticConversionToo) {
  const auto sheet = run(read_as_must + ", stage: wine, volatile acidity: 0.3 g/L as acetic acid",
                         {"acid.malolactic", "sulfite.addition: {target free SO2: 30 mg/L}"});
  EXPECT_TRUE(waits_for(sheet.steps[1], "free SO2"));
  EXPECT_TRUE(waits_for(sheet.steps[1], "pH"));
  EXPECT_FALSE(sheet.lots.at(0).after.contains("turbidity"));
  EXPECT_FALSE(sheet.lots.at(0).after.contains("conductivity"));
  EXPECT_NEAR(after(sheet, "volatile acidity", "g/L as acetic acid"), 0.3, 1e-9);
  const auto none = run(read_as_must + ", stage: wine", {"acid.malolactic: {converted: 0 %}"});
  EXPECT_TRUE(none.lots.at(0).after.contains("turbidity"));
}

// The course of a fermentation that has come to its end finds the same wine.
TEST(LeftMust, ByTheCourseToo) {
  std::string readings;
  const double densities[] = {1089, 1078, 1060, 1040, 1020, 1006, 998, 994, 992, 991.2, 990.8, 990.6};
  for (std::size_t day = 0; day < std::size(densities); ++day)
    readings +=
        fmt::format("{}{{date: 2026-09-{:02}, density: {} kg/m³}}", day == 0 ? "" : ", ", day + 10, densities[day]);
  const auto course = [&](const std::string& list) {
    return "ferment.course: {original density: 1089 kg/m³, instrument: corrected, readings: [" + list + "]}";
  };
  const auto ended = run(read_as_must + ", stage: must", {course(readings)});
  EXPECT_LE(after(ended, "sugar", "g/L"), 4);
  EXPECT_FALSE(ended.lots.at(0).after.contains("turbidity"));
  EXPECT_TRUE(noted(ended.steps[0], "no reading of the wine"));
  const auto midway =
      run(read_as_must + ", stage: must", {course(readings.substr(0, readings.find("2026-09-16") - 9))});
  EXPECT_TRUE(midway.lots.at(0).after.contains("turbidity"));
}

}  // namespace left_must_test
}  // namespace vatwright::test
