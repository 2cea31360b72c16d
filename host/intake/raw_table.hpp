// A laboratory's table as it stands: a head, and cells; the decimal comma made a point where the mapping declares one.
#pragma once

#include "host/batch/csv.hpp"
#include "host/intake/mapping.hpp"

#include <filesystem>
#include <map>

namespace vatwright::intake {

struct RawRow {
  std::size_t line = 0;  // the head is 1
  std::vector<std::string> cells;
  std::string day{};  // "2026-09-14"; empty where the mapping names no column of days
};

class RawTable {
 public:
  // Throws BadInput: what cannot be read, a row of another width, a column of the mapping that is not there, a day that
  // is none.
  RawTable(const std::filesystem::path& file, const Mapping& mapping);
  // Of a text that stands in no file.
  RawTable(const std::string& name, const std::string& text, const Mapping& mapping);

  const std::string& name() const { return name_; }
  const std::vector<std::string>& heads() const { return heads_; }
  const std::vector<RawRow>& rows() const { return rows_; }

  // The column of that head; throws BadInput at the mapping's place, with the nearest.
  std::size_t column(const std::string& head, Mark mark) const;

  // A cell as a number is read: without blanks around it, with a point.
  std::string number_text(const RawRow& row, std::size_t column) const;

 private:
  void read(CsvReader& reader);
  void read_days();

  const Mapping& mapping_;
  std::string name_;
  std::vector<std::string> heads_;
  std::vector<RawRow> rows_;
};

}  // namespace vatwright::intake
