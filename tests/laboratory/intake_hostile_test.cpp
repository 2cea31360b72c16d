// Tables and mappings as they come: other separators and encodings, quotes, blanks, slips; as properties.
#include "host/intake/intake.hpp"
#include "tests/host/house.hpp"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>

namespace vatwright::test {
namespace intake_hostile_test {

using intake::IntakeSheet;

TestHouse& house() {
  static TestHouse the_house;
  return the_house;
}

IntakeSheet taken(const std::string& table, const std::string& mapping) {
  const auto read = intake::read_mapping(Document::read("m.yaml", mapping));
  return intake::take_in(house().bench(), read, intake::RawTable("t.csv", table, read));
}

std::string refused(const std::string& table, const std::string& mapping) {
  try {
    taken(table, mapping);
  } catch (const BadInput& error) {
    return error.what();
  }
  return {};
}

constexpr char by_column[] = "mapping: m\nsample: S\nresults:\n  pH: {column: P}\n";

// The same readings, however they are written.
TEST(HostileTable, SeparatorsCommasQuotesAndBlanksDoNotMatter) {
  std::mt19937 random(7);
  const auto of = [&](int n) { return static_cast<int>(random() % static_cast<unsigned>(n)); };
  for (int turn = 0; turn < 60; ++turn) {
    const bool comma = of(2) == 1;
    const char separator = comma ? (of(2) == 1 ? ';' : '\t') : ",;\t"[of(3)];
    std::string table = of(2) == 1 ? "\xEF\xBB\xBF" : "";
    const std::string end = of(2) == 1 ? "\r\n" : "\n";
    const auto cell = [&](const std::string& text) {
      if (of(3) == 0) return "\"" + text + "\"";
      return separator == '\t' ? text : std::string(static_cast<std::size_t>(of(3)), ' ') + text;
    };
    table += "S" + std::string(1, separator) + "P" + end;
    std::vector<double> readings;
    for (int i = 0; i < 8; ++i) {
      const double ph = std::round((2.9 + 0.01 * of(100)) * 100) / 100;
      readings.push_back(ph);
      std::string text = fmt::format("{:.2f}", ph);
      if (comma) std::replace(text.begin(), text.end(), '.', ',');
      table += cell(fmt::format("W{}", i)) + separator + cell(text) + end;
      if (of(4) == 0) table += std::string(1, separator) + end;  // as a spreadsheet leaves it
    }
    const auto sheet =
        taken(table, std::string(by_column) + fmt::format("separator: '{}'\ndecimal comma: {}\n",
                                                          separator == '\t' ? "tab" : std::string(1, separator),
                                                          comma ? "yes" : "no"));
    ASSERT_EQ(sheet.samples.size(), readings.size()) << table;
    for (std::size_t i = 0; i < readings.size(); ++i) {
      ASSERT_TRUE(sheet.samples[i].answers[0].value) << table;
      EXPECT_NEAR(*sheet.samples[i].answers[0].value, readings[i], 1e-9) << table;
    }
  }
}

TEST(HostileTable, WhatIsNoTableIsRefusedInWords) {
  const std::pair<std::string, const char*> cases[] = {
      {"", "no readings"},
      {"S,P\n", "no readings"},
      {"S,P\nA,3.4,extra\n", "row 2: 3 cells, expected 2"},
      {"S,P\nA,\"3.4\n", "quote"},
      {"S,P\nA,3.4\nB\xE4,3.4\n", "not UTF-8"},
      {"S,P\nA," + std::string(70'000, '1') + "\n", "bytes"},
      {std::string(2'000, ',') + "\n", "cells"},
      {"S;P\nA;3.4\n", "no column 'S'"},
  };
  for (const auto& [table, words] : cases)
    EXPECT_NE(refused(table, by_column).find(words), std::string::npos)
        << words << ": " << refused(table, by_column).substr(0, 300);
}

// What is amiss with one cell stays with its sample.
TEST(HostileTable, ACellThatIsNoReadingSpoilsNoOther) {
  for (const auto* cell : {"abc", "3..4", "nan", "1e999", "-", "\"3,4\"", "3.4 mg/L", "99", "=3.4", "3.4 ± x"}) {
    const auto sheet = taken(fmt::format("S,P\nA,3.31\nB,{}\nC,3.33\n", cell), by_column);
    ASSERT_EQ(sheet.samples.size(), 3U);
    EXPECT_FALSE(sheet.samples[1].answers[0].may_be_used()) << cell;
    EXPECT_FALSE(sheet.samples[1].answers[0].amiss.empty()) << cell;
    EXPECT_TRUE(sheet.samples[0].answers[0].may_be_used() && sheet.samples[2].answers[0].may_be_used()) << cell;
  }
}

// Whatever is amiss in a mapping is shown with its file, line and column.
TEST(HostileMapping, ASlipHasItsPlace) {
  const std::pair<std::string, int> cases[] = {
      {"mapping: m\nsample: S\nresult: {}\n", 3},
      {"mapping: m\nsample: S\nresults:\n  pH: {colum: P}\n", 4},
      {"mapping: m\nsample: S\nresults:\n  pH: {column: Q}\n", 4},
      {"mapping: m\nsample: T\nresults:\n  pH: {column: P}\n", 2},
      {"mapping: m\nsample: S\nresults:\n  pH:\n    column: P\n    unit: mg/L\n", 4},
      {"mapping: m\nsample: S\nseparator: '|'\nresults:\n  pH: {column: P}\n", 3},
      {"mapping: m\nsample: S\ndecimal comma: perhaps\nresults:\n  pH: {column: P}\n", 3},
      {"mapping: m\nsample: S\ndate: Day\nresults:\n  pH: {column: P}\n", 3},
      {"mapping: m\nsample: S\nacid basis: vinegar\nresults:\n  pH: {column: P}\n", 3},
      {"mapping: m\nsample: S\nresults:\n  pH: {column: P}\ncontrols: {A: {ph: 3.4 ± 0.1}}\n", 5},
      {"mapping: m\nsample: S\nresults:\n  pH: {column: P}\ncontrols: {A: {pH: 3.4 pH}}\n", 5},
      {"mapping: m\nsample: S\nresults:\n  x:\n    calculation: acid.titration\n", 4},
      {"mapping: m\nsample: S\nresults:\n  x:\n    calculation: acid.titration\n    columns: {titrnt: {column: P, "
       "unit: "
       "mL}}\n",
       4},
  };
  for (const auto& [mapping, line] : cases) {
    const auto said = refused("S,P\nA,3.4\n", mapping);
    EXPECT_TRUE(said.starts_with(fmt::format("m.yaml:{}:", line))) << mapping << said;
  }
}

}  // namespace intake_hostile_test
}  // namespace vatwright::test
