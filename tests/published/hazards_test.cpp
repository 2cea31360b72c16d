// host/substances/substances.yaml against the harmonised hazard classes, written here a second time. Reads
// the file with yaml-cpp alone, so that a slip in the host's own reader cannot hide one in the data.
#include <gtest/gtest.h>
#include <yaml-cpp/yaml.h>

#include <map>
#include <set>
#include <string>

namespace vatwright {
namespace hazards_test {

using Codes = std::set<std::string>;

const YAML::Node& catalogue() {
  static const YAML::Node file = YAML::LoadFile(VATWRIGHT_SOURCE_DIR "/host/substances/substances.yaml");
  return file;
}

// Those of an entry; only the ones said to have been seen, where that is asked.
Codes codes_of(const std::string& substance, bool seen_only = false) {
  Codes out;
  for (const auto& hazard : catalogue()[substance]["hazards"])
    if (!seen_only || hazard["standing"].as<std::string>() == "seen") out.insert(hazard["code"].as<std::string>());
  return out;
}

// Annex VI, Table 3 of Regulation (EC) No 1272/2008, consolidation of 1 May 2026, by index number: 605-001-00-5,
// 604-076-00-1, 029-023-00-4, 008-003-00-9, 053-001-00-3, 016-063-00-2, 016-011-00-9, 607-743-00-5, 607-750-00-3,
// 607-146-00-X, 019-003-00-3, 011-002-00-6, 015-011-00-6, 603-002-00-5.
const std::map<std::string, Codes> harmonised{
    {"formaldehyde solution", {"H350", "H341", "H330", "H302", "H314", "H317"}},
    {"phenolphthalein", {"H350", "H341", "H361f"}},
    {"copper sulfate pentahydrate", {"H302", "H318", "H400", "H410"}},
    {"hydrogen peroxide solution", {"H271", "H302", "H332", "H314"}},
    {"iodine solution", {"H312", "H332", "H400"}},
    {"sodium metabisulfite", {"H302", "H318"}},
    {"sulfur dioxide gas", {"H280", "H331", "H370", "H314"}},
    {"lactic acid", {"H314", "H318"}},
    {"citric acid", {"H319", "H335"}},
    {"citric acid monohydrate", {"H319", "H335"}},
    {"fumaric acid", {"H319"}},
    {"potassium sorbate", {"H319"}},
    {"sodium hydroxide solution", {"H314"}},
    {"phosphoric acid", {"H314"}},
    {"ethanol", {"H225"}},
    {"grape spirit", {"H225"}}};

// Outside check of substances: 38 values within no tolerance, seen.
// Source: Regulation (EC) No 1272/2008, Annex VI, Table 3.
TEST(Hazards, NoneOfTheHarmonisedClassesIsMissing) {
  for (const auto& [substance, codes] : harmonised) {
    const Codes ours = codes_of(substance);
    for (const auto& code : codes) EXPECT_TRUE(ours.contains(code)) << substance << " lacks " << code;
  }
}

// Codes that the harmonised row of formaldehyde no longer has, or has in a graver class.
TEST(Hazards, FormaldehydeHasNoWeakerClassBeside) {
  for (const char* code : {"H331", "H301", "H311"})
    EXPECT_FALSE(codes_of("formaldehyde solution").contains(code)) << code;
}

// Statements of these substances may be said to be seen only where the table has them. Those of the rest were read
// in places of their own, or not at all.
TEST(Hazards, NothingIsCalledSeenThatTheTableDoesNotHave) {
  for (const auto& [substance, codes] : harmonised)
    for (const auto& code : codes_of(substance, true)) EXPECT_TRUE(codes.contains(code)) << substance << ": " << code;
}

// A hazard that harms a person at once has its first aid, and help is always called.
TEST(Hazards, EveryClassHasItsFirstAid) {
  Codes answered;
  for (const auto& row : catalogue()["first aid"]) {
    EXPECT_TRUE(row["line"].as<std::string>().ends_with("and call for help")) << row["line"];
    for (const auto& code : row["codes"]) answered.insert(code.as<std::string>());
  }
  // Not at once: reproduction, cancer, long use, water life; and what harms no person by itself.
  const Codes later{"H280", "H290", "H341", "H350", "H361f", "H373", "H400", "H410", "H411"};
  for (const auto& entry : catalogue()) {
    if (!entry.second.IsMap()) continue;  // the first aid itself
    for (const auto& hazard : entry.second["hazards"]) {
      const auto code = hazard["code"].as<std::string>();
      EXPECT_NE(answered.contains(code), later.contains(code)) << entry.first << ": " << code;
    }
  }
}

// What acid drives toxic gas off is dissolved in water alone.
TEST(Hazards, WhatMustBeKeptFromAcidIsNotDissolvedInWine) {
  int met = 0;
  for (const auto& entry : catalogue()) {
    if (!entry.second.IsMap() || !codes_of(entry.first.as<std::string>()).contains("EUH031")) continue;
    ++met;
    for (const auto& line : entry.second["handling"]) {
      const auto text = line.as<std::string>();
      if (!text.starts_with("Dissolve")) continue;
      EXPECT_NE(text.find("water"), std::string::npos) << text;
      EXPECT_EQ(text.find("or wine"), std::string::npos) << text;
    }
  }
  EXPECT_GE(met, 2);
}

}  // namespace hazards_test
}  // namespace vatwright
