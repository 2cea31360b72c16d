// Where a must gives off gas, or a still is heated, the sheet says so.
#include "tests/plugins/run.hpp"

#include <algorithm>

namespace vatwright::test {
namespace cautions_test {

bool handles(const StepSheet& step, std::string_view id) {
  return std::any_of(step.reagents.begin(), step.reagents.end(), [&](const Substance* s) { return s->facts.id == id; });
}

const std::string must =
    "volume: 20 hL, stage: must, colour: pink, class: still, zone: C I, sugar: 200 g/L, "
    "assimilable nitrogen: 90 mg/L as nitrogen";

TEST(Cautions, GasWhereverSugarFermentsOrMustLiesOnSkins) {
  const std::pair<std::string, std::string> steps[] = {
      {must, "sugar.fermentation: {original density: 1092 kg/m³, density: 1010 kg/m³}"},
      {must, "sugar.enrichment: {target potential alcohol: 12.2 % vol}"},
      {must, "nutrient.nitrogen: {}"},
      {must,
       "pink.contact: {readings: {path: 10 mm, 1 h: 0.48 AU, 2 h: 0.80 AU, 3 h: 1.05 AU, 4 h: 1.29 AU, 6 h: 1.62 AU}, "
       "target: 1.5 AU}"},
      {must, "pink.press: {fruit: 4200 kg, free run: 430 L/t, light press: 130 L/t, heavy press: 60 L/t}"},
      {"volume: 15 hL, stage: must, colour: red",
       "pink.bleed: {skins and seeds: 420 kg, bleed share: 15 %, of: juice, into: P}"},
      {"volume: 20 hL, stage: wine, pH: 3.3, titratable acidity: 7 g/L as tartaric acid, malic acid: 3 g/L",
       "acid.malolactic: {}"}};
  for (const auto& [lot, text] : steps) {
    const auto step = run_step(lot, text);
    ASSERT_TRUE(handles(step, "gas of fermentation")) << text;
    for (const Substance* one : step.reagents)
      if (one->facts.id == "gas of fermentation") {
        EXPECT_TRUE(has(one->cautions.front(), "53 L")) << one->cautions.front();
      }
  }
}

TEST(Cautions, TheStillAndTheTitrationOfTheTotal) {
  EXPECT_TRUE(handles(run_step("volume: 1 hL", "sugar.alcohol: {distillate density: 985 kg/m³}"), "distillate"));
  const std::string by_iodine =
      "sulfite.titration: {method: iodine, titrant: 2 mL, titrant concentration: 0.01 mol/L, "
      "sample: 20 mL, measures: ";
  const auto total = run_step("volume: 1 hL", by_iodine + "total SO2}");
  EXPECT_TRUE(handles(total, "sulfuric acid"));
  EXPECT_TRUE(handles(total, "sodium hydroxide solution"));
  const auto free = run_step("volume: 1 hL", by_iodine + "free SO2}");
  EXPECT_TRUE(handles(free, "sulfuric acid"));
  EXPECT_FALSE(handles(free, "sodium hydroxide solution"));
}

TEST(Cautions, FirstAidStandsOnTheSheet) {
  const auto step = run_step("volume: 48 hL, pH: 3.42, free SO2: 14 mg/L, total SO2: 62 mg/L",
                             "sulfite.addition: {target free SO2: 24 mg/L}");
  const auto& cautions = step.added.at(0)->cautions;
  EXPECT_TRUE(std::any_of(cautions.begin(), cautions.end(), [](const std::string& c) {
    return c.starts_with("First aid, eyes: ") && has(c, "call for help");
  }));
}

}  // namespace cautions_test
}  // namespace vatwright::test
