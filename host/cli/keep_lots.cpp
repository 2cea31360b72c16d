#include "host/cli/keep_lots.hpp"

#include "host/book/keep.hpp"
#include "host/files/printable.hpp"
#include "host/page/draft.hpp"
#include "host/sheet/writers.hpp"

#include <fmt/format.h>

#include <iostream>

namespace vatwright {
namespace {

// What the recipe says of every lot, and what the row says of its own, as the text of a recipe of that lot alone.
std::string recipe_of_row(const Draft& of_all, const std::vector<LotColumn>& columns, const CsvRow& row) {
  Draft draft = of_all;
  if (draft.lots.empty()) draft.lots.emplace_back();
  DraftPart& lot = draft.lots.front();
  const std::string stood_for_all = lot.name;
  lot.name = name_in(columns, row);
  for (auto& step : draft.steps)
    if (!step.lot.empty() && step.lot == stood_for_all) step.lot = lot.name;
  for (std::size_t i = 0; i < std::min(columns.size(), row.cells.size()); ++i) {
    const auto& column = columns[i];
    const auto& cell = row.cells[i];
    if (column.key == nullptr || cell.empty()) continue;
    lot.set(column.key->name, text_node_of(column.unit.empty() ? cell : fmt::format("{} {}", cell, column.unit)));
  }
  return text_of(draft).text;
}

}  // namespace

std::string RowsToKeep::row(const RowSheet& row) const {
  if (row.error.empty()) {
    const std::scoped_lock lock(one_at_a_time_);
    lines_.insert(row.line);
  }
  return writer_.row(row);
}

bool keep_rows(const BookOptions& options, const Bench& bench, const Recipe& recipe, const std::string& table,
               const std::set<std::size_t>& lines, const Draws& draws, const Carry& carry) try {
  const Draft of_all = read_draft(recipe.document.text());
  const auto at = book_hour(options);
  const auto from_book = book_lots_of(options);
  std::vector<std::pair<std::string, std::string>> sheets;  // where each is from, and its JSON
  CsvReader reader(table);
  CsvRow row;
  std::vector<LotColumn> columns;
  while (reader.next(row)) {
    if (columns.empty()) {
      columns = read_columns(table, row, recipe.acid_basis, carry);
      continue;
    }
    if (!lines.contains(row.line)) continue;
    // The file of the recipe is not the recipe of this row: it is named as what it is.
    const auto name = fmt::format("{}, row {} of {}", recipe.document.name(), row.line, table);
    const Recipe own = read_recipe(Document::read(name, recipe_of_row(of_all, columns, row)), &from_book);
    sheets.emplace_back(fmt::format("row {}", row.line), write_json(bench.run(own, draws)));
  }
  book::Book book(options.book(), book::Book::To::write);
  std::string refused;
  std::size_t kept = 0;
  for (const auto& [name, sheet] : sheets) {
    book::NewEntry entry;
    try {
      entry = book::keep(book, name, sheet, at.seconds);
    } catch (const BadInput& error) {
      refused += std::string(error.what()) + "\n";
      continue;
    }
    entry.at = at;
    entry.who = options.by;
    book.append(entry);
    ++kept;
  }
  const auto last = book.last();
  book.commit();
  std::cerr << printable(refused);
  if (kept > 0)
    std::cerr << fmt::format("kept in the book as the sheets {} to {}; 'vatwright book lots' shows their work\n",
                             last - static_cast<std::int64_t>(kept) + 1, last);
  return refused.empty();
} catch (const sql::Trouble& trouble) {
  book::refuse(options.book(), trouble);
}

}  // namespace vatwright
