#include "host/intake/raw_table.hpp"

#include "units/nearest.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <chrono>
#include <utility>

namespace vatwright::intake {
namespace {

constexpr std::size_t most_rows = 200'000;

std::string without_blanks(const std::string& text) {
  const auto first = text.find_first_not_of(" \t");
  if (first == std::string::npos) return {};
  return text.substr(first, text.find_last_not_of(" \t") - first + 1);
}

// "2026-09-14" or "14.09.2026" as the first; empty for what is neither. With a slash nobody knows which is the month.
std::string day_of_cell(const std::string& cell) {
  const char between = cell.find('.') == std::string::npos ? '-' : '.';
  std::array<unsigned, 3> parts{};
  const char* at = cell.data();
  const char* const end = at + cell.size();
  for (auto& part : parts) {
    const auto read = std::from_chars(at, end, part);
    const bool last = &part == &parts.back();
    if (read.ec != std::errc{} || (last ? read.ptr != end : read.ptr == end || *read.ptr != between)) return {};
    at = last ? end : read.ptr + 1;
  }
  if (between == '.') std::swap(parts.front(), parts.back());
  constexpr unsigned first_year = 1900, last_year = 9999;
  if (parts[0] < first_year || parts[0] > last_year) return {};
  const std::chrono::year_month_day day{std::chrono::year(static_cast<int>(parts[0])), std::chrono::month(parts[1]),
                                        std::chrono::day(parts[2])};
  return day.ok() ? fmt::format("{:04}-{:02}-{:02}", parts[0], parts[1], parts[2]) : std::string();
}

bool nothing_in(const CsvRow& row) {
  return std::all_of(row.cells.begin(), row.cells.end(),
                     [](const std::string& cell) { return without_blanks(cell).empty(); });
}

}  // namespace

RawTable::RawTable(const std::filesystem::path& file, const Mapping& mapping)
    : mapping_(mapping), name_(file.string()) {
  CsvReader reader(file, mapping.separator);
  read(reader);
}

RawTable::RawTable(const std::string& name, const std::string& text, const Mapping& mapping)
    : mapping_(mapping), name_(name) {
  CsvReader reader(name, text, mapping.separator);
  read(reader);
}

void RawTable::read(CsvReader& reader) {
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
          mapping_.separator == '\t' ? std::string("tab") : fmt::format("'{}'", mapping_.separator)));
    if (rows_.size() == most_rows)
      throw BadInput(fmt::format("{}: more than {} rows\n  split the table", name_, most_rows));
    rows_.push_back({row.line, std::move(row.cells)});
  }
  if (rows_.empty())
    throw BadInput(name_ + ": the table has no readings\n  expected a head, and a row for each reading");
  if (!mapping_.date.empty()) read_days();
}

// A row without a day is of the day above it, as people write tables.
void RawTable::read_days() {
  const std::size_t days = column(mapping_.date, mapping_.date_mark);
  std::string last;
  for (auto& row : rows_) {
    const std::string& cell = row.cells[days];
    if (!cell.empty()) last = day_of_cell(cell);
    if (last.empty())
      throw BadInput(fmt::format("{}, row {}: {} is no day\n  write such as '2026-09-14' or '14.09.2026'", name_,
                                 row.line, cell.empty() ? "an empty cell" : in_quotes(cell)));
    row.day = last;
  }
}

std::size_t RawTable::column(const std::string& head, Mark mark) const {
  const auto at = std::find(heads_.begin(), heads_.end(), head);
  if (at != heads_.end()) return static_cast<std::size_t>(at - heads_.begin());
  const std::vector<std::string_view> known(heads_.begin(), heads_.end());
  mapping_.document.fail(mark, name_ + " has no column " + in_quotes(head),
                         did_you_mean(head, known, "its head is: " + fmt::format("{}", fmt::join(heads_, ", "))));
}

std::string RawTable::number_text(const RawRow& row, std::size_t column) const {
  std::string text = row.cells[column];
  if (mapping_.decimal_comma) std::replace(text.begin(), text.end(), ',', '.');
  return text;
}

}  // namespace vatwright::intake
