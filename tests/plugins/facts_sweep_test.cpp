// All facts of a lot through all steps that pour something in, and through a blend: none stays that the step makes
// stale. What a litre holds is reckoned here by itself: what was in the lot is in the larger volume.
#include "host/plugin/lot.hpp"
#include "tests/plugins/blend.hpp"
#include "tests/plugins/examples.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <random>

namespace vatwright::test {
namespace facts_sweep_test {

struct Given {
  std::string_view key;
  std::string_view value;
};

// Everything that a lot can state, and one of what a book knows.
constexpr Given facts[] = {{"temperature", "16 °C"},
                           {"density", "1078 kg/m³"},
                           {"soluble solids", "18.9 °Brix"},
                           {"sugar", "178 g/L"},
                           {"ethanol", "0.4 % vol"},
                           {"pH", "3.31"},
                           {"titratable acidity", "7.4 g/L as tartaric acid"},
                           {"endpoint", "7.0"},
                           {"acid added", "0.6 g/L as tartaric acid"},
                           {"acid removed", "0.2 g/L as tartaric acid"},
                           {"strength gained", "0.3 % vol"},
                           {"tirage gained", "0.1 % vol"},
                           {"dosage gained", "0.1 % vol"},
                           {"liqueur added", "0.3 %"},
                           {"volume gained", "0.4 %"},
                           {"volume lost", "0.5 %"},
                           {"sweetening gained", "0.1 % vol"},
                           {"amelioration", "2 %"},
                           {"must solids", "19.4 °Brix"},
                           {"water added", "0.1 %"},
                           {"treated with", "{PVPP: 200 mg/L}"},
                           {"volatile acidity", "0.2 g/L as acetic acid"},
                           {"tartaric acid", "3.6 g/L"},
                           {"malic acid", "2.4 g/L"},
                           {"lactic acid", "0.1 g/L"},
                           {"citric acid", "0.3 g/L"},
                           {"succinic acid", "0.1 g/L"},
                           {"glycerol", "0.6 g/L"},
                           {"potassium", "1180 mg/L"},
                           {"calcium", "80 mg/L"},
                           {"sodium", "20 mg/L"},
                           {"copper", "0.2 mg/L"},
                           {"free SO2", "12 mg/L"},
                           {"total SO2", "40 mg/L"},
                           {"acetaldehyde", "10 mg/L"},
                           {"assimilable nitrogen", "160 mg/L as nitrogen"},
                           {"turbidity", "120 NTU"},
                           {"conductivity", "2100 µS/cm"},
                           {"absorbance", "{path: 10 mm, 420 nm: 0.31 AU, 520 nm: 0.44 AU}"},
                           {"varieties", "{Sorrel: 70 %, Teasel: 30 %}"},
                           {"vintage", "2026"},
                           {"origin", "the hill"},
                           {"class", "still"},
                           {"colour", "pink"},
                           {"stage", "must"},
                           {"zone", "B"}};

std::string stated(std::string_view stage = "must") {
  std::string lot = "volume: 1000 L";
  for (const auto& [key, value] : facts) lot += fmt::format(", {}: {}", key, key == "stage" ? stage : value);
  return lot;
}

// What the step reckons by itself, and another test holds against the outside.
struct Pours {
  std::string step;
  std::vector<std::string_view> own;
  std::string_view into = "must";
};

std::vector<Pours> steps() {
  const std::vector<std::string_view> enriched{"volume", "sugar",          "ethanol",        "density",
                                               "pH",     "soluble solids", "strength gained"};
  auto concentrated = enriched;
  concentrated.push_back("volume gained");
  return {
      {"sugar.enrichment: {target potential alcohol: 12.5 % vol}", enriched},
      {"sugar.enrichment: {target potential alcohol: 13.5 % vol, substance: rectified concentrated must, strength: 65 "
       "°Brix}",
       concentrated},
      {"sugar.water: {target soluble solids: 18 °Brix}", {"volume", "soluble solids", "pH"}},
      {"sugar.sweetening: {substance: sucrose, target sugar: 190 g/L}",
       {"volume", "sugar", "ethanol", "pH", "soluble solids", "sweetening gained"},
       "wine"},
      {"sugar.fortification: {spirit: 96 % vol, target ethanol: 16 % vol}", {"volume", "ethanol", "pH"}},
      {"cold.protein: {series: {0 g/hL: 21 NTU, 40 g/hL: 1.2 NTU}, racked: no}",
       {"water added", "turbidity", "absorbance"}},
      {"blend.scale: {substance: bentonite, stock: 50 g/L, aliquot: 2 mL, sample: 100 mL}",
       {"water added", "turbidity", "absorbance"}},
      {"cold.treatment: {substance: potassium polyaspartate, wanted dose: 80 mg/L, strength: 20 g/L, protein stable: "
       "yes}",
       {"water added", "treated with"},
       "wine"}};
}

bool is_own(const Pours& pours, std::string_view key) { return std::ranges::find(pours.own, key) != pours.own.end(); }

// In a litre, or per path: all figures of the value, whatever its kind.
std::vector<double> figures(const Input& key, const Value& value) {
  if (key.kind == Kind::quantity) return {value.number};
  std::vector<double> all;
  for (const auto& [name, amount] : value.amounts) all.push_back(amount);
  for (const auto& [x, y] : value.series.points) all.push_back(y);
  return all;
}

constexpr std::string_view in_a_litre[] = {"sugar",
                                           "ethanol",
                                           "titratable acidity",
                                           "acid added",
                                           "acid removed",
                                           "strength gained",
                                           "tirage gained",
                                           "dosage gained",
                                           "liqueur added",
                                           "treated with",
                                           "sweetening gained",
                                           "amelioration",
                                           "water added",
                                           "volatile acidity",
                                           "tartaric acid",
                                           "malic acid",
                                           "lactic acid",
                                           "citric acid",
                                           "succinic acid",
                                           "glycerol",
                                           "potassium",
                                           "calcium",
                                           "sodium",
                                           "copper",
                                           "free SO2",
                                           "total SO2",
                                           "acetaldehyde",
                                           "assimilable nitrogen",
                                           "absorbance"};
constexpr std::string_view never_known[] = {"turbidity", "conductivity"};
constexpr std::string_view stays[] = {"temperature", "endpoint",  "volume gained", "volume lost",
                                      "must solids", "varieties", "vintage",       "origin",
                                      "class",       "colour",    "stage",         "zone"};
// By masses and by the charge balance: tests of their own below.
constexpr std::string_view reckoned[] = {"volume", "density", "soluble solids", "pH"};

template <class List>
bool is_in(const List& list, std::string_view key) {
  return std::ranges::find(list, key) != std::end(list);
}

TEST(Facts, EveryKeyOfALotIsSwept) {
  for (const Input* key : lot::keys)
    EXPECT_EQ(is_in(in_a_litre, key->name) + is_in(never_known, key->name) + is_in(stays, key->name) +
                  is_in(reckoned, key->name),
              1)
        << "say what becomes of " << key->name;
}

TEST(Facts, NothingStaysThatPouringInMakesStale) {
  for (const auto& pours : steps()) {
    SCOPED_TRACE(pours.step);
    const auto sheet = run(stated(pours.into), {pours.step});
    ASSERT_FALSE(sheet.steps[0].outcome.additions.empty());
    const auto& before = sheet.lots[0].before;
    const auto& then = sheet.lots[0].after;
    const double ratio = before.at("volume").number / then.at("volume").number;
    EXPECT_LT(ratio, 1 - 1e-4);
    for (const Input* key : lot::keys) {
      const auto was = before.find(key->name), is = then.find(key->name);
      if (is_own(pours, key->name) || key == &lot::volume) continue;
      SCOPED_TRACE(key->name);
      if (is_in(never_known, key->name)) {
        EXPECT_EQ(is, then.end());
      } else if (is_in(in_a_litre, key->name)) {
        ASSERT_NE(is, then.end());
        const auto old = figures(*key, was->second), anew = figures(*key, is->second);
        ASSERT_EQ(old.size(), anew.size());
        ASSERT_FALSE(old.empty());
        for (std::size_t i = 0; i < old.size(); ++i) EXPECT_NEAR(anew[i], old[i] * ratio, 1e-9 * old[i]);
      } else if (is_in(stays, key->name)) {
        ASSERT_NE(is, then.end());
        EXPECT_EQ(is->second.number, was->second.number);
        EXPECT_EQ(is->second.word, was->second.word);
        EXPECT_EQ(is->second.shares, was->second.shares);
      }
    }
    const std::string first = is_own(pours, "turbidity") ? "conductivity" : "turbidity";
    EXPECT_TRUE(noted(sheet.steps[0], "no longer known after this step, and to be measured again: " + first));
  }
}

// Colour and conductivity hang on what many steps move: each worked example, on a lot of which they are known.
TEST(Facts, NothingStaysThatHangsOnWhatAStepMoves) {
  const Recipe known = read_recipe(Document::read(
      "known.yaml",
      "recipe: known\nlots:\n  T: {conductivity: 2100 µS/cm, absorbance: {path: 10 mm, 420 nm: 0.31 AU, 520 nm: 0.44 "
      "AU}}\nsteps:\n  - pink.colour: {}\n"));
  int moved = 0;
  each_calculation([&](const std::string& id, const Calculation& calculation) {
    Recipe recipe = recipe_of_example(id, calculation);
    for (auto& lot : recipe.lots) lot.analysis.insert(known.lots[0].analysis.begin(), known.lots[0].analysis.end());
    const auto sheet = house().bench().run(recipe);
    // The step itself says that it stays, as a forecast.
    const auto foretold = [&](const LotSheet& lot, const Input& fact) {
      return std::ranges::any_of(sheet.steps, [&](const StepSheet& step) {
        return std::ranges::any_of(step.leaves, [&](const Left& left) {
          return left.lot == lot.name && left.key->name == fact.name && left.value;
        });
      });
    };
    for (const auto& lot : sheet.lots)
      for (const Input* fact :
           {static_cast<const Input*>(&lot::conductivity), static_cast<const Input*>(&lot::absorbance)}) {
        const auto was = lot.before.find(fact->name), is = lot.after.find(fact->name);
        if (was == lot.before.end() || is == lot.after.end() ||
            figures(*fact, was->second) != figures(*fact, is->second) || foretold(lot, *fact))
          continue;
        for (const auto name : fact->behaves.of) {
          const auto before = lot.before.find(name), then = lot.after.find(name);
          if (before == lot.before.end() || then == lot.after.end()) continue;
          EXPECT_NEAR(then->second.number, before->second.number, 1e-9 * std::abs(before->second.number))
              << fact->name << " stays, but " << name << " moved";
        }
      }
    for (const auto& lot : sheet.lots)
      if (lot.before.contains("conductivity") && !lot.after.contains("conductivity")) ++moved;
  });
  EXPECT_GT(moved, 8);
}

TEST(Facts, SulfiteBleachesAColourThatWasRead) {
  const auto sheet =
      run("volume: 1000 L, stage: wine, pH: 3.4, free SO2: 5 mg/L, total SO2: 20 mg/L, conductivity: 1900 µS/cm, "
          "absorbance: {path: 10 mm, 420 nm: 0.31 AU, 520 nm: 0.44 AU}, turbidity: 2 NTU",
          {"sulfite.addition: {target free SO2: 25 mg/L}"});
  EXPECT_FALSE(sheet.lots[0].after.contains("absorbance"));
  EXPECT_FALSE(sheet.lots[0].after.contains("conductivity"));
  EXPECT_TRUE(sheet.lots[0].after.contains("turbidity"));
  EXPECT_TRUE(
      noted(sheet.steps[0], "no longer known after this step, and to be measured again: conductivity, absorbance"));
}

// What a slurry brings is in the larger volume too: raised in the wine that there was, and thinned with it.
TEST(Facts, WhatASlurryBringsIsThinnedByItsOwnWater) {
  const std::string lot =
      "volume: 40 hL, stage: wine, potassium: 910 mg/L, titratable acidity: 5.5 g/L as tartaric acid, "
      "treated with: {PVPP: 100 mg/L}";
  const auto sorbate =
      run(lot, {"blend.scale: {substance: potassium sorbate, stock: 10 g/L, aliquot: 2 mL, sample: 100 mL}"});
  const double grown = 4080.0 / 4000;
  EXPECT_NEAR(after(sorbate, "volume", "L"), 4080, 1e-6);
  // 200 mg/L of C6H7KO2 (150.22 g/mol), K 39.098.
  EXPECT_NEAR(after(sorbate, "potassium", "mg/L"), (910 + 200 * 39.098 / 150.22) / grown, 0.05);
  const auto& treated = sorbate.lots[0].after.at("treated with").amounts;
  for (const auto& [name, amount] : treated) EXPECT_NEAR(amount, (name == "PVPP" ? 0.1 : 0.2) / grown, 1e-6) << name;
  EXPECT_EQ(treated.size(), 2U);
}

// A liquid of a twentieth of the volume thins what is dissolved; one of a drop leaves readings what they are.
TEST(Facts, ALiquidThinsByWhatItIs) {
  const std::string lot = "volume: 4000 L, stage: wine, potassium: 900 mg/L, turbidity: 12 NTU, total SO2: 80 mg/L";
  const auto much = run(lot, {"cellar.dose: {substance: silica sol, liquid dose: 4000 mL/hL}"});
  EXPECT_NEAR(after(much, "volume", "L"), 4160, 1e-6);
  EXPECT_NEAR(after(much, "potassium", "mg/L"), 900 / 1.04, 1e-6);
  EXPECT_FALSE(much.lots[0].after.contains("turbidity"));  // it was fined, whatever the strength of the sol
  const auto drop = run(lot, {"cellar.dose: {substance: liquid pectolytic enzyme, liquid dose: 2 mL/hL}"});
  EXPECT_NEAR(after(drop, "volume", "L"), 4000, 1e-9);
  EXPECT_NEAR(after(drop, "potassium", "mg/L"), 900, 1e-9);
  EXPECT_GT(after(drop, "water added", "%"), 0);
}

// Copper that was found, and all that steps bring, whoever said what.
TEST(Facts, CopperIsKeptFromStepToStep) {
  static TestHouse house;
  const auto sheet = house.run(
      "recipe: test\nrules: EU\nlots:\n  T: {volume: 40 hL, stage: wine, colour: white, class: still}\nsteps:\n"
      "  - cellar.dose: {substance: copper sulfate pentahydrate, dose: 0.19 g/hL, copper: 0.45 mg/L}\n"
      "  - cellar.dose: {substance: copper sulfate pentahydrate, dose: 0.19 g/hL}\n");
  // CuSO4·5H2O 249.69 g/mol, Cu 63.546: 1.9 mg/L bring 0.484; twice that and 0.45 are past 1 mg/L.
  EXPECT_EQ(sheet.steps[0].outcome.additions.size(), 1U);
  EXPECT_NEAR(after(sheet, "copper", "mg/L"), 0.45 + 1.9 * 63.546 / 249.69, 2e-3);
  EXPECT_TRUE(sheet.steps[1].outcome.additions.empty());
  EXPECT_FALSE(sheet.steps[1].outcome.holds());
}

// Seed takes tartrate along: what was read before it is a forecast of what is there then.
TEST(Facts, SeedLeavesForecastsOfWhatFallsOut) {
  const auto sheet = run(
      "volume: 40 hL, stage: wine, colour: white, ethanol: 12 % vol, pH: 3.30, titratable acidity: 6 g/L as tartaric "
      "acid, tartaric acid: 2.4 g/L, potassium: 900 mg/L, free SO2: 10 mg/L, total SO2: 60 mg/L, conductivity: 1900 "
      "µS/cm",
      {"cold.treatment: {substance: potassium bitartrate, wanted dose: 4 g/L}",
       "sulfite.addition: {target molecular SO2: 0.6 mg/L}"});
  EXPECT_FALSE(sheet.lots[0].after.contains("conductivity"));
  ASSERT_TRUE(sheet.steps[1].measure_first);
  EXPECT_NEAR(after(sheet, "pH", "pH"), 3.30, 1e-12);
}

// By the masses, reckoned here: what is poured in weighs what the sheet orders.
TEST(Facts, DensityAndSolubleSolidsGoByTheMasses) {
  const auto sheet =
      run(stated(), {"blend.scale: {substance: bentonite, stock: 50 g/L, aliquot: 1 mL, sample: 100 mL}"});
  const double water = 10 * 0.9982, must = 1078;  // kg
  EXPECT_NEAR(after(sheet, "volume", "L"), 1010, 1e-6);
  EXPECT_NEAR(after(sheet, "density", "kg/m³"), (must + water) / 1.010, 1e-3);
  EXPECT_NEAR(after(sheet, "soluble solids", "°Brix"), 18.9 * must / (must + water), 1e-4);
}

// A buffer holds its pH while little is poured in: the bound of host/plugin/behaviour.hpp, against the charge balance.
TEST(Facts, LittlePouredInLeavesPhWhereItIs) {
  std::mt19937 random(20260914);
  std::uniform_real_distribution<double> ph(2.9, 3.9), acidity(4, 12), ethanol(0, 6), potassium(500, 1800);
  int tried = 0;
  for (int i = 0; i < 60; ++i) {
    const double p = std::round(1000 * ph(random)) / 1000, e = ethanol(random);
    const auto sheet =
        run(fmt::format("volume: 1000 L, sugar: 180 g/L, stage: must, ethanol: {:.2f} % vol, pH: {:.3f}, "
                        "titratable acidity: {:.2f} g/L as tartaric acid, potassium: {:.0f} mg/L",
                        e, p, acidity(random), potassium(random)),
            {fmt::format("sugar.enrichment: {{target potential alcohol: {:.3f} % vol}}", e + 180 / 16.83 + 1.7)});
    EXPECT_NEAR(after(sheet, "volume", "L") / 1000 - 1, little_poured_in, 0.002);
    // Readings that no must has together leave it unknown, once more than a little is poured in.
    if (!sheet.lots[0].after.contains("pH")) continue;
    EXPECT_NEAR(after(sheet, "pH", "pH"), p, 0.01);
    ++tried;
  }
  EXPECT_GT(tried, 40);
}

TEST(Facts, MuchPouredInLeavesPhUnknownWithoutAcidity) {
  const std::string must = "volume: 1000 L, sugar: 150 g/L, stage: must, pH: 3.30";
  const auto little = run(must, {"sugar.enrichment: {target potential alcohol: 10 % vol}"});
  EXPECT_NEAR(after(little, "pH", "pH"), 3.30, 1e-12);
  const auto much = run(must, {"sugar.enrichment: {target potential alcohol: 13 % vol}"});
  EXPECT_FALSE(much.lots[0].after.contains("pH"));
  EXPECT_TRUE(noted(much.steps[0], "to be measured again: pH"));
}

// Lambert and Beer: a pink must that grows by a twelfth is that much paler.
TEST(Facts, ColourIsThatOfTheLargerVolume) {
  const std::string lot =
      "volume: 1000 L, sugar: 150 g/L, stage: must, absorbance: {path: 10 mm, 420 nm: 0.31 AU, 520 nm: 0.44 AU}";
  const auto sheet =
      run(lot, {"sugar.enrichment: {target potential alcohol: 13 % vol, substance: rectified concentrated "
                "must, strength: 65 °Brix}"});
  const double ratio = 1000 / after(sheet, "volume", "L");
  EXPECT_LT(ratio, 0.95);
  EXPECT_NEAR(sheet.lots[0].after.at("absorbance").series.points[1].second, 0.44 * ratio, 1e-9);
}

// --- accounts

constexpr char two[] =
    "{A: {volume: 10 hL, stage: must, pH: 3.4, titratable acidity: 6 g/L, acid added: 1 g/L, treated with: {PVPP: 100 "
    "mg/L}}, B: {volume: 90 hL, stage: must, pH: 3.5, titratable acidity: 5.5 g/L}}";

TEST(Facts, AnAccountThatOneLotDoesNotStateIsNotStatedOfTheBlend) {
  const auto sheet = blend(two, "{lots: [A, B], into: C}");
  for (const auto* key : {"acid added", "treated with"}) {
    const Value* value = of_blend(sheet, key);
    ASSERT_NE(value, nullptr);
    EXPECT_EQ(value->silent, std::vector<std::string>{"B"}) << key;
  }
  // What is known of it counts all the same.
  EXPECT_NEAR(of_blend(sheet, "acid added", "g/L as tartaric acid"), 0.1, 1e-9);
}

TEST(Facts, TheSheetNamesTheLotThatSaysNothing) {
  static TestHouse house;
  const auto sheet = house.run(blend_recipe(two, "{lots: [A, B], into: C}", "EU") +
                               "  - acid.addition: {lot: C, target pH: 3.30}\n"
                               "  - acid.addition: {lot: C, target pH: 3.25}\n");
  EXPECT_TRUE(noted(sheet.steps.at(1), "B does not state acid added: none is counted"));
  EXPECT_TRUE(noted(sheet.steps.at(1), "the lot does not state acid removed"));
  EXPECT_TRUE(noted(sheet.steps.at(2), "B does not state acid added: none is counted"));
}

TEST(Facts, AStatedAccountStaysStated) {
  static TestHouse house;
  const auto sheet = house.run(blend_recipe(
      "{A: {volume: 10 hL, acid added: 1 g/L}, B: {volume: 10 hL, acid added: 0 g/L}}", "{lots: [A, B], into: C}"));
  EXPECT_TRUE(of_blend(sheet, "acid added")->silent.empty());
  EXPECT_NEAR(of_blend(sheet, "acid added", "g/L as tartaric acid"), 0.5, 1e-9);
}

// An entry into an account that nobody stated does not state it.
TEST(Facts, ADoseDoesNotStateWhatWasDoneBefore) {
  const auto sheet = run("volume: 10 hL, stage: must, pH: 3.5, titratable acidity: 5.5 g/L as tartaric acid",
                         {"acid.addition: {target pH: 3.40}", "acid.addition: {target pH: 3.30}"}, "EU");
  EXPECT_EQ(sheet.lots[0].after.at("acid added").silent, std::vector<std::string>{"T7"});
  EXPECT_TRUE(noted(sheet.steps.at(1), "T7 does not state acid added: none is counted"));
}

}  // namespace facts_sweep_test
}  // namespace vatwright::test
