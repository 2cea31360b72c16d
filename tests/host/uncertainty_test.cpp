// Uncertainty of a sheet against the published examples of JCGM 100 and 101, and against an
// independent program; decisions that are held. Chances are in chance_test.cpp.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <sstream>

#include "host/bench/typical.hpp"
#include "host/plugin/lot.hpp"
#include "tests/host/spreads.hpp"
#include "tests/published/other_program.hpp"

namespace uncertainty_test {

using namespace vatwright;
using namespace vatwright::test;

std::string sum(const std::string& inputs) {
  return "recipe: test\nlots: {T: {pH: 3.4}}\nsteps:\n  - budget.sum: {" + inputs + "}\n";
}

// --- published examples -----------------------------------------------------------------------

// JCGM 101:2008, 9.2.2: four normal quantities of standard uncertainty 1; y = 0, u(y) = 2.0, the
// interval of 95 % is -3.92 to 3.92 (from memory).
constexpr char four_normals[] = "a: 0 ± 1, b: 0 ± 1, c: 0 ± 1, d: 0 ± 1";

// Outside check of uncertainty: 1 value within 1e-9, from memory.
// Source: JCGM 101:2008, 9.2.2.
TEST(Jcgm101, AdditiveModelFirstOrder) {
  const auto step = reckoned(sum(four_normals)).steps.at(0);
  EXPECT_NEAR(spread(step, "y"), 2.0, 1e-9);
  EXPECT_FALSE(step.result_spreads[0].interval);
}

// Outside check of uncertainty: 3 values within 0.6 and 1.5 %, of 200 000 draws, from memory.
// Source: JCGM 101:2008, 9.2.2.
TEST(Jcgm101, AdditiveModelDrawn) {
  const auto sheet = reckoned(sum(four_normals), {200'000, 7});
  const auto& step = sheet.steps.at(0);
  // 200 000 draws: u to 0.2 %, quantiles to 1 %; three times that.
  EXPECT_NEAR(spread(step, "y"), 2.0, 0.012);
  ASSERT_TRUE(step.result_spreads[0].interval);
  EXPECT_NEAR(step.result_spreads[0].interval->first, -3.92, 0.06);
  EXPECT_NEAR(step.result_spreads[0].interval->second, 3.92, 0.06);
  // Within one of nothing: half a standard uncertainty either way, 38.29 % of a normal law.
  ASSERT_EQ(step.chances.size(), 1U);
  EXPECT_NEAR(step.chances[0].probability, 0.3829, 0.004);
  EXPECT_EQ(sheet.uncertainty.draws, 200'000U);
  EXPECT_EQ(sheet.uncertainty.failed, 0U);
}

// JCGM 100:2008, H.1, an end gauge, in nm: u = 32 nm to first order, of which the standard's 25 nm
// is the most; the second-order term of 11.7 nm makes it 34 nm (H.1.7) (from memory).
constexpr char end_gauge[] =
    "recipe: test\nlots: {T: {pH: 3.4}}\nsteps:\n"
    "  - budget.gauge: {a: 50000623 ± 25, b: 215 ± 9.7, c: 0 ± 0.58e-6, d: -0.1 ± 0.41, e: 11.5e-6 ± 1.2e-6, "
    "f: 0 ± 0.029}\n";

// Outside check of uncertainty: 2 values within 0.1 nm, 0.01 of the share, from memory.
// Source: JCGM 100:2008, H.1.
TEST(Jcgm100, EndGaugeFirstOrder) {
  const auto step = reckoned(end_gauge).steps.at(0);
  EXPECT_NEAR(step.outcome.results[0].number, 50000838, 0.5);
  EXPECT_NEAR(spread(step, "y"), 31.7, 0.1);
  EXPECT_EQ(step.result_spreads[0].chief, "a, step 1");
  EXPECT_NEAR(step.result_spreads[0].chief_share, 625 / (31.7 * 31.7), 0.01);
}

// Drawing sees what the first order leaves out.
// Outside check of uncertainty: 1 value within 0.25 nm, of 200 000 draws, from memory.
// Source: JCGM 100:2008, H.1.
TEST(Jcgm100, EndGaugeDrawnHasTheSecondOrder) {
  const auto step = reckoned(end_gauge, {200'000, 3}).steps.at(0);
  EXPECT_NEAR(spread(step, "y"), 33.8, 0.25);
}

// --- the sulfite chain against python3-uncertainties ------------------------------------------

// With the share that stays free given, so that the readings alone are uncertain.
constexpr char chain[] =
    "recipe: test\nlots:\n  T7:\n    volume: 48 hL\n    pH: 3.42 ± 0.03\n    free SO2: 14 ± 2 mg/L\n"
    "    total SO2: 62 ± 4 mg/L\n    sugar: 1 g/L\n    stage: wine\nsteps:\n"
    "  - sulfite.molecular\n  - sulfite.addition: {target molecular SO2: 0.6 mg/L, free share: 50 %}\n"
    "  - sulfite.molecular\n";

// Outside check of uncertainty, sulfite.molecular, sulfite.addition: 6 values within 0.2 %; the dose 1 %,
// another program.
// Source: python3-uncertainties.
TEST(UncertaintiesPackage, SulfiteChain) {
  std::istringstream said(published::output_of(
      "/usr/bin/python3 " + published::shell_word((source_dir / "tests/host/sulfite_chain.py").string())));
  double molecular_before = 0, dose = 0, free_after = 0, total_after = 0, molecular_after = 0;
  said >> molecular_before >> dose >> free_after >> total_after >> molecular_after;
  ASSERT_TRUE(said);
  const auto sheet = reckoned(chain);
  // Central differences over one standard uncertainty bend away from the slope by a part in a thousand.
  const auto near = [](double ours, double theirs) { EXPECT_NEAR(ours, theirs, 2e-3 * theirs); };
  near(spread(sheet.steps[0], "molecular SO2"), molecular_before);
  near(spread(sheet.steps[1], "free SO2"), free_after);
  near(spread(sheet.steps[1], "total SO2"), total_after);
  near(spread(sheet.steps[1], "molecular SO2"), molecular_after);
  near(spread(sheet.steps[2], "molecular SO2"), molecular_after);
  // The balance shows whole grams, so that the dose moves in steps of half a per cent of its spread.
  EXPECT_NEAR(spread(sheet.steps[1], "added SO2"), dose, 0.01 * dose);
}

TEST(Uncertainty, DrawsComeNearTheFirstOrder) {
  const auto first = reckoned(chain), drawn = reckoned(chain, {100'000, 5});
  for (const char* name : {"free SO2", "total SO2", "molecular SO2", "added SO2"})
    EXPECT_NEAR(spread(drawn.steps[1], name), spread(first.steps[1], name), 0.03 * spread(first.steps[1], name))
        << name;
}

// --- behaviour --------------------------------------------------------------------------------

TEST(Uncertainty, NothingIsSaidWhereNothingIsUncertain) {
  const auto sheet = reckoned(sum("a: 1, b: 2, c: 3, d: 4"));
  EXPECT_EQ(sheet.uncertainty.readings, 0U);
  EXPECT_TRUE(sheet.steps[0].result_spreads.empty());
  EXPECT_TRUE(sheet.steps[0].chances.empty());
}

TEST(Uncertainty, OneSeedGivesOneSheet) {
  const auto a = reckoned(chain, {5'000, 1}), b = reckoned(chain, {5'000, 1}), c = reckoned(chain, {5'000, 2});
  EXPECT_EQ(spread(a.steps[1], "free SO2"), spread(b.steps[1], "free SO2"));
  EXPECT_NE(spread(a.steps[1], "free SO2"), spread(c.steps[1], "free SO2"));
}

// A model's own uncertainty stands beside that of the readings, and the sheet says which of the two does most of it and
// what to measure.
TEST(Uncertainty, AModelHasOneOfItsOwn) {
  const auto sulfite = [](const std::string& free, const std::string& target) {
    return reckoned(
        "recipe: test\nlots: {T7: {volume: 10 hL, pH: 3.4, free SO2: " + free +
        ", total SO2: 60 mg/L, stage: wine, sugar: 1 g/L}}\nsteps:\n  - sulfite.addition: {target free SO2: " + target +
        "}\n");
  };
  const auto advised = [](const Worksheet& of, const std::string& what) {
    const auto& notes = of.steps[0].outcome.notes;
    return std::any_of(notes.begin(), notes.end(),
                       [&](const std::string& note) { return note.find(what) != std::string::npos; });
  };
  const auto model = sulfite("15 ± 1 mg/L", "35 mg/L");
  EXPECT_EQ(model.uncertainty.readings, 1U);
  EXPECT_EQ(model.uncertainty.models, 1U);
  // 20 mg/L more free by 40 mg/L, of which 50 ± 9.4 % stay so.
  EXPECT_NEAR(spread(model.steps[0], "free SO2"), std::hypot(1, 40 * 0.094), 0.05);
  EXPECT_TRUE(model.steps[0].result_spreads.at(index_of(model.steps[0], "free SO2")).chief.starts_with("the model of"));
  EXPECT_TRUE(advised(model, "to measure the share that stays free"));
  const auto reading = sulfite("15 ± 6 mg/L", "20 mg/L");
  EXPECT_NEAR(spread(reading.steps[0], "free SO2"), std::hypot(6, 10 * 0.094), 0.05);
  EXPECT_TRUE(advised(reading, "to read free SO2 of T7 more closely"));
  EXPECT_TRUE(sulfite("15 mg/L", "35 mg/L").steps[0].result_spreads.empty());
}

// The dose is in the tank: the target is then not certain any more, and the dose's own spread is
// that of the dose which other readings would have asked for.
TEST(Uncertainty, TheDoseIsHeld) {
  const auto step = reckoned(chain).steps[1];
  EXPECT_GT(spread(step, "molecular SO2"), 0.02);
  EXPECT_GT(spread(step, "added SO2"), 3.9);
  ASSERT_EQ(step.addition_spreads.size(), 1U);
  EXPECT_GT(step.addition_spreads[0].standard, 0);
}

// What a limit has kept from being done has no chance to keep it.
TEST(Uncertainty, NoChanceOfWhatWasRefused) {
  const std::string start =
      "recipe: test\nrules: EU\nlots: {T7: {volume: 10 hL, pH: 3.4, free SO2: 20 mg/L, total SO2: ";
  const std::string end =
      " ± 5 mg/L, stage: wine, class: still, colour: pink, sugar: 1 g/L}}\n"
      "steps:\n  - sulfite.addition: {target free SO2: 30 mg/L, free share: 50 %}\n";
  for (const Draws& draws : {Draws{}, Draws{2000, 1}}) {
    const auto refused = reckoned(start + "195" + end, draws).steps[0];
    EXPECT_TRUE(refused.outcome.additions.empty());
    EXPECT_TRUE(refused.chances.empty());
    EXPECT_EQ(reckoned(start + "170" + end, draws).steps[0].chances.size(), 1U);
  }
}

// An enriched must of 198 ± 4 g/L is known to ± 0.24 % vol (4 g/L over 16.83 g/L for 1 % vol), beside the 2.5 % by
// which yeasts differ, also by those draws in which it had enough sugar without.
TEST(Uncertainty, ADrawWithNothingToDoStillCounts) {
  const auto sheet = reckoned(
      "recipe: test\nlots: {A: {stage: must, volume: 20 hL, sugar: 198 ± 4 g/L}}\n"
      "steps:\n  - sugar.enrichment: {target potential alcohol: 11.95 % vol}\n",
      {20'000, 1});
  EXPECT_EQ(sheet.uncertainty.failed, 0U);
  EXPECT_NEAR(spread(sheet.steps[0], "potential alcohol"), std::hypot(4 / 16.83, 0.025 * 11.95), 0.01);
}

// Free SO2 of 2 ± 2 mg/L is drawn below nothing now and then; such draws stand at nothing.
TEST(Uncertainty, ReadingsStayWithinWhatCanBe) {
  const auto sheet = reckoned(
      "recipe: test\nlots: {T7: {pH: 3.4, free SO2: 2 ± 2 mg/L, total SO2: 60 mg/L}}\nsteps: [sulfite.molecular]\n",
      {20'000, 1});
  EXPECT_EQ(sheet.uncertainty.failed, 0U);
  EXPECT_GE(sheet.steps[0].result_spreads.at(index_of(sheet.steps[0], "molecular SO2")).interval->first, 0);
}

// A part and its whole that overlap cannot always be together: those draws are counted and left out.
TEST(Uncertainty, DrawsThatCannotBeAreCounted) {
  const auto sheet = reckoned(
      "recipe: test\nlots: {T7: {density: 991.4 kg/m³, ethanol: 12.5 % vol, sugar: 1.6 g/L, titratable acidity: 21 ± 2 "
      "meq/L, volatile acidity: 20 ± 2 meq/L}}\nsteps: [sugar.extract]\n",
      {20'000, 1});
  // volatile > titratable: a difference of 1 ± 2.83, 36.2 % of a normal law.
  EXPECT_NEAR(static_cast<double>(sheet.uncertainty.failed) / 20'000, 0.362, 0.015);
  EXPECT_GT(spread(sheet.steps[0], "residual extract"), 0);
}

// Free and total sulfur dioxide near each other are usual, and no draw of them is left out.
TEST(Uncertainty, FreeAndTotalSulfurDioxideMayCross) {
  for (const char* step : {"sulfite.molecular", "sulfite.addition: {target free SO2: 30 mg/L}",
                           "sulfite.binding: {acetaldehyde: 20 mg/L}"})
    EXPECT_EQ(
        reckoned(std::string("recipe: test\nlots: {T7: {volume: 10 hL, pH: 3.4, free SO2: 20 ± 2 mg/L, total SO2: "
                             "21 ± 2 mg/L}}\nsteps:\n  - ") +
                     step + "\n",
                 {20'000, 1})
            .uncertainty.failed,
        0U)
        << step;
}

// So are those in which the step would make of the lot what no lot is: here a total SO2 beyond 1 g/L.
TEST(Uncertainty, DrawsThatLeaveTheRangeOfALotAreCounted) {
  const auto sheet = reckoned(
      "recipe: test\nlots: {T7: {volume: 10 hL, pH: 3.4, free SO2: 20 mg/L, total SO2: 985 ± 5 mg/L, stage: wine}}\n"
      "steps:\n  - sulfite.addition: {target free SO2: 30 mg/L, free share: 100 %}\n",
      {20'000, 1});
  const double total = sheet.steps[0].outcome.changes.back().value.number;
  EXPECT_NEAR(total, 0.995, 0.001);
  EXPECT_GT(sheet.uncertainty.failed, 1000U);
  EXPECT_LT(sheet.uncertainty.failed, 10'000U);
}

// Every figure of every draw is held in memory: a recipe of many steps may not ask for a million.
TEST(Uncertainty, MoreDrawsThanFitInMemoryAreRefused) {
  std::string text = sum(four_normals);
  for (int i = 0; i < 60; ++i) text += fmt::format("  - budget.sum: {{{}}}\n", four_normals);
  try {
    reckoned(text, {most_draws, 1});
    FAIL() << "61 million figures were kept";
  } catch (const BadInput& error) {
    EXPECT_NE(std::string(error.what()).find("take at most"), std::string::npos) << error.what();
  }
}

// --- the interface: several lots, tables, bounds ----------------------------------------------

TEST(SeveralLots, AreDrawnFromAndMakeANewOne) {
  const auto sheet = reckoned(
      "recipe: test\nlots:\n  A: {volume: 20 hL, pH: 3.3}\n  B: {volume: 10 hL, pH: 3.5}\nsteps:\n"
      "  - budget.join: {lots: {A: 5 hL, B: {taken: 10 hL}}, into: C}\n"
      "  - budget.join: {lots: {C: 3 hL}, into: D}\n");
  ASSERT_EQ(sheet.lots.size(), 4U);
  const auto litres = [&](std::size_t i) { return 1e3 * sheet.lots[i].after.find("volume")->second.number; };
  EXPECT_NEAR(litres(0), 1500, 1e-9);
  EXPECT_EQ(litres(1), 0);
  EXPECT_NEAR(litres(2), 1200, 1e-9);
  EXPECT_NEAR(litres(3), 300, 1e-9);
  EXPECT_EQ(sheet.lots[3].made, "step 2");
  EXPECT_EQ(sheet.lots[3].after.find("pH")->second.number, 3.3);
}

// All of a lot is taken whose volume is known to ± 2 %: half of the draws have less than that.
TEST(SeveralLots, AllOfAnUncertainVolumeMayBeTaken) {
  for (const Draws& draws : {Draws{}, Draws{500, 1}}) {
    const auto sheet = reckoned(
        "recipe: test\nlots:\n  A: {volume: 10 ± 0.2 hL, pH: 3.3}\n  B: {volume: 10 hL, pH: 3.5}\nsteps:\n"
        "  - budget.join: {lots: {A: 10 hL, B: {taken: 5 ± 0.1 hL}}, into: C}\n",
        draws);
    EXPECT_EQ(sheet.uncertainty.failed, 0U);
    EXPECT_NEAR(spread(sheet.steps.at(0), "joined"), 0.1, 0.01);
  }
}

std::string refusal(const std::string& steps) {
  try {
    reckoned("recipe: test\nlots:\n  A: {volume: 20 hL, pH: 3.3}\n  B: {volume: 10 hL, pH: 3.5}\nsteps:\n" + steps);
  } catch (const BadInput& error) {
    return error.what();
  }
  return "nothing";
}

bool says(const std::string& text, const std::string& part) {
  if (text.find(part) != std::string::npos) return true;
  ADD_FAILURE() << text;
  return false;
}

TEST(SeveralLots, SlipsAreNamed) {
  EXPECT_TRUE(says(refusal("  - budget.join: {lots: {A: 5 hL, Bb: 1 hL}, into: C}\n"), "no lot 'Bb'"));
  EXPECT_TRUE(says(refusal("  - budget.join: {lots: {A: 5 hL}, into: B}\n"), "there is a lot 'B' already"));
  EXPECT_TRUE(says(refusal("  - budget.join: {lots: {A: 5 kg}, into: C}\n"), "taken in hL"));
  EXPECT_TRUE(says(refusal("  - budget.join: {lots: {A: {take: 5 hL}}, into: C}\n"), "'taken'"));
  EXPECT_TRUE(says(refusal("  - budget.join: {lot: A, lots: {A: 5 hL}, into: C}\n"), "is not on a lot"));
  EXPECT_TRUE(says(
      refusal("  - budget.join: {lots: {A: 20 hL}, into: C}\n  - sulfite.molecular: {lot: A, free SO2: 20 mg/L}\n"),
      "lot 'A' is empty"));
  EXPECT_TRUE(says(refusal("  - sulfite.molecular: {free SO2: 20 mg/L}\n"), "which lot?"));
}

constexpr char lines[] =
    "recipe: test\nsteps:\n  - budget.count:\n      readings:\n"
    "        - {plot: East, date: 2026-08-20, sugar: 180 g/L}\n"
    "        - {plot: East, date: 2026-09-01, sugar: 205 g/L}\n"
    "        - {plot: West, date: 2026-08-25, sugar: 190 ± 3 g/L}\n";

TEST(Readings, InLinesWithDaysAndBounds) {
  const auto sheet = reckoned(std::string(lines) + "      window: {sugar: 175 to 195 g/L}\n");
  EXPECT_EQ(sheet.steps[0].outcome.results[0].number, 2);
  EXPECT_NEAR(sheet.steps[0].outcome.results[1].number, 12 * 86400.0, 1e-6);
  EXPECT_EQ(sheet.uncertainty.readings, 1U);
  EXPECT_EQ(
      reckoned(std::string(lines) + "      window: {sugar: at least 200 g/L}\n").steps[0].outcome.results[0].number, 1);
  EXPECT_EQ(reckoned(std::string(lines) + "      window: {sugar: 190 g/L}\n").steps[0].outcome.results[0].number, 1);
}

std::string line_refusal(std::string text, const std::string& window = "{sugar: at least 1 g/L}") {
  try {
    reckoned(text + "      window: " + window + "\n");
  } catch (const BadInput& error) {
    return error.what();
  }
  return "nothing";
}

TEST(Readings, SlipsAreNamed) {
  std::string text = lines;
  const auto with = [&](const std::string& a, const std::string& b) {
    std::string out = text;
    return out.replace(out.find(a), a.size(), b);
  };
  EXPECT_TRUE(says(line_refusal(with("2026-09-01", "2026-02-30")), "'2026-02-30' is no day"));
  EXPECT_TRUE(says(line_refusal(with("2026-09-01", "1.9.2026")), "year, month and day"));
  EXPECT_TRUE(says(line_refusal(with("sugar: 205 g/L", "sugr: 205 g/L")), "the nearest known one is 'sugar'"));
  EXPECT_TRUE(says(line_refusal(with(", sugar: 205 g/L", "")), "misses 'sugar'"));
  EXPECT_TRUE(says(line_refusal(with("205 g/L", "205 mL")), "which is a volume"));
  EXPECT_TRUE(says(line_refusal(text, "{sugar: 200 to 190 g/L}"), "runs from more to less"));
  EXPECT_TRUE(says(line_refusal(text, "{sugar: at most 5 pH}"), "expected a mass per volume"));
  EXPECT_TRUE(says(line_refusal(text, "{colour: red}"), "unknown key 'colour'"));
}

// Between two draws the ends of the interval are interpolated: 95 % of what lies between them, and their standard
// deviation is that by the root of two.
TEST(IntervalTest, IsInterpolatedBetweenDraws) {
  for (const std::uint64_t seed : {1U, 2U, 3U}) {
    const auto spread = reckoned(sum(four_normals), {2, seed}).steps.at(0).result_spreads.at(0);
    ASSERT_TRUE(spread.interval);
    EXPECT_NEAR(spread.interval->second - spread.interval->first, 0.95 * std::sqrt(2.0) * spread.standard,
                1e-9 * spread.standard);
  }
}

// What a reading says of itself is taken; the table speaks for those that say nothing, and not for what was reckoned.
TEST(TypicalTest, SpeaksOnlyForReadingsThatSayNothing) {
  const Typical typical(rules_dir.parent_path() / "typical.yaml");
  Value said;
  said.number = 3.42;
  said.written = "3.42 ± 0.30";
  said.uncertainty = 0.30;
  typical.tell(lot::ph, said);
  EXPECT_EQ(said.uncertainty, 0.30);
  EXPECT_FALSE(said.typical);
  Value silent;
  silent.number = 3.42;
  silent.written = "3.42";
  typical.tell(lot::ph, silent);
  EXPECT_GT(silent.uncertainty, 0);
  EXPECT_TRUE(silent.typical);
  Value reckoned;
  reckoned.number = 3.42;
  typical.tell(lot::ph, reckoned);
  EXPECT_EQ(reckoned.uncertainty, 0);
}

}  // namespace uncertainty_test
