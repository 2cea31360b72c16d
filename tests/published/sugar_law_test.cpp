// Limits of enrichment and the words for sweetness in host/rules/*.yaml against the figures of the laws,
// written here a second time. Reads the files with yaml-cpp alone.
#include "units/parse.hpp"

#include <gtest/gtest.h>
#include <yaml-cpp/yaml.h>

#include <algorithm>
#include <string>
#include <vector>

namespace vatwright {
namespace sugar_law_test {

YAML::Node file_of(const std::string& rules) {
  return YAML::LoadFile(VATWRIGHT_SOURCE_DIR "/host/rules/" + rules + ".yaml");
}

bool holds(const YAML::Node& condition, const std::string& word) {
  if (!condition) return true;
  if (!condition.IsSequence()) return condition.as<std::string>() == word;
  const auto words = condition.as<std::vector<std::string>>();
  return std::find(words.begin(), words.end(), word) != words.end();
}

// The one figure of a topic for a zone and a colour.
std::string limit(const std::string& topic, const std::string& zone, const std::string& colour) {
  std::string found;
  for (const auto& row : file_of("EU")[topic]) {
    if (!holds(row["when"]["stage"], "must") || !holds(row["when"]["zone"], zone) ||
        !holds(row["when"]["colour"], colour))
      continue;
    EXPECT_TRUE(found.empty()) << "two rows for " << topic << ", " << zone;
    EXPECT_NE(row["source"].as<std::string>().find("1308/2013, Annex VIII, Part I"), std::string::npos);
    found = row["at most"].as<std::string>();
  }
  return found;
}

// Regulation (EU) No 1308/2013, Annex VIII, Part I, as read in an IFV note on enrichment (which cites
// Regulation (EC) No 479/2008): increase, volume and ceiling by zone; section B, point 7, for red in A
// and B.
// Outside check of sugar.enrichment: 24 values within exact, seen.
// Source: Regulation (EU) 1308/2013, Annex VIII, as read in an IFV note.
TEST(SugarLaw, EnrichmentByZone) {
  constexpr struct {
    const char *zone, *gain, *volume, *total, *red;
  } rows[] = {{"A", "3.0 % vol", "11 %", "11.5 % vol", "12 % vol"},
              {"B", "2.0 % vol", "8 %", "12 % vol", "12.5 % vol"},
              {"C I", "1.5 % vol", "6.5 %", "12.5 % vol", "12.5 % vol"},
              {"C II", "1.5 % vol", "6.5 %", "13 % vol", "13 % vol"},
              {"C III a", "1.5 % vol", "6.5 %", "13.5 % vol", "13.5 % vol"},
              {"C III b", "1.5 % vol", "6.5 %", "13.5 % vol", "13.5 % vol"}};
  for (const auto& row : rows) {
    const auto same = [](const std::string& a, const std::string& b) {
      ASSERT_FALSE(a.empty()) << b;
      EXPECT_DOUBLE_EQ(parse(a).value, parse(b).value);
    };
    SCOPED_TRACE(row.zone);
    for (const char* colour : {"white", "pink", "red"}) {
      same(limit("strength gained by enrichment", row.zone, colour), row.gain);
      same(limit("volume gained by concentrated must", row.zone, colour), row.volume);
    }
    same(limit("total strength after enrichment", row.zone, "white"), row.total);
    same(limit("total strength after enrichment", row.zone, "pink"), row.total);
    same(limit("total strength after enrichment", row.zone, "red"), row.red);
  }
}

// Regulation (EU) No 1308/2013, Annex VIII, Part I: wine itself is enriched by cold concentration only,
// read in a secondary source; acidification and enrichment exclude each other, from memory. Delegated
// Regulation (EU) 2019/934, Annex II: tirage liqueur adds at most 1.5 % vol, from memory; sparkling wine has
// at least 3 bar at 20 °C, from memory.
// Outside check of sugar.enrichment: 1 value within exact, seen.
// Source: Regulation (EU) 1308/2013, Annex VIII, on wine.
// Outside check of sugar.enrichment: 3 values within exact, from memory.
// Source: Regulation (EU) 1308/2013, Annexes VII and VIII; (EU) 2019/934, Annex II.
TEST(SugarLaw, WhatIsNoMustOrWasAcidified) {
  const auto rules = file_of("EU");
  const auto figure = [&](const std::string& topic, const std::string& stage, const std::string& wine_class) {
    std::string found;
    for (const auto& row : rules[topic])
      if (holds(row["when"]["stage"], stage) && holds(row["when"]["class"], wine_class))
        found = (row["at most"] ? row["at most"] : row["at least"]).as<std::string>();
    return found;
  };
  EXPECT_EQ(figure("strength gained by enrichment", "wine", "still"), "0 % vol");
  EXPECT_EQ(figure("strength gained by enrichment", "wine", "sparkling"), "");
  EXPECT_EQ(figure("strength gained by tirage liqueur", "wine", "sparkling"), "1.5 % vol");
  EXPECT_EQ(figure("least overpressure", "wine", "sparkling"), "3 bar");
  EXPECT_EQ(figure("acidified before enrichment", "must", "still"), "0 meq/L");
}

// "sugar at most 9 g/L, sugar less acidity at most 2 g/L" of each row of a word, in order.
std::vector<std::string> figures(const std::string& rules, const std::string& word) {
  std::vector<std::string> out;
  for (const auto& row : file_of(rules)["sweetness terms"]) {
    if (row["term"].as<std::string>() != word) continue;
    std::string text;
    for (const char* key : {"sugar at least", "sugar above", "sugar at most", "sugar below", "sugar less acidity"})
      if (row[key]) text += (text.empty() ? "" : ", ") + std::string(key) + " " + row[key].as<std::string>();
    out.push_back(text);
  }
  return out;
}

using Words = std::vector<std::string>;

// OIV labelling standard, 3.1.6; Commission Delegated Regulation (EU) 2019/33, Annex III, Part B: dry as
// seen, the rest from memory.
// Outside check of sugar.fermentation: 6 values within exact, seen.
// Source: OIV labelling standard, 3.1.6; (EU) 2019/33, Annex III, dry.
// Outside check of sugar.fermentation: 16 values within exact, from memory.
// Source: OIV labelling standard, 3.1.6; (EU) 2019/33, Annex III, the others.
TEST(SugarLaw, WordsOfStillWine) {
  for (const char* rules : {"OIV", "EU"}) {
    EXPECT_EQ(figures(rules, "dry"),
              (Words{"sugar at most 4 g/L", "sugar at most 9 g/L, sugar less acidity at most 2 g/L"}));
    EXPECT_EQ(figures(rules, "medium dry"),
              (Words{"sugar above 4 g/L, sugar at most 12 g/L",
                     "sugar above 4 g/L, sugar at most 18 g/L, sugar less acidity at most 10 g/L"}));
    EXPECT_EQ(figures(rules, std::string(rules) == "EU" ? "medium" : "semi-sweet"),
              (Words{"sugar above 12 g/L, sugar at most 45 g/L"}));
    EXPECT_EQ(figures(rules, "sweet"), (Words{"sugar at least 45 g/L"}));
  }
}

// Regulation (EC) No 607/2009, Annex XIV, carried on in (EU) 2019/33, Annex III, Part A.
// Outside check of sugar.fermentation: 10 values within exact, seen.
// Source: Regulation (EC) 607/2009, Annex XIV.
TEST(SugarLaw, WordsOfSparklingWine) {
  EXPECT_EQ(figures("EU", "brut nature"), (Words{"sugar below 3 g/L"}));
  EXPECT_EQ(figures("EU", "extra brut"), (Words{"sugar at most 6 g/L"}));
  EXPECT_EQ(figures("EU", "brut"), (Words{"sugar below 12 g/L"}));
  EXPECT_EQ(figures("EU", "extra dry"), (Words{"sugar at least 12 g/L, sugar at most 17 g/L"}));
  EXPECT_EQ(figures("EU", "dry (sec)"), (Words{"sugar at least 17 g/L, sugar at most 32 g/L"}));
  EXPECT_EQ(figures("EU", "medium dry (demi-sec)"), (Words{"sugar at least 32 g/L, sugar at most 50 g/L"}));
  EXPECT_EQ(figures("EU", "sweet (doux)"), (Words{"sugar above 50 g/L"}));
}

}  // namespace sugar_law_test
}  // namespace vatwright
