// Comma-separated values (RFC 4180), read as a stream in bounded memory.
#pragma once

#include <filesystem>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

namespace vatwright {

struct CsvRow {
  std::size_t line = 0;  // its number among the rows, the head being 1
  std::vector<std::string> cells;
};

class CsvReader {
 public:
  // `separator`: what stands between the cells. Throws BadInput when the file cannot be read.
  explicit CsvReader(const std::filesystem::path& file, char separator = ',');
  // Of a text that stands in no file; `name` is what messages call it.
  CsvReader(std::string name, std::string text, char separator);
  CsvReader(const CsvReader&) = delete;
  CsvReader& operator=(const CsvReader&) = delete;
  ~CsvReader();

  // False at the end. Throws BadInput: a quote that is not closed, text after a quoted cell, a cell
  // or a row past the limits, a cell that is not UTF-8.
  bool next(CsvRow& row);

  // Part of the file that has been read, 0 to 1.
  double progress() const;

 private:
  struct Parser;
  std::unique_ptr<Parser> parser_;
};

// A cell as RFC 4180 writes it, quoted where it must be; words that a spreadsheet would run are made text.
std::string csv_cell(std::string_view text);

// Cells to a line with its end.
std::string csv_line(const std::vector<std::string>& cells);

}  // namespace vatwright
