// A table of readings that a step takes: the same sheet as with the rows written in the recipe, and it carries them.
#include "host/batch/from_table.hpp"

#include "tests/folder.hpp"
#include "tests/host/house.hpp"
#include "tests/host/program.hpp"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <string>

namespace from_table_test {

using namespace vatwright::test;
using vatwright::BadInput;
using vatwright::Document;
using vatwright::with_readings;

const std::string in_block =
    "recipe: round\nsteps:\n  - ferment.round:\n      instrument: corrected\n      readings: from table\n";
const std::string in_flow = "recipe: round\nsteps:\n  - ferment.round: {readings: from table, instrument: corrected}\n";
const std::string table =
    "tank,date,density [kg/m³],original density [kg/m³]\nT1,2026-09-14,1080,1090\nT1,2026-09-15,1070,\n"
    "T2,2026-09-14,1080,1085\nT2,2026-09-15,1079.8,\n,,,\n";
const std::string rows =
    "[{tank: T1, date: 2026-09-14, density: 1080 kg/m³, original density: 1090 kg/m³}, {tank: T1, date: 2026-09-15, "
    "density: 1070 kg/m³}, {tank: T2, date: 2026-09-14, density: 1080 kg/m³, original density: 1085 kg/m³}, {tank: T2, "
    "date: 2026-09-15, density: 1079.8 kg/m³}]";

std::string replaced(std::string text, const std::string& what, const std::string& by) {
  return text.replace(text.find(what), what.size(), by);
}

nlohmann::json steps_of(const Said& said) {
  EXPECT_TRUE(said.status == 0 || said.status == 1) << said.err;
  auto steps = nlohmann::json::parse(said.out).at("steps");
  for (auto& step : steps) step.erase("inputs");
  return steps;
}

TEST(FromTable, TheSameSheetAsWithTheRowsWritten) {
  const Folder folder;
  const auto csv = folder.write("densities.csv", table).string();
  for (const auto& recipe : {in_block, in_flow}) {
    const auto asked = folder.write("asks.yaml", recipe).string();
    const auto written = folder.write("written.yaml", replaced(recipe, "from table", rows)).string();
    const auto sheet = call({"run", asked, "--lots", csv, "--format", "json"});
    EXPECT_EQ(steps_of(sheet), steps_of(call({"run", written, "--format", "json"})));
    const auto kept = folder.write("sheet.json", sheet.out).string();
    EXPECT_EQ(call({"verify", kept}).status, sheet.status);
  }
}

TEST(FromTable, TheSlowestComesFirst) {
  const auto there = source_dir / "recipes/round-by-table";
  const auto said =
      call({"run", (there / "recipe.yaml").string(), "--lots", (there / "densities.csv").string(), "--format", "json"});
  ASSERT_EQ(said.status, 0) << said.err;
  const auto step = nlohmann::json::parse(said.out).at("steps").at(0);
  EXPECT_EQ(step.at("tables").at(0).at("rows").at(0).at(0), "T2");
  EXPECT_NE(step.at("work").at(0).get<std::string>().find("T2"), std::string::npos);
}

void expect_refused(const std::string& recipe, const std::string& csv, const std::string& says) {
  const Folder folder;
  const auto said = call({"run", folder.write("r.yaml", recipe).string(), "--lots", folder.write("t.csv", csv).string(),
                          "--format", "text"});
  EXPECT_EQ(said.status, 2);
  EXPECT_NE(said.err.find(says), std::string::npos) << said.err;
}

TEST(FromTable, WhatIsAmissIsTold) {
  expect_refused(in_block, "", "the table is empty");
  expect_refused(in_block, "tank,date,density [kg/m³]\n", "no rows");
  expect_refused(in_block, "tank,date,density [kg/m³]\nT1,2026-09-14\n", "row 2: 2 cells, expected 3");
  expect_refused(in_block, "tank,date,densty [kg/m³]\nT1,2026-09-14,1080\n", "densty");
  expect_refused(in_block, "tank,date,density [hL]\nT1,2026-09-14,1080\n", "1080 hL");
  expect_refused(in_block + "  - ferment.round: {readings: from table}\n", table, "a second 'from table'");
}

// Whatever stands in a cell stays within its reading.
TEST(FromTable, CellsAreNoYaml) {
  const Folder folder;
  const auto recipe = Document::read("r.yaml", in_block);
  const auto csv = folder.write("t.csv", "tank,date\n\"T1\"\"}, {a: b\",2026-09-14\n\"x\\ny: [\",2026-09-15\n");
  const auto filled = with_readings(recipe, csv);
  ASSERT_TRUE(filled.has_value());
  const auto& readings = *filled->root().find("steps")->items.at(0).find("ferment.round")->find("readings");
  ASSERT_EQ(readings.items.size(), 2U);
  EXPECT_EQ(readings.items[0].find("tank")->text, "T1\"}, {a: b");
  EXPECT_EQ(readings.items[1].find("tank")->text, "x\\ny: [");
  EXPECT_FALSE(with_readings(Document::read("r.yaml", "steps: [a: {b: 'from table'}]\n"), csv).has_value());
}

}  // namespace from_table_test
