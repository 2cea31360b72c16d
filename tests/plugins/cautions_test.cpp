// Where a must gives off gas, or a still is heated, the sheet says so.
#include "host/sheet/csv.hpp"
#include "host/sheet/to_do.hpp"
#include "host/sheet/writers.hpp"
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
      {"volume: 100 hL", "cellar.cooling: {sugar fermented: 20 g/L/d}"},
      {"volume: 1 L",
       "ferment.round: {instrument: corrected, readings: [{tank: T1, date: 2026-09-14, density: 1090 kg/m³}, {tank: "
       "T1, "
       "date: 2026-09-15, density: 1082 kg/m³}, {tank: T1, date: 2026-09-16, density: 1066 kg/m³}]}"},
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

// What is for label, register and rule is not among what is heeded while weighing, and stands on every sheet.
TEST(Cautions, LabelAndRegisterStandApart) {
  const auto sheet = run("volume: 48 hL, pH: 3.42, free SO2: 14 mg/L, total SO2: 62 mg/L",
                         {"sulfite.addition: {target free SO2: 24 mg/L}"});
  const auto& step = sheet.steps.at(0);
  const auto lines = papers_of(step);
  ASSERT_FALSE(lines.empty());
  EXPECT_TRUE(has(lines.front(), "declared on the label")) << lines.front();
  for (const auto& caution : step.added.at(0)->cautions) EXPECT_FALSE(has(caution, "declared")) << caution;
  for (const auto& written : {write_text(sheet, {}), write_html(sheet), write_csv(sheet), write_json(sheet)})
    EXPECT_TRUE(has(written, "declared on the label"));
  // Of every substance that a lot is given.
  const Catalogue catalogue(VATWRIGHT_SOURCE_DIR "/host/substances/substances.yaml");
  for (const auto id : catalogue.names()) {
    const Substance& one = *catalogue.find(id);
    EXPECT_FALSE(one.cautions.empty()) << id;
    for (const auto& caution : one.cautions)
      for (const char* word : {"register", "declared", "excise", "the label must", "every rule"})
        EXPECT_FALSE(has(caution, word)) << id << ": " << caution;
  }
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
