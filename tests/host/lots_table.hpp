// A recipe on a table of lots, answered as a table.
#pragma once

#include "host/batch/csv.hpp"
#include "tests/host/house.hpp"

#include <gtest/gtest.h>

#include <stdexcept>
#include <string>
#include <vector>

namespace vatwright::test {

inline constexpr char recipe[] =
    "recipe: test\nrules: EU\nlots: {each: {stage: wine, class: still}}\nsteps:\n"
    "  - sulfite.addition: {target free SO2: 28 mg/L}\n";

struct Answer {
  Said said;
  std::vector<CsvRow> rows;
  std::string cell(std::size_t row, const std::string& head) const {
    for (std::size_t i = 0; i < rows.at(0).cells.size(); ++i)
      if (rows[0].cells[i] == head) return rows.at(row).cells.at(i);
    throw std::out_of_range(head);
  }
};

inline Answer run(const std::string& table, const std::string& text = recipe) {
  const Folder folder;
  const auto out = folder.path() / "out.csv";
  Answer answer{call({"run", folder.write("r.yaml", text).string(), "--lots", folder.write("lots.csv", table).string(),
                      "--format", "csv", "--out", out.string()}),
                {}};
  if (!fs::exists(out)) return answer;
  CsvReader reader(out);
  for (CsvRow row; reader.next(row);) answer.rows.push_back(row);
  return answer;
}

inline bool says(const std::string& text, const std::string& part) {
  if (text.find(part) != std::string::npos) return true;
  ADD_FAILURE() << text;
  return false;
}

// Its columns.
inline constexpr char head[] = "lot,volume [hL],pH,free SO2 [mg/L],total SO2 [mg/L],colour\r\n";

}  // namespace vatwright::test
