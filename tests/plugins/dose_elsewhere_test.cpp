// cellar.dose of what moves acidity, sulfur dioxide, sugar or alcohol: the calculation that reckons it answers, with
// the same amounts and the same changes of the lot as when it is asked itself.
#include "plugins/cellar/dose_elsewhere.hpp"
#include "tests/plugins/run.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <random>

namespace vatwright::test {
namespace dose_elsewhere_test {

using cellar::plain_dose::elsewhere;

const std::string must =
    "volume: 20 hL, stage: must, colour: pink, pH: 3.3, titratable acidity: 7.5 g/L as tartaric acid, sugar: 190 g/L, "
    "tartaric acid: 4 g/L, malic acid: 3 g/L, potassium: 1300 mg/L, free SO2: 8 mg/L, total SO2: 20 mg/L";
const std::string wine =
    "volume: 20 hL, stage: wine, colour: pink, pH: 3.35, titratable acidity: 6.2 g/L as tartaric acid, sugar: 3 g/L, "
    "ethanol: 12.2 % vol, tartaric acid: 2.2 g/L, malic acid: 1.8 g/L, potassium: 900 mg/L, free SO2: 12 mg/L, "
    "total SO2: 60 mg/L, class: ";

struct Pair {
  const char* of;
  std::string lot, asked, there;
};

// An amount from `low` to `high` at every place of '@'.
std::string with_amount(std::string text, double amount) {
  for (auto at = text.find('@'); at != std::string::npos; at = text.find('@'))
    text.replace(at, 1, fmt::format("{:.2f}", amount));
  return text;
}

void same_work(const Worksheet& asked, const Worksheet& there) {
  const auto &a = asked.steps.at(0), &b = there.steps.at(0);
  EXPECT_EQ(a.calculation, b.calculation);
  ASSERT_EQ(a.outcome.additions.size(), b.outcome.additions.size());
  for (std::size_t i = 0; i < a.outcome.additions.size(); ++i) {
    EXPECT_EQ(a.outcome.additions[i].substance, b.outcome.additions[i].substance);
    EXPECT_EQ(a.outcome.additions[i].mass, b.outcome.additions[i].mass);
    EXPECT_EQ(a.outcome.additions[i].volume, b.outcome.additions[i].volume);
    EXPECT_FALSE(a.added.at(i)->cautions.empty());
  }
  ASSERT_EQ(asked.lots.at(0).after.size(), there.lots.at(0).after.size());
  for (const auto& [key, value] : there.lots.at(0).after)
    EXPECT_EQ(asked.lots.at(0).after.find(key)->second.number, value.number) << key;
}

TEST(DoseElsewhere, TheCalculationThatReckonsItAnswers) {
  const std::string still = wine + "still", cuvee = wine + "sparkling", liqueur = wine + "liqueur";
  const Pair pairs[] = {
      {"potassium metabisulfite", still, "dose: @ g/hL",
       "sulfite.addition: {substance: S, add: @ g/hL, add as: product}"},
      {"sodium metabisulfite", still, "dose: @ g/hL", "sulfite.addition: {substance: S, add: @ g/hL, add as: product}"},
      {"sulfur dioxide gas", still, "dose: @ g/hL", "sulfite.addition: {substance: S, add: @ g/hL}"},
      {"potassium metabisulfite", must, "dose on fruit: @ g/100 kg, fruit: 2.6 t",
       "sulfite.addition: {substance: S, add on fruit: @ g/100 kg, fruit: 2.6 t, add as: product}"},
      {"sulfur dioxide solution", still, "liquid dose: @ mL/hL, strength: 60 g/L",
       "sulfite.addition: {substance: S, add liquid: @ mL/hL, strength: 60 g/L}"},
      {"tartaric acid", must, "dose: @ g/hL", "acid.addition: {substance: S, add: @ g/hL}"},
      {"malic acid", must, "dose: @ g/hL", "acid.addition: {substance: S, add: @ g/hL}"},
      {"lactic acid", must, "dose: @ g/hL, strength: 80 % mass",
       "acid.addition: {substance: S, add: @ g/hL, add as: product, strength: 80 % mass}"},
      {"citric acid", still, "dose: @ g/hL", "acid.addition: {substance: S, add: @ g/hL}"},
      {"citric acid monohydrate", still, "dose: @ g/hL", "acid.addition: {substance: S, add: @ g/hL, add as: product}"},
      {"calcium carbonate", must, "dose: @ g/hL", "acid.reduction: {substance: S, add: @ g/hL}"},
      {"potassium bicarbonate", must, "dose: @ g/hL", "acid.reduction: {substance: S, add: @ g/hL}"},
      {"potassium carbonate", must, "dose: @ g/hL", "acid.reduction: {substance: S, add: @ g/hL}"},
      {"potassium tartrate", must, "dose: @ g/hL", "acid.reduction: {substance: S, add: @ g/hL}"},
      {"sucrose", must, "dose: @ g/L", "sugar.enrichment: {substance: S, add: @ g/L}"},
      {"rectified concentrated must", must, "dose: @ g/L, strength: 65 °Brix",
       "sugar.enrichment: {substance: S, add: @ g/L, strength: 65 °Brix}"},
      {"tirage liqueur", cuvee, "dose: @ g/L", "sugar.enrichment: {substance: S, add: @ g/L}"},
      {"sweetening sugar", still, "dose: @ g/L", "sugar.sweetening: {substance: sucrose, add: @ g/L}"},
      {"sweetening must", still, "dose: @ g/L, strength: 65 °Brix",
       "sugar.sweetening: {substance: rectified concentrated must, add: @ g/L, strength: 65 °Brix}"},
      {"grape spirit", liqueur, "liquid dose: @ L/hL, strength: 96 % vol",
       "sugar.fortification: {spirit: 96 % vol, add: @ L/hL}"},
      {"expedition liqueur", cuvee, "add: @ mL, liqueur sugar: 600 g/L, liqueur ethanol: 10 % vol",
       "sugar.dosage: {add: @ mL, liqueur sugar: 600 g/L, liqueur ethanol: 10 % vol}"}};
  std::mt19937 random(21);
  std::uniform_real_distribution<double> amount(4, 15);
  for (const auto& pair : pairs) {
    SCOPED_TRACE(std::string(pair.of) + ", " + pair.asked);
    const double of = amount(random);
    auto there = with_amount(pair.there, of);
    if (const auto at = there.find("S,"); at != std::string::npos && there[at - 1] == ' ')
      there.replace(at, 1, pair.of);
    const auto asked =
        run(pair.lot, {fmt::format("cellar.dose: {{substance: {}, {}}}", pair.of, with_amount(pair.asked, of))});
    same_work(asked, run(pair.lot, {there}));
    EXPECT_EQ(asked.steps.at(0).outcome.additions.size(), 1U);
  }
}

// Every choice of cellar.dose is either its own or handed over, once, to a calculation that there is, and that takes
// the inputs by the names that they are given.
TEST(DoseElsewhere, EveryChoiceIsAnsweredOnce) {
  const TestHouse house;
  for (const auto substance : lab::dosing_substances) {
    const auto handed = std::count_if(std::begin(elsewhere), std::end(elsewhere), [&](const HandOver& how) {
      return std::find(how.choices.begin(), how.choices.end(), substance) != how.choices.end();
    });
    const bool plain =
        std::find(lab::plain_substances.begin(), lab::plain_substances.end(), substance) != lab::plain_substances.end();
    EXPECT_EQ(handed + (plain ? 1 : 0), 1) << substance;
  }
  for (const auto& how : elsewhere) {
    const std::string lot = must, id(how.to);
    const auto takes = [&](std::string_view name) {
      return !has(refusal(lot, fmt::format("{}: {{{}: nonsense}}", id, name)), "has no input");
    };
    for (const auto& pair : how.renamed) {
      // Fruit is asked of sulfites alone; the others say so.
      if (pair.name == "dose on fruit" && how.to != "sulfite.addition") continue;
      EXPECT_TRUE(takes(pair.there)) << id << ", " << pair.there;
    }
    for (const auto& pair : how.says) EXPECT_TRUE(takes(pair.name)) << id << ", " << pair.name;
    EXPECT_FALSE(how.instead.empty()) << id;
  }
}

TEST(DoseElsewhere, WhatItHasNoInputForIsSaid) {
  const auto refused = refusal(must, "cellar.dose: {substance: tartaric acid, liquid dose: 20 mL/hL}");
  EXPECT_TRUE(has(refused, "tartaric acid is dosed by acid.addition, which has no input 'liquid dose'")) << refused;
  EXPECT_TRUE(has(refused, "give 'dose'")) << refused;
  EXPECT_FALSE(has(refused, "takes one of")) << refused;
  const auto unknown = refusal("volume: 20 hL", "cellar.dose: {substance: tartaric acid, dose: 20 g/hL}", "EU");
  EXPECT_TRUE(has(unknown, "'pH'")) << unknown;
  EXPECT_TRUE(has(unknown, "tartaric acid is dosed by acid.addition, because the lot moves with it")) << unknown;
  const auto water = refusal(must, "cellar.dose: {substance: water, dose: 20 g/L}");
  EXPECT_TRUE(has(water, "the law bounds water by what it is for")) << water;
  EXPECT_TRUE(has(refusal(must, "cellar.dose: {substance: nitrogen, liquid dose: 3 mL/hL}"), "goes by its mass"));
  EXPECT_EQ(run_step(must, "cellar.dose: {substance: carbon dioxide, dose: 20 g/hL}").outcome.additions.size(), 1U);
}

// Of a lot that nobody has measured a dose is weighed where no rules are asked for: each substance, with its cautions,
// and with nothing left of the lot that it would have moved. Under rules it is refused, for nothing could be held to
// them.
TEST(DoseElsewhere, OfALotThatNobodyMeasured) {
  const std::string_view moved[] = {
      "tartaric acid",          "malic acid",          "lactic acid",        "citric acid", "calcium carbonate",
      "potassium bicarbonate",  "potassium carbonate", "potassium tartrate", "sucrose",     "sweetening sugar",
      "citric acid monohydrate"};
  for (const auto substance : moved) {
    SCOPED_TRACE(substance);
    const auto step = fmt::format("cellar.dose: {{substance: {}, dose: 20 g/hL}}", substance);
    for (const char* known : {"volume: 48 hL", "volume: 48 hL, pH: 3.3, ethanol: 11 % vol, potassium: 900 mg/L"}) {
      const auto sheet = run(known, {step});
      ASSERT_EQ(sheet.steps[0].outcome.additions.size(), 1U);
      EXPECT_NEAR(sheet.steps[0].outcome.additions[0].mass.value().value(), 0.96, 1e-9);
      EXPECT_FALSE(sheet.steps[0].added.at(0)->cautions.empty());
      EXPECT_TRUE(noted(sheet.steps[0], "no limit was checked"));
      EXPECT_FALSE(sheet.lots[0].after.contains("pH"));
    }
    EXPECT_TRUE(has(refusal("volume: 48 hL", step, "EU"), "misses") ||
                has(refusal("volume: 48 hL", step, "EU"), "is not known"));
  }
  // 200 mg/L of tartaric acid are 2.665 meq/L; of potassium bicarbonate 1.998.
  const auto acid = run("volume: 48 hL", {"cellar.dose: {substance: tartaric acid, dose: 20 g/hL}"});
  EXPECT_NEAR(after(acid, "acid added", "meq/L"), 2 * 200 / 150.087, 0.001);
  const auto base = run("volume: 48 hL", {"cellar.dose: {substance: potassium bicarbonate, dose: 20 g/hL}"});
  EXPECT_NEAR(after(base, "acid removed", "meq/L"), 200 / 100.115, 0.001);
}

// The same dose in two halves, each by a step of its own, moves the lot as one does.
TEST(DoseElsewhere, HalvesAddUp) {
  for (const char* step :
       {"substance: tartaric acid, dose: {} g/hL", "substance: potassium metabisulfite, dose: {} g/hL",
        "substance: diammonium phosphate, dose: {} g/hL", "substance: potassium sorbate, dose: {} g/hL"}) {
    const auto of = [&](double dose) { return "cellar.dose: {" + fmt::format(fmt::runtime(step), dose) + "}"; };
    const std::string lot = must + ", assimilable nitrogen: 120 mg/L as nitrogen";
    const auto halves = run(lot, {of(8), of(8)}), whole = run(lot, {of(16)});
    for (const auto& [key, value] : whole.lots.at(0).after)
      EXPECT_NEAR(halves.lots.at(0).after.find(key)->second.number, value.number, 1e-4 * std::abs(value.number))
          << step << ", " << key;
  }
}

// 20 g/hL of diammonium phosphate, (NH4)2HPO4, bring 200 x 28.014 / 132.056 mg/L of nitrogen, and 20 g/hL of potassium
// sorbate, C6H7KO2, 200 x 39.098 / 150.22 mg/L of potassium.
// Outside check of cellar.dose: 2 values within 0.2 mg/L, derived.
// Source: atomic weights (IUPAC 2021).
TEST(DoseElsewhere, WhatASaltBringsIsCounted) {
  const auto sheet = run(must + ", assimilable nitrogen: 120 mg/L as nitrogen",
                         {"cellar.dose: {substance: diammonium phosphate, dose: 20 g/hL}",
                          "cellar.dose: {substance: potassium sorbate, dose: 20 g/hL}"});
  EXPECT_NEAR(after(sheet, "assimilable nitrogen", "mg/L as nitrogen"), 120 + 200 * 28.014 / 132.056, 0.2);
  EXPECT_NEAR(after(sheet, "potassium", "mg/L"), 1300 + 200 * 39.098 / 150.22, 0.2);
}

// Nothing that the dose makes stale stays: what a fining takes along is not known any more, and no later step uses it.
TEST(DoseElsewhere, AFiningMakesColourUnknown) {
  const std::string lot = wine + "still, turbidity: 30 NTU, absorbance: {path: 10 mm, 420 nm: 0.12 AU, 520 nm: 0.2 AU}";
  for (const char* step : {"cellar.dose: {substance: PVPP, dose: 20 g/hL}",
                           "blend.scale: {substance: bentonite, stock: 50 g/L, aliquot: 1.6 mL, sample: 100 mL}"}) {
    const auto sheet = run(lot, {step});
    EXPECT_FALSE(sheet.lots.at(0).after.contains("turbidity")) << step;
    EXPECT_FALSE(sheet.lots.at(0).after.contains("absorbance")) << step;
    EXPECT_TRUE(sheet.lots.at(0).after.contains("pH")) << step;
  }
  EXPECT_FALSE(
      run(wine + "still", {"cellar.dose: {substance: fumaric acid, dose: 40 g/hL}"}).lots.at(0).after.contains("pH"));
}

}  // namespace dose_elsewhere_test
}  // namespace vatwright::test
