// One recipe on many lots: a lab's day of samples, a row each, in constant memory on all cores.
#pragma once

#include "host/batch/columns.hpp"
#include "host/batch/handled.hpp"
#include "host/bench/bench.hpp"

#include <functional>
#include <string>

namespace vatwright {

// One row of the table when it has been computed.
struct RowSheet {
  std::size_t line = 0;
  std::string lot;
  Worksheet sheet;    // steps and weigh-out list only
  std::string error;  // why there is nothing of it; else empty
};

struct BatchCount {
  std::size_t lots = 0, failing = 0, errors = 0;
};

// How rows become text; `row` is called on several threads at once.
class RowWriter {
 public:
  virtual std::string head() const = 0;
  virtual std::string row(const RowSheet& row) const = 0;
  virtual std::string foot(const BatchCount& count, const Handled& handled) const = 0;

 protected:
  RowWriter() = default;
  RowWriter(const RowWriter&) = default;
  RowWriter& operator=(const RowWriter&) = default;
  ~RowWriter() = default;
};

// The recipe has one lot, which says what holds for all, or none. Throws BadInput for that and for
// the table's head; what is amiss with a row is kept with the row.
class Batch {
 public:
  Batch(const Bench& bench, Recipe& recipe, const std::filesystem::path& table, const Draws& draws);

  const Prepared& ready() const { return ready_; }
  bool uncertain() const { return uncertain_; }

  // `write` is given the text in the order of the rows; `progress` the share that is done.
  BatchCount run(const RowWriter& writer, const std::function<void(const std::string&)>& write,
                 const std::function<void(double, const BatchCount&)>& progress);

 private:
  RowSheet compute(const CsvRow& row, Prepared& ready) const;

  const Bench& bench_;
  Apart apart_;
  Recipe& recipe_;
  Draws draws_;
  CsvReader reader_;
  std::vector<LotColumn> columns_;
  std::vector<CsvRow> first_rows_;  // looked at before the first is computed
  bool uncertain_ = false;
  Prepared ready_;
};

}  // namespace vatwright
