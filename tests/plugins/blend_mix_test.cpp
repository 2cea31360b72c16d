// blend.mix: what the new lot is, what is drawn for it, and what is refused.
#include "tests/plugins/blend.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace blend_mix_test {

using namespace vatwright;
using namespace vatwright::test;

const std::string two = "{A: {volume: 60 hL, sugar: 2 g/L}, B: {volume: 40 hL, sugar: 10 g/L}}";

// Cross mixing (Pearson's square): from 2 and 10 to 4 g/L take 10 - 4 = 6 parts and 4 - 2 = 2 parts.
TEST(BlendMix, CrossMixing) {
  const auto sheet = blend(two, "{lots: {A: 75 %, B: 25 %}, into: C}");
  EXPECT_NEAR(of_blend(sheet, "sugar", "g/L"), 4, 1e-12);
  EXPECT_EQ(of_blend(sheet, "volume"), nullptr);
  EXPECT_NEAR(parse_unit("hL").number(sheet.lots[0].after.at("volume").number), 60, 1e-12);
  EXPECT_TRUE(noted(sheet.steps[0], "no wine is drawn"));
}

TEST(BlendMix, VolumesAreDrawn) {
  const auto sheet = blend(two, "{lots: {A: 30 hL, B: 10 hL}, into: C}");
  EXPECT_NEAR(of_blend(sheet, "sugar", "g/L"), 4, 1e-12);
  EXPECT_NEAR(of_blend(sheet, "volume", "hL"), 40, 1e-9);
  EXPECT_NEAR(parse_unit("hL").number(sheet.lots[0].after.at("volume").number), 30, 1e-9);
  EXPECT_NEAR(parse_unit("hL").number(sheet.lots[1].after.at("volume").number), 30, 1e-9);
}

TEST(BlendMix, SharesOfAVolumeAreDrawn) {
  const auto sheet = blend(two, "{lots: {A: 75 %, B: 25 %}, volume: 40 hL, into: C}");
  EXPECT_NEAR(of_blend(sheet, "volume", "hL"), 40, 1e-9);
  EXPECT_NEAR(parse_unit("hL").number(sheet.lots[1].after.at("volume").number), 30, 1e-9);
}

TEST(BlendMix, NamesAloneTakeWholeLots) {
  const auto sheet = blend(two, "{lots: [A, B], into: C}");
  EXPECT_NEAR(of_blend(sheet, "volume", "hL"), 100, 1e-9);
  EXPECT_NEAR(of_blend(sheet, "sugar", "g/L"), 5.2, 1e-12);
}

// 1000 L of 12 % and 100 L of 96 % make 1091.7131 L of 19.78542 % (OIML R 22, by another program), so
// that what is dissolved stands in less: 10 g/L of sugar in the wine become 10 000 g / 1091.7131 L.
TEST(BlendMix, ContractionConcentratesWhatIsDissolved) {
  const auto sheet = blend(
      "{A: {volume: 1000 L, ethanol: 12 % vol, sugar: 10 g/L}, B: {volume: 100 L, ethanol: 96 % vol, sugar: 0 g/L}}",
      "{lots: [A, B], into: C}");
  EXPECT_NEAR(of_blend(sheet, "volume", "L"), 1091.7131, 6e-5);
  EXPECT_NEAR(of_blend(sheet, "ethanol", "% vol"), 19.78542, 6e-6);
  EXPECT_NEAR(of_blend(sheet, "sugar", "g/L"), 10000 / 1091.7131, 1e-6);
}

// A white of 0.006039 and a red of 5.782402 at 520 nm and 10 mm: 3 % of red give 0.179330 (sums over
// synthetic spectra by another program, derived). The red is read in a cell of 1 mm.
// Outside check of blend.mix: 1 value within 6e-7, derived.
// Source: synthetic spectra, summed by another program.
TEST(BlendMix, AbsorbanceAtACommonPath) {
  const auto sheet = blend(
      "{A: {absorbance: {path: 10 mm, 420 nm: 0.073576 AU, 520 nm: 0.006039 AU}},"
      " B: {absorbance: {path: 1 mm, 520 nm: 0.5782402 AU, 620 nm: 0.1033105 AU}}}",
      "{lots: {A: 97 %, B: 3 %}, into: C}");
  const Value* value = of_blend(sheet, "absorbance");
  ASSERT_NE(value, nullptr);
  ASSERT_EQ(value->series.points.size(), 1U);  // 420 and 620 nm are not known of both
  EXPECT_NEAR(value->series.points[0].first, 520e-9, 1e-15);
  EXPECT_NEAR(value->series.points[0].second, 0.179330, 6e-7);
  EXPECT_EQ(value->series.path, 0.01);
}

const std::string analysed =
    "{A: {stage: wine, class: still, colour: pink, volume: 60 hL, ethanol: 11.8 % vol, pH: 3.10, titratable acidity: "
    "7.0 g/L, turbidity: 3 NTU, free SO2: 20 mg/L, varieties: Sorrel, vintage: 2026},"
    " B: {stage: wine, class: still, colour: white, volume: 40 hL, ethanol: 13.0 % vol, pH: 3.70, titratable acidity: "
    "4.4 g/L, turbidity: 9 NTU, varieties: {Sorrel: 20 %, Teasel: 80 %}, vintage: 2025}}";

TEST(BlendMix, PhIsNoMean) {
  const auto sheet = blend(analysed, "{lots: {A: 50 %, B: 50 %}, into: C}");
  const auto* mean = opinion(sheet.steps[0], "pH");
  ASSERT_NE(mean, nullptr);
  EXPECT_NEAR(number(mean->there), 3.40, 1e-9);
  const double ph = of_blend(sheet, "pH", "pH");
  EXPECT_EQ(number(mean->here), ph);
  // A mean of protons would be 3.30; the stronger buffer of the sourer lot draws the pH below the mean.
  EXPECT_LT(ph, 3.40);
  EXPECT_GT(ph, 3.30);
}

TEST(BlendMix, UnknownIsNamed) {
  const auto sheet = blend(analysed, "{lots: {A: 50 %, B: 50 %}, into: C}");
  EXPECT_EQ(of_blend(sheet, "free SO2"), nullptr);
  EXPECT_TRUE(noted(sheet.steps[0], "free SO2 of the blend is unknown: not known of B"));
  EXPECT_EQ(of_blend(sheet, "turbidity"), nullptr);
  EXPECT_TRUE(noted(sheet.steps[0], "turbidity of the blend is unknown: does not add up by volume"));
  const auto red = blend("{A: {colour: red}, B: {colour: white}}", "{lots: {A: 50 %, B: 50 %}, into: C}");
  EXPECT_EQ(of_blend(red, "colour"), nullptr);
  EXPECT_TRUE(noted(red.steps[0], "colour of the blend is unknown: the lots differ"));
  EXPECT_EQ(of_blend(sheet, "class")->word, "still");
}

std::string titrated(const std::string& acidity, const std::string& endpoint, const std::string& more = "pH: 3.3, ") {
  return "{volume: 10 hL, " + more + "ethanol: 12 % vol, titratable acidity: " + acidity + " g/L" +
         (endpoint.empty() ? "" : ", endpoint: " + endpoint) + "}";
}

// Two lots that are alike make one like them (conservation): the acidity is to the end point of both.
TEST(BlendMix, TheEndPointOfTheLotsIsKept) {
  for (const std::string endpoint : {"7.0", "8.2"})
    for (const std::string more : {"pH: 3.3, ", ""}) {
      SCOPED_TRACE(endpoint + more);
      const auto one = titrated("7", endpoint, more);
      const auto sheet = blend("{A: " + one + ", B: " + one + "}", "{lots: [A, B], into: C}");
      EXPECT_NEAR(of_blend(sheet, "titratable acidity", "g/L as tartaric acid"), 7, 1e-6);
      EXPECT_EQ(of_blend(sheet, "endpoint")->word, endpoint);
    }
}

// To pH 7.0 and to 8.2 are different quantities (OIV-MA-AS313-01 titrates to 7; above it phenols and amino
// acids titrate too), so that their mean is neither.
TEST(BlendMix, TwoEndPointsLeaveTheAcidityUnknown) {
  for (const std::string other : {"7.0", ""})
    for (const std::string more : {"pH: 3.3, ", ""}) {
      SCOPED_TRACE(other + more);
      const auto sheet = blend("{A: " + titrated("7", "8.2", more) + ", B: " + titrated("5", other, more) + "}",
                               "{lots: [A, B], into: C}");
      EXPECT_EQ(of_blend(sheet, "titratable acidity"), nullptr);
      EXPECT_EQ(of_blend(sheet, "endpoint"), nullptr);
      EXPECT_TRUE(noted(sheet.steps[0], "titrated to different end points: A to 8.2, B to 7.0"));
      EXPECT_EQ(of_blend(sheet, "pH") != nullptr, !more.empty());
    }
}

// 30 hL with a figure and 10 hL without one: three quarters of it (arithmetic).
TEST(BlendMix, WhatWasAddedSoFarIsCountedOn) {
  const auto sheet = blend(
      "{A: {volume: 30 hL, treated with: {PVPP: 40 g/hL, tannin: 8 g/hL}, water added: 0.4 %, strength gained: 2 % "
      "vol, tirage gained: 1 % vol, volume gained: 4 %, acid added: 1 g/L}, B: {volume: 10 hL, treated with: {PVPP: 20 "
      "g/hL}}}",
      "{lots: [A, B], into: C}");
  EXPECT_NEAR(of_blend(sheet, "water added", "%"), 0.3, 1e-9);
  EXPECT_NEAR(of_blend(sheet, "strength gained", "% vol"), 1.5, 1e-9);
  EXPECT_NEAR(of_blend(sheet, "tirage gained", "% vol"), 0.75, 1e-9);
  EXPECT_NEAR(of_blend(sheet, "volume gained", "%"), 3, 1e-9);
  EXPECT_NEAR(of_blend(sheet, "acid added", "g/L as tartaric acid"), 0.75, 1e-9);
  const Value* with = of_blend(sheet, "treated with");
  ASSERT_NE(with, nullptr);
  ASSERT_EQ(with->amounts.size(), 2U);
  for (const auto& [name, amount] : with->amounts)
    EXPECT_NEAR(parse_unit("g/hL").number(amount), name == "PVPP" ? 35 : 6, 1e-9) << name;
}

TEST(BlendMix, SaysWhatToPump) {
  const auto work = [](const std::string& step) {
    return blend("{A: {volume: 60 hL}, B: {volume: 40 hL}, C: {volume: 20 L}}", step).steps[0].outcome.work;
  };
  const auto drawn = work("{lots: {A: 50 hL, B: 32 hL, C: 12 L}, into: cuvée}");
  ASSERT_EQ(drawn.size(), 1U);
  EXPECT_EQ(drawn[0], "pump 50.00 hL of lot A, 32.00 hL of lot B and 12.0 L of lot C into lot cuvée, and mix");
  EXPECT_TRUE(work("{lots: {A: 50 %, B: 50 %}, into: cuvée}").empty());  // a prediction
}

TEST(BlendMix, SharesOfVarietyVintageAndOrigin) {
  const auto sheet = blend(analysed, "{lots: {A: 30 hL, B: 10 hL}, into: C}");
  const auto& varieties = of_blend(sheet, "varieties")->shares;
  ASSERT_EQ(varieties.size(), 2U);
  EXPECT_EQ(varieties[0].first, "Sorrel");
  EXPECT_NEAR(varieties[0].second, 0.80, 1e-12);
  EXPECT_NEAR(of_blend(sheet, "vintage")->shares[0].second, 0.75, 1e-12);
  EXPECT_EQ(of_blend(sheet, "origin")->shares[0].first, "A");
  EXPECT_NEAR(of_blend(sheet, "origin")->shares[0].second, 0.75, 1e-12);
}

// The later step works on the new lot.
TEST(BlendMix, TheNewLotIsThereForTheNextStep) {
  static TestHouse house;
  const auto sheet = house.run(blend_recipe(two, "{lots: [A, B], into: C}") +
                               "  - blend.volume: {lot: C, temperature: 20 °C, ethanol: 12 % vol}\n");
  EXPECT_NEAR(result(sheet.steps[1], "volume"), 100, 1e-9);
}

// --- refused

TEST(BlendMix, SharesThatDoNotMakeAHundred) {
  EXPECT_TRUE(has(blend_refusal(two, "{lots: {A: 60 %, B: 30 %}, into: C}"), "the shares make 90.0 %, expected 100 %"));
}

TEST(BlendMix, MoreThanALotHas) {
  const auto said = blend_refusal(two, "{lots: {A: 61 hL, B: 10 hL}, into: C}");
  EXPECT_TRUE(has(said, "61.000 hL of lot 'A' is more than it has")) << said;
  EXPECT_TRUE(has(said, "60.000 hL")) << said;
  const auto shared = blend_refusal(two, "{lots: {A: 50 %, B: 50 %}, volume: 90 hL, into: C}");
  EXPECT_TRUE(has(shared, "these shares make 80.000 hL at most")) << shared;
}

TEST(BlendMix, ALotTwice) {
  EXPECT_TRUE(has(blend_refusal(two, "{lots: [A, A], into: C}"), "'A' is named twice"));
  EXPECT_TRUE(has(blend_refusal(two, "{lots: {A: 50 %, A: 50 %}, into: C}"), "A"));
}

TEST(BlendMix, SharesAndVolumesMixed) {
  EXPECT_TRUE(
      has(blend_refusal(two, "{lots: {A: 50 %, B: 10 hL}, into: C}"), "shares of all its lots, or volumes of all"));
  EXPECT_TRUE(has(blend_refusal(two, "{lots: {A: 10 hL, B: 10 hL}, volume: 20 hL, into: C}"), "goes with the shares"));
}

TEST(BlendMix, AVolumeThatIsNotKnown) {
  EXPECT_TRUE(
      has(blend_refusal("{A: {sugar: 1 g/L}}", "{lots: {A: 10 hL}, into: C}"), "volume of lot 'A' is not known"));
}

TEST(BlendMix, AnEmptyLotIsNamed) {
  static TestHouse house;
  try {
    house.run(blend_recipe(two, "{lots: {A: 60 hL, B: 10 hL}, into: C}") + "  - blend.mix: {lots: [A, B], into: D}\n");
    FAIL() << "an empty lot was mixed";
  } catch (const BadInput& error) {
    EXPECT_TRUE(has(error.what(), "lot 'A' is empty")) << error.what();
    EXPECT_TRUE(has(error.what(), "the steps before it have taken all of its wine")) << error.what();
  }
}

TEST(BlendMix, AVarietySpelledTwoWays) {
  for (const char* other : {"Sorrell", "Sorel", "sorrel", "Sorrle", "Borrel"}) {
    const auto said = blend_refusal("{A: {varieties: Sorrel}, B: {varieties: " + std::string(other) + "}}",
                                    "{lots: {A: 50 %, B: 50 %}, into: C}");
    EXPECT_TRUE(has(said, "is nearly 'Sorrel' of lot A")) << other << ": " << said;
  }
  for (const char* other : {"Teasel", "Sorrel 2", "Soorreel"})
    EXPECT_EQ(blend_refusal("{A: {varieties: Sorrel 1}, B: {varieties: " + std::string(other) + "}}",
                            "{lots: {A: 50 %, B: 50 %}, into: C}"),
              "")
        << other;
}

TEST(BlendMix, AnAnalysisThatCannotBeNamesItsLot) {
  const auto said = blend_refusal(
      "{A: {pH: 3.3, titratable acidity: 6 g/L}, B: {pH: 3.3, titratable acidity: 3 g/L, tartaric acid: 9 g/L}}",
      "{lots: {A: 50 %, B: 50 %}, into: C}");
  EXPECT_TRUE(has(said, "of B: ")) << said;
}

TEST(BlendMix, APinkOfWhitesAlone) {
  EXPECT_TRUE(has(
      blend_refusal("{A: {colour: white}, B: {colour: white}}", "{lots: {A: 50 %, B: 50 %}, colour: pink, into: C}"),
      "all lots are white"));
}

}  // namespace blend_mix_test
