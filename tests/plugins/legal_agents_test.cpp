// Which agents the laws name for a purpose: the section `agents:` of host/rules/*.yaml against lists
// written here a second time, read with yaml-cpp alone; and every row run through its calculation.
#include "host/sheet/csv.hpp"
#include "host/sheet/phrases.hpp"
#include "host/sheet/writers.hpp"
#include "tests/plugins/run.hpp"

#include <yaml-cpp/yaml.h>

#include <algorithm>
#include <set>
#include <vector>

namespace vatwright::test {
namespace legal_agents_test {

using Names = std::set<std::string>;

YAML::Node agents(const std::string& rules) {
  return YAML::LoadFile(VATWRIGHT_SOURCE_DIR "/host/rules/" + rules + ".yaml")["agents"];
}

// Of a lot that was not stretched with water.
bool holds_at(const YAML::Node& row, const std::string& stage) {
  if (row["when"] && row["when"]["amelioration"]) return false;
  return !row["when"] || !row["when"]["stage"] || row["when"]["stage"].as<std::string>() == stage;
}

// Of all rows that hold at that stage, what each of them names; empty when none does.
Names named_for(const std::string& rules, const std::string& purpose, const std::string& stage) {
  Names out;
  bool first = true;
  for (const auto& row : agents(rules)) {
    if (row["to"].as<std::string>() != purpose || !row["only"] || !holds_at(row, stage)) continue;
    const auto list = row["only"].as<std::vector<std::string>>();
    Names names(list.begin(), list.end());
    if (!first) std::erase_if(names, [&](const std::string& name) { return !out.contains(name); });
    out = std::move(names);
    first = false;
  }
  return out;
}

struct List {
  const char *rules, *purpose, *stage;
  Names named;
};

// (EU) 2019/934, Annex I, Part A, Table 2, rows 1.1 to 1.7; citric acid in wine only as read in SSI 2024/11, row 1.10.
// 203/2012, Annex, point 12: lactic and tartaric acid only. 27 CFR 24.182(b), 24.177 and 24.246 (2015).
// Outside check of acid.addition, acid.reduction, sulfite.addition, sugar.enrichment: 9 values within 0.1 %, seen.
// Source: Delegated Regulation (EU) 2019/934; Implementing Regulation (EU) 203/2012; 27 CFR 24.182, 24.177 and 24.246.
// Outside check of sulfite.addition: 1 value within 0.1 %, from memory.
// Source: Delegated Regulation (EU) 2019/934, Annex I, Part A, sulfur dioxide.
TEST(LegalAgents, AsTheLawsNameThem) {
  const Names sulfur{"potassium metabisulfite", "sulfur dioxide gas", "sulfur dioxide solution"};
  const List lists[] = {
      {"EU", "acidify", "must", {"tartaric acid", "malic acid", "lactic acid"}},
      {"EU", "acidify", "wine", {"tartaric acid", "malic acid", "lactic acid", "citric acid"}},
      {"EU",
       "deacidify",
       "must",
       {"calcium carbonate", "potassium bicarbonate", "potassium tartrate", "calcium tartrate"}},
      {"EU", "sulfite", "wine", sulfur},
      {"EU organic", "acidify", "must", {"tartaric acid", "lactic acid"}},
      {"EU organic", "acidify", "wine", {"tartaric acid", "lactic acid"}},
      {"US", "acidify", "must", {"tartaric acid", "malic acid"}},
      {"US", "acidify", "wine", {"tartaric acid", "malic acid", "lactic acid", "citric acid", "fumaric acid"}},
      {"US", "sulfite", "must", sulfur},
      {"US", "enrich", "must", {"sucrose", "rectified concentrated must"}},
      {"US", "sweeten", "wine", {"sucrose", "rectified concentrated must"}},
      {"EU", "sweeten", "wine", {"rectified concentrated must"}},
  };
  for (const auto& list : lists)
    EXPECT_EQ(named_for(list.rules, list.purpose, list.stage), list.named)
        << list.rules << ", " << list.purpose << ", " << list.stage;
}

// A step with each agent that its calculation takes: a small dose, so that no figure is in the way.
struct Step {
  const char *purpose, *agent, *text;
};
const Step steps[] = {
    {"acidify", "tartaric acid", "acid.addition: {target pH: 3.38, substance: tartaric acid}"},
    {"acidify", "malic acid", "acid.addition: {target pH: 3.38, substance: malic acid}"},
    {"acidify", "lactic acid", "acid.addition: {target pH: 3.38, substance: lactic acid, strength: 80 % mass}"},
    {"acidify", "citric acid", "acid.addition: {target pH: 3.38, substance: citric acid}"},
    {"acidify", "citric acid", "acid.addition: {target pH: 3.38, substance: citric acid monohydrate}"},
    {"deacidify", "calcium carbonate", "acid.reduction: {target pH: 3.46, substance: calcium carbonate}"},
    {"deacidify", "calcium carbonate", "acid.reduction: {target pH: 3.46, substance: double-salt treatment}"},
    {"deacidify", "potassium bicarbonate", "acid.reduction: {target pH: 3.46, substance: potassium bicarbonate}"},
    {"deacidify", "potassium carbonate", "acid.reduction: {target pH: 3.46, substance: potassium carbonate}"},
    {"sulfite", "potassium metabisulfite", "sulfite.addition: {target free SO2: 24 mg/L}"},
    {"sulfite", "sodium metabisulfite",
     "sulfite.addition: {target free SO2: 24 mg/L, substance: sodium metabisulfite}"},
    {"sulfite", "sulfur dioxide gas", "sulfite.addition: {target free SO2: 24 mg/L, substance: sulfur dioxide gas}"},
    {"sulfite", "sulfur dioxide solution",
     "sulfite.addition: {target free SO2: 24 mg/L, substance: sulfur dioxide solution, strength: 60 g/L}"},
    {"nourish", "diammonium phosphate", "nutrient.nitrogen: {target nitrogen: 100 mg/L as nitrogen}"},
    {"nourish", "ammonium sulfate",
     "nutrient.nitrogen: {target nitrogen: 100 mg/L as nitrogen, substance: ammonium sulfate}"},
    {"sweeten", "sucrose", "sugar.sweetening: {substance: sucrose, target sugar: 6 g/L}"},
    {"sweeten", "rectified concentrated must", "sugar.sweetening: {strength: 65 °Brix, target sugar: 6 g/L}"},
    {"enrich", "sucrose", "sugar.enrichment: {substance: sucrose, target potential alcohol: 11.3 % vol}"},
};

std::string lot_at(const std::string& stage) {
  const std::string lot =
      "volume: 48 hL, class: still, colour: white, zone: C I, pH: 3.42, titratable acidity: 5.6 g/L as tartaric acid, "
      "tartaric acid: 2.5 g/L, malic acid: 1.4 g/L, potassium: 900 mg/L, free SO2: 14 mg/L, total SO2: 40 mg/L, "
      "stage: " +
      stage;
  return lot + (stage == "must" ? ", sugar: 185 g/L, assimilable nitrogen: 60 mg/L as nitrogen"
                                : ", sugar: 1.8 g/L, ethanol: 12 % vol");
}

// Every row of every set: what it names is dosed, what it does not name is refused with the list.
TEST(LegalAgents, WhatIsNotNamedIsRefused) {
  int refused = 0, dosed = 0;
  for (const std::string rules : {"EU", "EU organic", "US"})
    for (const std::string stage : {"must", "wine"})
      for (const auto& [purpose, agent, text] : steps) {
        const Names named = named_for(rules, purpose, stage);
        if (named.empty()) continue;
        if (stage == "wine" && (has(purpose, "enrich") || has(purpose, "nourish"))) continue;  // of must only
        if (stage == "must" && has(purpose, "sweeten")) continue;                              // of wine only
        SCOPED_TRACE(rules + ", " + stage + ", " + text);
        const auto step = run_step(lot_at(stage), text, rules);
        const auto* law = check(step, std::string(agent) + " to " + purpose + ", " + rules);
        if (named.contains(agent)) {
          EXPECT_EQ(law, nullptr);
          EXPECT_FALSE(step.outcome.additions.empty());
          ++dosed;
          continue;
        }
        ++refused;
        EXPECT_TRUE(step.outcome.additions.empty());
        EXPECT_TRUE(step.outcome.changes.empty());
        ASSERT_NE(law, nullptr);
        EXPECT_FALSE(law->holds);
        for (const auto& name : named) EXPECT_TRUE(has(law->remedy, name)) << law->remedy;
      }
  EXPECT_GT(refused, 8);
  EXPECT_GT(dosed, 20);
}

// What the lot leaves open is refused where one of the rows that might hold does not know the agent.
TEST(LegalAgents, AnUnsaidStageIsNoPermission) {
  const auto step = run_step("volume: 48 hL, pH: 3.42, titratable acidity: 5.6 g/L as tartaric acid, ethanol: 12 % vol",
                             "acid.addition: {target pH: 3.38, substance: citric acid}", "EU");
  EXPECT_TRUE(step.outcome.additions.empty());
  const auto* law = check(step, "citric acid to acidify, EU");
  ASSERT_NE(law, nullptr);
  EXPECT_TRUE(has(law->name, "not stated: stage")) << law->name;
}

// 1308/2013, Annex VIII, Part I, C, points 1 and 6 (Council document 7329/13): zones A and B in exceptional years only.
TEST(LegalAgents, AnAuthorisationIsNamed) {
  const auto acid_in = [](const std::string& zone) {
    return run_step(
        "volume: 48 hL, stage: must, sugar: 180 g/L, pH: 3.42, titratable acidity: 5.6 g/L as tartaric acid" + zone,
        "acid.addition: {target pH: 3.38}", "EU");
  };
  for (const char* zone : {", zone: A", ", zone: B", ""}) {
    const auto step = acid_in(zone);
    const auto* first = check(step, "to acidify, under EU");
    ASSERT_NE(first, nullptr) << zone;
    EXPECT_TRUE(has(first->authorised_by, "the Member State"));
    EXPECT_EQ(has(first->name, "not stated: zone"), *zone == 0) << first->name;
    EXPECT_FALSE(step.outcome.additions.empty()) << "it stands in nobody's way";
  }
  EXPECT_EQ(check(acid_in(", zone: C II"), "to acidify, under EU"), nullptr);

  // Neither holds nor fails, and is counted by itself; in every form of the sheet.
  static TestHouse house;
  const auto sheet = house.run(
      "recipe: test\nrules: EU\nlots: {A: {volume: 48 hL, stage: must, zone: A, sugar: 180 g/L, pH: 3.42, titratable "
      "acidity: 5.6 g/L as tartaric acid}}\nsteps:\n  - acid.addition: {target pH: 3.38}\n");
  const auto count = count_checks(sheet);
  EXPECT_EQ(count.asking, 1U);
  EXPECT_EQ(count.failing, 0U);
  EXPECT_EQ(count.all + 1, sheet.steps.at(0).outcome.checks.size());
  EXPECT_TRUE(has(count.words(), "; 1 needs an authorisation")) << count.words();
  for (const auto& written : {write_text(sheet, {}), write_html(sheet), write_csv(sheet)})
    EXPECT_TRUE(has(written, "needs an authorisation"));
  EXPECT_TRUE(has(write_json(sheet), "\"needs an authorisation by\""));
}

// 27 CFR 24.182(a): tartaric acid alone once a must was stretched, and no lower than pH 3.0.
TEST(LegalAgents, AfterAmelioration) {
  const auto acid = [](const std::string& of_it, const std::string& step) {
    return run_step(lot_at("wine") + of_it, "acid.addition: {" + step + "}", "US");
  };
  for (const char* other : {"malic acid", "citric acid"}) {
    const std::string step = std::string("target pH: 3.38, substance: ") + other;
    EXPECT_FALSE(acid("", step).outcome.additions.empty()) << "a lot that does not say was not stretched";
    EXPECT_FALSE(acid(", amelioration: 0 %", step).outcome.additions.empty());
    const auto refused = acid(", amelioration: 10 %", step);
    EXPECT_TRUE(refused.outcome.additions.empty());
    EXPECT_NE(check(refused, std::string(other) + " to acidify, US"), nullptr);
  }
  EXPECT_FALSE(acid(", amelioration: 10 %", "target pH: 3.05").outcome.additions.empty());
  EXPECT_TRUE(acid(", amelioration: 10 %", "target pH: 2.95").outcome.additions.empty());
}

// The label: EU above 10 mg/L of total sulfur dioxide, US and OIV from 10 mg/L on.
TEST(LegalAgents, ContainsSulfitesIsSaid) {
  const auto says = [](const std::string& total, const std::string& rules) {
    const auto step =
        run_step("pH: 3.4, stage: wine, free SO2: 2 mg/L, total SO2: " + total, "sulfite.molecular: {}", rules);
    return noted(step, "'contains sulfites'");
  };
  for (const char* rules : {"EU", "US", "OIV"}) {
    EXPECT_FALSE(says("9.9 mg/L", rules)) << rules;
    EXPECT_EQ(says("10 mg/L", rules), std::string_view(rules) != "EU") << rules;
    EXPECT_TRUE(says("10.1 mg/L", rules)) << rules;
  }
}

}  // namespace legal_agents_test
}  // namespace vatwright::test
