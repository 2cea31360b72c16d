// What the rules say of a must that ferments, and where they say nothing.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include "host/plugin/lot.hpp"
#include "host/rules/become_wine.hpp"
#include "tests/host/house.hpp"

#include <algorithm>
#include <random>

namespace law_notes_test {

using namespace vatwright;
using namespace vatwright::test;

bool noted(const StepSheet& step, const std::string& words) {
  const auto& notes = step.outcome.notes;
  return std::any_of(notes.begin(), notes.end(),
                     [&](const std::string& note) { return note.find(words) != std::string::npos; });
}

Worksheet run(const std::string& rules, const std::string& lot, const std::string& step) {
  static TestHouse house;
  return house.run("recipe: test\nrules: " + rules + "\nlots: {T7: {" + lot + "}}\nsteps:\n  - " + step + "\n");
}

// Whatever its stage is called, what has the alcohol of a wine and its sugar meets the wine's limit.
TEST(LawNotes, AMustThatHasBecomeWineMeetsTheWinesRows) {
  std::mt19937 random(5);
  std::uniform_real_distribution<> strength(0.5, 15), sugar(0, 60), total(20, 400);
  int fermented = 0, still_must = 0;
  for (int turn = 0; turn < 300; ++turn) {
    const double e = strength(random), s = sugar(random);
    const std::string lot = fmt::format(
        "pH: 3.3, free SO2: 10 mg/L, total SO2: {:.2f} mg/L, ethanol: {:.2f} % vol, sugar: {:.2f} g/L, colour: white, "
        "class: still",
        total(random), e, s);
    SCOPED_TRACE(lot);
    const auto must = run("EU", lot + ", stage: must", "sulfite.molecular");
    const auto wine = run("EU", lot + ", stage: wine", "sulfite.molecular");
    const bool counts = e >= 5 && s <= 20;
    ++(counts ? fermented : still_must);
    if (counts)
      EXPECT_EQ(must.holds(), wine.holds());
    else
      EXPECT_TRUE(noted(must.steps[0], "as a wine it will be held to total SO2 at most 200 mg/L"));
  }
  EXPECT_GT(fermented, 20);
  EXPECT_GT(still_must, 20);
}

TEST(LawNotes, TheCheckSaysWhyAMustMeetsTheWinesRow) {
  const auto sheet = run("EU",
                         "pH: 3.3, free SO2: 10 mg/L, total SO2: 330 mg/L, ethanol: 11.9 % vol, sugar: 4.4 g/L, "
                         "colour: white, class: still, stage: must",
                         "sulfite.molecular");
  EXPECT_FALSE(sheet.holds());
  EXPECT_NE(sheet.steps[0].outcome.checks.at(0).name.find(counts_as_wine), std::string::npos);
}

// The bounds that are told are those that count.
TEST(LawNotes, TheWordsHaveTheFigures) {
  EXPECT_EQ(std::string(counts_as_wine),
            fmt::format("a must with {:g} % vol or more and no more than {:g} g/L of sugar counts as wine",
                        100 * least_ethanol_of_wine.value(), most_sugar_of_must_made_wine.value()));
}

TEST(LawNotes, AMustSaysWhatItHasTooMuchOf) {
  const auto sheet = run("EU",
                         "volume: 10 hL, pH: 3.3, free SO2: 10 mg/L, total SO2: 190 mg/L, colour: red, class: still, "
                         "stage: must",
                         "sulfite.addition: {target free SO2: 25 mg/L}");
  EXPECT_TRUE(noted(sheet.steps[0], "as a wine it will be held to total SO2 at most 150 mg/L (EU, "));
  EXPECT_TRUE(noted(sheet.steps[0], "which is more"));
}

TEST(LawNotes, RulesThatAreSilentAreNamed) {
  const std::string lot = "volume: 10 hL, pH: 3.3, free SO2: 10 mg/L, total SO2: 60 mg/L, class: still, colour: red";
  const std::string dose = "sulfite.addition: {target free SO2: 25 mg/L}";
  const std::string silence = "say nothing of potassium metabisulfite in this lot: ";
  EXPECT_TRUE(noted(run("EU", lot + ", stage: must", dose).steps[0], silence + "EU"));
  EXPECT_FALSE(noted(run("EU", lot + ", stage: wine", dose).steps[0], "say nothing of"));
  EXPECT_FALSE(noted(run("EU organic", lot + ", stage: wine", dose).steps[0], "say nothing of"));
  // Nothing was asked for, or nothing is dosed.
  EXPECT_FALSE(noted(run("[]", lot + ", stage: must", dose).steps[0], "say nothing of"));
  EXPECT_FALSE(noted(run("EU", lot + ", stage: must", "sulfite.molecular").steps[0], "say nothing of"));
}

// Every dosing step of every example: either a check against the set or a word that there is none.
TEST(LawNotes, NoSetPassesInSilence) {
  int dosed = 0;
  for (const char* set : {"EU", "OIV", "US", "house example"})
    for (const char* stage : {"must", "wine"})
      for (const char* step : {"sulfite.addition: {target free SO2: 25 mg/L}", "acid.addition: {target pH: 3.3}",
                               "cold.treatment: {substance: metatartaric acid, protein stable: yes}",
                               "cold.treatment: {substance: gum arabic, protein stable: yes, wanted dose: 100 mg/L}",
                               "cold.protein: {series: {0 g/hL: 20 NTU, 40 g/hL: 3 NTU, 60 g/hL: 1 NTU}}"}) {
        SCOPED_TRACE(fmt::format("{} {} {}", set, stage, step));
        Worksheet sheet;
        try {
          sheet = run(std::string("[") + set + "]",
                      std::string("volume: 10 hL, pH: 3.6, free SO2: 10 mg/L, total SO2: 60 mg/L, titratable "
                                  "acidity: 5 g/L as tartaric acid, ethanol: 12 % vol, sugar: 30 g/L, class: "
                                  "still, colour: red, stage: ") +
                          stage,
                      step);
        } catch (const BadInput&) {
          continue;  // it does not do that to a must
        }
        const auto& out = sheet.steps[0];
        if (out.outcome.additions.empty()) continue;
        ++dosed;
        const bool checked = std::any_of(out.outcome.checks.begin(), out.outcome.checks.end(), [&](const Check& check) {
          return check.name.find(std::string("limit, ") + set) != std::string::npos;
        });
        EXPECT_TRUE(checked || noted(out, "the rules asked for say nothing of"));
      }
  EXPECT_GT(dosed, 8);
}

TEST(LawNotes, OrganicIncludesTheRest) {
  static TestHouse house;
  const auto names = [&](const std::string& rules) {
    std::vector<std::string> out;
    for (const auto& set : run(rules, "pH: 3.3, free SO2: 10 mg/L", "sulfite.molecular").rules) out.push_back(set.name);
    std::sort(out.begin(), out.end());
    return out;
  };
  const std::vector<std::string> both{"EU", "EU organic"};
  EXPECT_EQ(names("EU organic"), both);
  EXPECT_EQ(names("[EU, EU organic]"), both);
  EXPECT_EQ(names("[EU organic, EU]"), both);
  EXPECT_EQ(names("EU"), std::vector<std::string>{"EU"});
}

}  // namespace law_notes_test
