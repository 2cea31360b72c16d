// The rows of a table of lots in the cellar book, a sheet each.
#pragma once

#include "host/batch/batch.hpp"
#include "host/cli/book_commands.hpp"

#include <mutex>
#include <set>

namespace vatwright {

// Writes rows as another writer does, and remembers which came to a sheet.
class RowsToKeep final : public RowWriter {
 public:
  explicit RowsToKeep(const RowWriter& writer) : writer_(writer) {}
  bool verdict_leads() const override { return writer_.verdict_leads(); }
  std::string head(const BatchVerdict& verdict) const override { return writer_.head(verdict); }
  std::string row(const RowSheet& row) const override;
  std::string foot(const BatchVerdict& verdict) const override { return writer_.foot(verdict); }

  // When the last row is done.
  const std::set<std::size_t>& lines() const { return lines_; }

 private:
  const RowWriter& writer_;
  mutable std::mutex one_at_a_time_;
  mutable std::set<std::size_t> lines_;
};

// Each of those rows as a recipe of its own lot, whose sheet is kept, all at once; says on standard error what was kept
// and which rows the book refuses. False: it refuses some. Throws BadInput, and nothing is kept. They are computed once
// more, from the recipe that the sheet carries: from that it is verified.
bool keep_rows(const BookOptions& options, const Bench& bench, const Recipe& recipe, const std::string& table,
               const std::set<std::size_t>& lines, const Draws& draws, const Carry& carry);

}  // namespace vatwright
