// More wanted, or less there, never makes a dose smaller: on a fine grid, for every step that weighs
// something out for a target. The doses are of no rule set, so that no limit stops them.
#include "tests/plugins/run.hpp"

#include <fmt/format.h>

#include <ostream>

namespace vatwright::test {
namespace monotonic_test {

enum class Dose { rises, falls };

// "{}" in the lot or the step stands for the figure that goes from `low` to `high`.
struct Course {
  const char* name;
  const char* lot;
  const char* step;
  double low, high;
  Dose dose;
};

std::ostream& operator<<(std::ostream& out, const Course& course) { return out << course.name; }

// What is weighed or measured of all additions, kg or m³; of a cellar balance, in steps.
double weighed(const StepSheet& step) {
  double sum = 0;
  for (const auto& a : step.outcome.additions)
    sum += a.mass.value_or(Mass{}).value() + a.volume.value_or(Volume{}).value();
  return sum;
}

class Monotonic : public testing::TestWithParam<Course> {};

TEST_P(Monotonic, InOneDirection) {
  const Course& course = GetParam();
  constexpr int points = 60;
  double before = 0, first = 0, last = 0;
  for (int i = 0; i <= points; ++i) {
    const auto figure = fmt::format("{:.6f}", course.low + (course.high - course.low) * i / points);
    const auto filled = [&](std::string text) {
      if (const auto at = text.find("{}"); at != std::string::npos) text.replace(at, 2, figure);
      return text;
    };
    const double dose = weighed(run_step(filled(course.lot), filled(course.step)));
    if (i == 0) {
      first = dose;
    } else if (course.dose == Dose::rises) {
      EXPECT_GE(dose, before) << "at " << figure;
    } else {
      EXPECT_LE(dose, before) << "at " << figure;
    }
    before = last = dose;
  }
  // It moves by more than its rounding, and there is a dose.
  EXPECT_GT(std::max(first, last), 1.2 * std::min(first, last));
  EXPECT_GT(std::max(first, last), 0);
}

constexpr char wine[] = "volume: 48 hL, pH: 3.42, free SO2: 14 mg/L, total SO2: 62 mg/L, stage: wine";
constexpr char sour[] =
    "volume: 10 hL, pH: 3.05, titratable acidity: 12 g/L as tartaric acid, tartaric acid: 6 g/L, malic acid: 6.5 g/L, "
    "potassium: 1300 mg/L, stage: must";
constexpr char flat[] =
    "volume: 48 hL, pH: 3.62, titratable acidity: 4.6 g/L as tartaric acid, ethanol: 12.6 % vol, stage: wine, "
    "potassium: 980 mg/L, tartaric acid: 2.1 g/L, malic acid: 1.4 g/L";
constexpr char must[] = "volume: 32 hL, stage: must, soluble solids: 21.0 °Brix";

INSTANTIATE_TEST_SUITE_P(
    Doses, Monotonic,
    testing::Values(
        Course{"SulfiteForMolecular", wine, "sulfite.addition: {target molecular SO2: {} mg/L}", 0.4, 1.6, Dose::rises},
        Course{"SulfiteForFree", wine, "sulfite.addition: {target free SO2: {} mg/L}", 15, 60, Dose::rises},
        Course{"SulfiteByFree", "volume: 48 hL, pH: 3.42, free SO2: {} mg/L, total SO2: 62 mg/L, stage: wine",
               "sulfite.addition: {target molecular SO2: 0.8 mg/L}", 0, 30, Dose::falls},
        Course{"SulfiteByPh", "volume: 48 hL, pH: {}, free SO2: 10 mg/L, total SO2: 62 mg/L, stage: wine",
               "sulfite.addition: {target molecular SO2: 0.8 mg/L}", 2.95, 3.9, Dose::rises},
        Course{"SulfiteByVolume", "volume: {} hL, pH: 3.42, free SO2: 14 mg/L, total SO2: 62 mg/L, stage: wine",
               "sulfite.addition: {target free SO2: 30 mg/L}", 1, 90, Dose::rises},
        Course{"AcidForAcidity", flat, "acid.addition: {target titratable acidity: {} g/L as tartaric acid}", 4.8, 8,
               Dose::rises},
        Course{"AcidForPh", flat, "acid.addition: {target pH: {}}", 3.2, 3.58, Dose::falls},
        Course{"AcidByAcidity",
               "volume: 48 hL, pH: 3.62, titratable acidity: {} g/L as tartaric acid, ethanol: 12.6 % vol, stage: wine",
               "acid.addition: {target titratable acidity: 6.5 g/L as tartaric acid}", 3.5, 6.2, Dose::falls},
        Course{"MalicAcidForPh", flat, "acid.addition: {target pH: {}, substance: malic acid}", 3.3, 3.58, Dose::falls},
        Course{"BicarbonateForAcidity", sour, "acid.reduction: {target titratable acidity: {} g/L as tartaric acid}",
               8.5, 11.8, Dose::falls},
        Course{"DoubleSaltForAcidity", sour,
               "acid.reduction: {target titratable acidity: {} g/L as tartaric acid, substance: double-salt treatment}",
               8, 11.5, Dose::falls},
        Course{"BicarbonateForPh", sour, "acid.reduction: {target pH: {}}", 3.1, 3.4, Dose::rises},
        Course{"SugarForAlcohol", "volume: 20 hL, sugar: 172 g/L, colour: pink, stage: must",
               "sugar.enrichment: {zone: B, target potential alcohol: {} % vol}", 10.5, 12.2, Dose::rises},
        Course{"SugarBySugar", "volume: 20 hL, sugar: {} g/L, colour: pink, stage: must",
               "sugar.enrichment: {zone: B, target potential alcohol: 11.5 % vol}", 165, 190, Dose::falls},
        Course{"SpiritForStrength", "volume: 10 hL, ethanol: 12 % vol",
               "sugar.fortification: {spirit: 96 % vol, target ethanol: {} % vol}", 15, 22, Dose::rises},
        Course{"SpiritByStrength", "volume: 10 hL, ethanol: {} % vol",
               "sugar.fortification: {spirit: 96 % vol, target ethanol: 18 % vol}", 9, 16, Dose::falls},
        Course{"SpiritBySpirit", "volume: 10 hL, ethanol: 12 % vol",
               "sugar.fortification: {spirit: {} % vol, target ethanol: 18 % vol}", 60, 96, Dose::falls},
        Course{"NutrientByAmmonium", must,
               "nutrient.nitrogen: {amino nitrogen: 84 mg/L as nitrogen, ammonium: {} mg/L, ammonium as: NH4}", 5, 90,
               Dose::falls},
        Course{"NutrientByAminoNitrogen", must,
               "nutrient.nitrogen: {amino nitrogen: {} mg/L as nitrogen, ammonium: 46 mg/L, ammonium as: NH4}", 40, 130,
               Dose::falls},
        Course{"NutrientBySugar", "volume: 32 hL, stage: must, soluble solids: {} °Brix",
               "nutrient.nitrogen: {amino nitrogen: 84 mg/L as nitrogen, ammonium: 46 mg/L, ammonium as: NH4}", 18, 26,
               Dose::rises},
        Course{"BentoniteByVolume", "volume: {} hL, colour: pink, stage: wine",
               "cold.protein: {series: {0 g/hL: 21 NTU, 20 g/hL: 9.5 NTU, 40 g/hL: 3.6 NTU, 60 g/hL: 1.2 NTU}}", 5, 90,
               Dose::rises}),
    [](const auto& course) { return std::string(course.param.name); });

}  // namespace monotonic_test
}  // namespace vatwright::test
