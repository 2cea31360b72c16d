// One recipe on many lots: a lab's day of samples, a row each, on all cores; of the rows that are
// done, memory holds nothing but a number for the name of each lot, and the names that a head gives.
#pragma once

#include "host/batch/columns.hpp"
#include "host/batch/handled.hpp"
#include "host/bench/bench.hpp"

#include <boost/unordered/unordered_flat_map.hpp>

#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace vatwright {

// One row of the table as it was read.
struct RowRead {
  CsvRow row;
  std::size_t earlier = 0;  // the row that has this lot already; 0: none has
};

// One row of the table when it has been computed.
struct RowSheet {
  std::size_t line = 0;
  std::string lot;
  Worksheet sheet;                     // steps and weigh-out list only
  std::vector<std::string> carried{};  // beside the carried heads
  std::string error;                   // why there is nothing of it; else empty
  bool unusual = false;  // a reading is outside the usual: the row is held back where that decides what to add
};

struct BatchCount {
  // Each lot fails, is refused (an error), had nothing that could be checked, or passes.
  std::size_t lots = 0, failing = 0, errors = 0, unchecked = 0;
  std::size_t unusual = 0;  // of them all: with a reading outside the usual

  std::size_t passing() const { return lots - failing - errors - unchecked; }
};

// A row of the table, and its lot; empty where it names none.
struct RowName {
  std::size_t line = 0;
  std::string lot;
};

// What is known when the last row is done.
struct BatchVerdict {
  BatchCount count;
  std::vector<RowName> failing, refused, unusual;  // for a writer whose head names them
  Handled handled;

  void join(BatchVerdict&& later);
};

// How rows become text; `row` is called on several threads at once.
class RowWriter {
 public:
  // Whether the head tells how the rows came out: they are then held back until the last is done.
  virtual bool verdict_leads() const = 0;
  virtual std::string head(const BatchVerdict& verdict) const = 0;
  virtual std::string row(const RowSheet& row) const = 0;
  virtual std::string foot(const BatchVerdict& verdict) const = 0;

 protected:
  RowWriter() = default;
  RowWriter(const RowWriter&) = default;
  RowWriter& operator=(const RowWriter&) = default;
  ~RowWriter() = default;
};

// Where the rows come from.
struct LotTable {
  std::filesystem::path file;
  std::optional<std::string> text{};  // of a table that stands in no file; `file` is then what messages call it
  bool units_in_cells = false;        // a head needs no unit, since each cell has its own
  Carry carry{};
  const LotSource* source = nullptr;  // where the recipe says 'from book' of its lot: each row's lot comes from there
};

// What a recipe for a table is read with: its one lot stands for all, and which lot that is a row says.
class EachFromBook final : public LotSource {
 public:
  StoredLot find(const std::string& lot) const override;
  Lessons lessons() const override;
};

// The recipe has one lot, which says what holds for all, or none. Throws BadInput for that and for
// the table's head; what is amiss with a row is kept with the row.
class Batch {
 public:
  Batch(const Bench& bench, Recipe& recipe, const LotTable& table, const Draws& draws);

  const Prepared& ready() const { return ready_; }
  bool uncertain() const { return uncertain_; }
  std::vector<std::string> carried_heads() const;

  // `write` is given the text in the order of the rows; `progress` the share that is done.
  BatchCount run(const RowWriter& writer, const std::function<void(const std::string&)>& write,
                 const std::function<void(double, const BatchCount&)>& progress);

 private:
  std::vector<RowRead> next_rows();
  void hold_back_unusual(RowSheet& row) const;
  RowSheet compute(const RowRead& read, Prepared& ready) const;
  void take_from_book(const RowLot& row, LotState& lot) const;

  const Bench& bench_;
  Apart apart_;
  Recipe& recipe_;
  Draws draws_;
  CsvReader reader_;
  std::vector<LotColumn> columns_;
  // The row of each lot so far, by the hash of its name, which takes a fifth of the memory: among a
  // million lots the odds are 1 to 37 million that two names have one hash and a row is refused for it.
  boost::unordered_flat_map<std::size_t, std::uint32_t> named_;
  std::vector<RowRead> first_rows_;  // looked at before the first is computed
  bool uncertain_ = false;
  const LotSource* source_;  // nullptr: a row says all that the recipe does not
  Prepared ready_;
};

}  // namespace vatwright
