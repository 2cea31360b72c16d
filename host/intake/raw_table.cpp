#include "host/intake/raw_table.hpp"

#include "host/batch/csv.hpp"
#include "units/nearest.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

namespace vatwright::intake {
namespace {

constexpr std::size_t most_rows = 200'000;

std::string without_blanks(const std::string& text) {
  const auto first = text.find_first_not_of(" \t");
  if (first == std::string::npos) return {};
  return text.substr(first, text.find_last_not_of(" \t") - first + 1);
}

bool nothing_in(const CsvRow& row) {
  return std::ranges::all_of(row.cells, [](const std::string& cell) { return without_blanks(cell).empty(); });
}

}  // namespace

RawTable::RawTable(const std::filesystem::path& file, const Mapping& mapping)
    : mapping_(mapping), name_(file.string()) {
  CsvReader reader(file, mapping.separator);
  CsvRow row;
  while (reader.next(row)) {
    if (nothing_in(row)) continue;
    for (auto& cell : row.cells) cell = without_blanks(cell);
    if (heads_.empty()) {
      heads_ = std::move(row.cells);
      continue;
    }
    if (row.cells.size() != heads_.size())
      throw BadInput(fmt::format(
          "{}, row {}: {} cells, expected {} as in the head\n  look at 'separator' in the mapping ({}), and at quotes",
          name_, row.line, row.cells.size(), heads_.size(),
          mapping.separator == '\t' ? std::string("tab") : fmt::format("'{}'", mapping.separator)));
    if (rows_.size() == most_rows)
      throw BadInput(fmt::format("{}: more than {} rows\n  split the table", name_, most_rows));
    rows_.push_back({row.line, std::move(row.cells)});
  }
  if (rows_.empty())
    throw BadInput(name_ + ": the table has no readings\n  expected a head, and a row for each reading");
}

std::size_t RawTable::column(const std::string& head, Mark mark) const {
  const auto at = std::ranges::find(heads_, head);
  if (at != heads_.end()) return static_cast<std::size_t>(at - heads_.begin());
  const std::vector<std::string_view> known(heads_.begin(), heads_.end());
  mapping_.document.fail(mark, name_ + " has no column " + in_quotes(head),
                         did_you_mean(head, known, "its head is: " + fmt::format("{}", fmt::join(heads_, ", "))));
}

std::string RawTable::number_text(const RawRow& row, std::size_t column) const {
  std::string text = row.cells[column];
  if (mapping_.decimal_comma) std::ranges::replace(text, ',', '.');
  return text;
}

}  // namespace vatwright::intake
