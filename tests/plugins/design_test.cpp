// blend.design as a person runs it.
#include "tests/plugins/run.hpp"

#include <fmt/format.h>

#include <cmath>

namespace vatwright::test {
namespace design_test {

Worksheet design(const std::string& lots, const std::string& step, const std::string& rules = "[EU]") {
  static TestHouse house;
  return house.run("recipe: test\nrules: " + rules + "\nlots:\n" + lots + "steps:\n  - blend.design: {" + step + "}\n");
}

std::string design_refusal(const std::string& lots, const std::string& step) {
  try {
    design(lots, step);
  } catch (const BadInput& error) {
    return error.what();
  }
  return {};
}

const Table* table(const StepSheet& step, std::string_view start) { return named(step.outcome.tables, start); }

// Share of a lot in per cent; 0 where it is not used.
double share(const StepSheet& step, const std::string& lot) {
  for (const auto& row : table(step, "what goes in")->rows)
    if (std::get<std::string>(row[0]) == lot) return 100 * std::get<double>(row[1]);
  return 0;
}

const std::string two =
    "  A: {volume: 60 hL, sugar: 1 g/L, ethanol: 11 % vol}\n"
    "  B: {volume: 60 hL, sugar: 5 g/L, ethanol: 14 % vol}\n";

// The cellar's cross: 5 - 2 parts of A and 2 - 1 of B make 2 g/L, so 75 % and 25 % (arithmetic).
// Outside check of blend.design: 4 values within 1e-4, derived.
// Source: the cross of the cellar, by hand.
TEST(Design, TwoLotsAreTheCrossOfTheCellar) {
  const std::string lots = "  A: {volume: 90 hL, sugar: 1 g/L}\n  B: {volume: 90 hL, sugar: 5 g/L}\n";
  const auto sheet =
      design(lots, "lots: {A: {price: 120}, B: {price: 80}}, volume: 100 hL, bounds: {sugar: at most 2 g/L}");
  const auto& step = sheet.steps.at(0);
  EXPECT_NEAR(share(step, "A"), 75, 1e-6);
  EXPECT_NEAR(share(step, "B"), 25, 1e-6);
  EXPECT_NEAR(result(step, "cost"), 75 * 120 + 25 * 80, 1e-4);
  EXPECT_NEAR(result(step, "lots used"), 2, 1e-12);
  // 0.5 g/L looser: 12.5 hL of A become B, at 40 less each.
  const auto& price = table(step, "what binds")->rows.at(0);
  EXPECT_EQ(std::get<std::string>(price[0]), "sugar at most 2 g/L");
  EXPECT_EQ(std::get<std::string>(price[1]), "0.5 g/L");
  EXPECT_NEAR(std::get<double>(price[2]), 12.5 * 40, 1e-4);
}

// Ethanol by mass lies above the mean by volume: the answer has to come from the prediction.
TEST(Design, EthanolIsMetAsPredictedNotAsTheMean) {
  const std::string lots = "  A: {volume: 900 hL, ethanol: 1 % vol}\n  B: {volume: 900 hL, ethanol: 60 % vol}\n";
  const auto sheet =
      design(lots, "lots: {A: {price: 10}, B: {price: 900}}, volume: 100 hL, bounds: {ethanol: 30 % vol}");
  const auto& step = sheet.steps.at(0);
  for (const auto& check : step.outcome.checks) EXPECT_TRUE(check.holds) << check.name;
  const double b = share(step, "B");
  const double mean = (b * 60 + (100 - b)) / 100;
  EXPECT_LT(mean, 29.8);  // contraction makes up the rest
  static TestHouse house;
  const auto mixed = house.run(
      fmt::format("recipe: test\nlots:\n{}steps:\n  - blend.mix: {{lots: {{A: {:.9f} hL, B: {:.9f} hL}}, into: C}}\n",
                  lots, 100 - b, b));
  EXPECT_NEAR(result(mixed.steps.at(0), "ethanol"), 30, 1e-6);
}

const std::string three =
    "  A: {volume: 60 hL, ethanol: 11.8 % vol, pH: 3.10, titratable acidity: 7.1 g/L as tartaric acid}\n"
    "  B: {volume: 60 hL, ethanol: 13.4 % vol, pH: 3.60, titratable acidity: 4.4 g/L as tartaric acid}\n"
    "  C: {volume: 60 hL, ethanol: 12.5 % vol, pH: 3.35, titratable acidity: 5.6 g/L as tartaric acid}\n";

// The bound on pH is met in blend.mix's own prediction, to the last digit that counts, and not by the
// mean of the pH values.
TEST(Design, PhIsHeldByTheChargeBalance) {
  const auto sheet = design(
      three, "lots: {A: {price: 150}, B: {price: 80}, C: {price: 140}}, volume: 100 hL, bounds: {pH: at most 3.30}");
  const auto& step = sheet.steps.at(0);
  const auto* ph = check(step, "pH of the blend");
  ASSERT_NE(ph, nullptr);
  EXPECT_TRUE(ph->holds);
  EXPECT_NEAR(number(*ph->value), 3.30, 1e-7);
  double a = share(step, "A"), b = share(step, "B"), c = share(step, "C");
  EXPECT_GT(std::abs((a * 3.10 + b * 3.60 + c * 3.35) / 100 - 3.30), 0.005);
  static TestHouse house;
  std::string parts;
  for (const auto& [name, part] : {std::pair{"A", a}, {"B", b}, {"C", c}})
    if (part > 0) parts += fmt::format("{}{}: {:.9f} hL", parts.empty() ? "" : ", ", name, part);
  const auto mixed =
      house.run("recipe: test\nlots:\n" + three + "steps:\n  - blend.mix: {lots: {" + parts + "}, into: D}\n");
  EXPECT_NEAR(result(mixed.steps.at(0), "pH"), 3.30, 1e-6);
}

// The colour that was asked for is the one that pink.colour reads off the blend's absorbance.
TEST(Design, ColourIsHeldAsItIsReadOffTheBlend) {
  const std::string lots =
      "  A: {volume: 60 hL, absorbance: {path: 10 mm, 450 nm: 0.16 AU, 520 nm: 0.22 AU, 570 nm: 0.09 AU, 630 nm: 0.03 "
      "AU}}\n"
      "  B: {volume: 60 hL, absorbance: {path: 10 mm, 450 nm: 0.30 AU, 520 nm: 0.62 AU, 570 nm: 0.28 AU, 630 nm: 0.08 "
      "AU}}\n"
      "  C: {volume: 60 hL, absorbance: {path: 5 mm, 450 nm: 0.08 AU, 520 nm: 0.06 AU, 570 nm: 0.03 AU, 630 nm: 0.01 "
      "AU}}\n";
  const auto step = design(lots,
                           "lots: {A: {price: 100}, B: {price: 60}, C: {price: 70}}, volume: 50 hL, "
                           "bounds: {\"L*\": at least 88, \"a*\": at most 20, \"b*\": at least 6}")
                        .steps.at(0);
  for (const auto& check : step.outcome.checks) EXPECT_TRUE(check.holds) << check.name;
  std::string parts;
  for (const auto* lot : {"A", "B", "C"})
    if (share(step, lot) > 0)
      parts += fmt::format("{}{}: {:.9f} hL", parts.empty() ? "" : ", ", lot, share(step, lot) / 2);
  static TestHouse house;
  const auto mixed = house.run("recipe: test\nlots:\n" + lots + "steps:\n  - blend.mix: {lots: {" + parts +
                               "}, into: D}\n  - pink.colour: {lot: D}\n");
  for (const auto* part : {"L*", "a*", "b*"})
    EXPECT_NEAR(result(mixed.steps.at(1), part), number(*check(step, part)->value), 1e-6) << part;
  EXPECT_NEAR(std::min(result(mixed.steps.at(1), "L*") - 88, result(mixed.steps.at(1), "b*") - 6), 0, 1e-5);
}

TEST(Design, ComesToTheProfileWhereItCan) {
  const auto sheet = design(two,
                            "lots: {A: {}, B: {}}, volume: 50 hL, aim: profile, profile: {sugar: 3 g/L}, bounds: "
                            "{ethanol: at most 13 % vol}");
  const auto& step = sheet.steps.at(0);
  EXPECT_NEAR(result(step, "distance"), 0, 1e-5);
  EXPECT_NEAR(share(step, "A"), 50, 0.1);
}

TEST(Design, ClashNamesTheBoundsAndHowNearTheyCome) {
  const auto sheet = design(two,
                            "lots: {A: {price: 1}, B: {price: 2}}, volume: 50 hL, bounds: {sugar: at most 2 g/L, "
                            "ethanol: at least 13 % vol}");
  const auto& step = sheet.steps.at(0);
  EXPECT_TRUE(step.outcome.results.empty());
  EXPECT_TRUE(step.outcome.tables.empty());
  const auto* none = check(step, "a blend of these lots");
  ASSERT_NE(none, nullptr);
  EXPECT_FALSE(none->holds);
  EXPECT_TRUE(has(none->remedy, "sugar at most 2 g/L")) << none->remedy;
  EXPECT_TRUE(has(none->remedy, "ethanol at least 13 % vol")) << none->remedy;
  EXPECT_FALSE(has(none->remedy, "volumes")) << none->remedy;
  // 13 % vol takes about two parts of B and one of A.
  const auto* sugar = check(step, "sugar as near");
  ASSERT_NE(sugar, nullptr);
  EXPECT_NEAR(number(*sugar->value), 3.66, 0.02);
}

TEST(Design, ClashOfOneDemandStandsAlone) {
  const auto sheet =
      design(two, "lots: {A: {price: 1}, B: {price: 2}}, volume: 150 hL, bounds: {sugar: at most 4 g/L}");
  const auto* none = check(sheet.steps.at(0), "a blend of these lots");
  ASSERT_NE(none, nullptr);
  EXPECT_TRUE(has(none->remedy, "the volumes that are available for 150.00 hL")) << none->remedy;
  EXPECT_FALSE(has(none->remedy, "sugar")) << none->remedy;
}

// One lot that just meets a bound is an answer, not a clash.
TEST(Design, BoundThatOneLotJustMeetsIsMet) {
  const auto sheet = design(two, "lots: {A: {price: 1}, B: {price: 2}}, volume: 50 hL, bounds: {sugar: at most 1 g/L}");
  EXPECT_NEAR(share(sheet.steps.at(0), "A"), 100, 1e-9);
}

const std::string five =
    "  A: {volume: 60 hL, sugar: 1 g/L, varieties: Sorrel, vintage: 2026, colour: pink}\n"
    "  B: {volume: 20 hL, sugar: 1 g/L, varieties: Teasel, vintage: 2026, colour: pink}\n"
    "  C: {volume: 60 hL, sugar: 1 g/L, varieties: Sorrel, vintage: 2025, colour: pink}\n";

TEST(Design, SmallestShareCountsAndWholeTanks) {
  const auto prices = [](const std::string& b) {
    return "lots: {A: {price: 50}, B: {price: 90" + b + "}, C: {price: 60}}, volume: 50 hL, ";
  };
  EXPECT_NEAR(result(design(five, prices("") + "most lots: 3").steps.at(0), "lots used"), 1, 1e-12);
  const auto small = design(five, prices("") + "least lots: 3, smallest share: 10 %").steps.at(0);
  EXPECT_NEAR(share(small, "A"), 80, 1e-6);
  EXPECT_NEAR(share(small, "B"), 10, 1e-6);
  EXPECT_NEAR(share(small, "C"), 10, 1e-6);
  const auto tank = design(five, prices(", tank: whole or not at all") + "least lots: 2").steps.at(0);
  EXPECT_NEAR(share(tank, "B"), 0, 1e-6);
  const auto used = design(five, prices(", tank: whole or not at all, use up: 1 hL")).steps.at(0);
  EXPECT_NEAR(share(used, "B"), 40, 1e-6);
  EXPECT_NEAR(share(used, "A"), 60, 1e-6);
}

// Rules: the house example's two varieties with none above 90 %, and the EU's 85 % for a vintage.
TEST(Design, RulesOfCompositionAndLabelAreHeld) {
  const std::string lots = "lots: {A: {price: 90}, B: {price: 120}, C: {price: 60}}, volume: 50 hL, ";
  const auto free = design(five, lots + "most lots: 3", "[EU]").steps.at(0);
  EXPECT_NEAR(share(free, "C"), 100, 1e-6);
  const auto held = design(five, lots + "label vintage: 2026", "[EU, house example]").steps.at(0);
  EXPECT_NEAR(share(held, "B"), 10, 1e-6);
  EXPECT_NEAR(share(held, "C"), 15, 1e-6);
  EXPECT_NEAR(share(held, "A"), 75, 1e-6);
  for (const auto& check : held.outcome.checks) EXPECT_TRUE(check.holds) << check.name;
}

// Two thirds of A, one of B: the volumes that are found are to be pumped.
TEST(Design, SaysWhatToPump) {
  const auto step =
      design(two, "lots: {A: {price: 9}, B: {price: 1}}, volume: 30 hL, bounds: {sugar: at most 2 g/L}").steps.at(0);
  ASSERT_EQ(step.outcome.work.size(), 1u);
  EXPECT_EQ(step.outcome.work[0], "pump 22.50 hL of lot A and 7.50 hL of lot B into one tank, and mix");
}

// A design is held to the law as its mix is: (EU) 2019/934, Annex I, Part B, 200 mg/L, dry and white.
TEST(Design, TheAnalysisIsHeldToTheLimits) {
  const std::string white = "volume: 60 hL, stage: wine, class: still, colour: white, sugar: 1 g/L, total SO2: ";
  const auto step = design("  A: {" + white + "230 mg/L}\n  B: {" + white + "190 mg/L}\n",
                           "lots: {A: {price: 1}, B: {price: 9}}, volume: 30 hL")
                        .steps.at(0);
  const auto* limit = check(step, "total SO2 limit, EU");
  ASSERT_NE(limit, nullptr);
  EXPECT_FALSE(limit->holds);
  EXPECT_NEAR(number(*limit->value), 230, 1e-6);
}

// Beside a viticultural area 95 % of the year, beside another origin 85 % (27 CFR 4.27(a)).
TEST(Design, TheYearOfAViticulturalArea) {
  const std::string lots =
      "lots: {A: {price: 90}, B: {price: 120}, C: {price: 60}}, volume: 50 hL, label vintage: 2026";
  EXPECT_NEAR(share(design(five, lots, "[US]").steps.at(0), "C"), 5, 1e-6);
  EXPECT_NEAR(share(design(five, lots + ", label origin: other", "[US]").steps.at(0), "C"), 15, 1e-6);
}

// Acidities to pH 7.0 and to pH 8.2 are different quantities: no bound is on both.
TEST(Design, ABoundOnAcidityWantsOneEndPoint) {
  const auto lots = [](const std::string& other) {
    return "  A: {volume: 60 hL, ethanol: 12 % vol, pH: 3.2, titratable acidity: 7 g/L as tartaric acid, endpoint: "
           "8.2}\n"
           "  B: {volume: 60 hL, ethanol: 12 % vol, pH: 3.4, titratable acidity: 5 g/L as tartaric acid" +
           other + "}\n";
  };
  const std::string both = "lots: {A: {price: 1}, B: {price: 2}}, volume: 10 hL, ";
  const std::string bound = both + "bounds: {titratable acidity: at most 6 g/L as tartaric acid}";
  const auto said = design_refusal(lots(""), bound);
  EXPECT_TRUE(has(said, "different end points: A to 8.2, B to 7.0")) << said;
  EXPECT_TRUE(has(said, "bind pH in place")) << said;
  EXPECT_EQ(design_refusal(lots(", endpoint: 8.2"), bound), "");
  const auto same = design(lots(", endpoint: 8.2"), bound).steps.at(0);
  EXPECT_NEAR(share(same, "A"), 50, 0.5);  // the mean of 7 and 5, but for activities
  EXPECT_EQ(design_refusal(lots(""), both + "bounds: {pH: at most 3.3}"), "");
}

TEST(Design, WhatIsRefusedCanBeMended) {
  const auto mends = [](const std::string& step, std::string_view hint) {
    const auto said = design_refusal(two, step);
    EXPECT_TRUE(has(said, hint)) << said;
  };
  mends("lots: {A: {price: 1, available: 70 hL}}, volume: 10 hL", "correct the lot's 'volume'");
  mends("lots: {A: {price: 1, use up: 70 hL}}, volume: 10 hL", "lower 'use up'");
  mends("lots: {A: {price: 1}}, volume: 10 hL, most lots: 2.5", "'most lots: 2' or 'most lots: 3'");
  mends("lots: {A: {price: 1}, B: {price: 1}}, volume: 10 hL, least lots: 2, most lots: 1", "no more than 'most lots'");
  mends("lots: {A: {price: 1}, B: {price: 1}}, volume: 10 hL, least lots: 3", "lower 'least lots'");
  mends("lots: {A: {price: 1, available: 0 hL}}, volume: 10 hL", "'available' of the step");
}

TEST(Design, RefusesWhatIsMissingByName) {
  EXPECT_TRUE(has(design_refusal(two, "lots: {A: {price: 1}, B: {}}, volume: 10 hL"), "no price: B"));
  EXPECT_TRUE(has(
      design_refusal(two, "lots: {A: {price: 1}, B: {price: 1}}, volume: 10 hL, bounds: {malic acid: at most 1 g/L}"),
      "A lacks malic acid; B lacks malic acid"));
  EXPECT_TRUE(has(design_refusal(two, "lots: {A: {price: 1}, B: {price: 1}}, volume: 10 hL, bounds: {pH: at most 3.3}"),
                  "A lacks pH, titratable acidity"));
  EXPECT_TRUE(has(design_refusal(two, "lots: {}, volume: 10 hL"), "lots"));
  EXPECT_TRUE(has(design_refusal(two, "lots: {A: {price: 1, available: 70 hL}}, volume: 10 hL"), "holds 60.00 hL"));
  EXPECT_TRUE(has(design_refusal(two, "lots: {A: {}}, volume: 10 hL, aim: profile"), "none is given"));
  EXPECT_TRUE(
      has(design_refusal(two, "lots: {A: {}}, volume: 10 hL, aim: profile, profile: {sugar: 1 to 2 g/L}"), "a span"));
  EXPECT_TRUE(has(design_refusal(two, "lots: {A: {price: 1}, B: {price: 1}}, volume: 10 hL, least lots: 3"),
                  "of 2 to choose from"));
  EXPECT_TRUE(has(design_refusal(two, "lots: {A: {price: 1}}, volume: 10 hL, most lots: 1.5"), "whole number"));
}

}  // namespace design_test
}  // namespace vatwright::test
