// One result of a mapping, made ready to be run on the readings of one sample after the other.
#pragma once

#include "host/bench/bench.hpp"
#include "host/bench/prepared.hpp"
#include "host/intake/intake.hpp"

#include <memory>

namespace vatwright::intake {

// The readings of one sample for one result: rows of the table, and of each the cells that repeat each other.
using SampleRows = std::vector<const RawRow*>;

class Gauge {
 public:
  // `first`: rows that are of this result, of which the first that is in order shows that calculation and inputs fit.
  Gauge(const Bench& bench, const Mapping& mapping, const MappedResult& result, const RawTable& table,
        const SampleRows& first);

  // Never throws for what one sample has: that stands in the answer.
  Answer answer(const SampleRows& rows);

  const AnswerColumn& column() const { return column_; }
  const std::set<const Substance*>& reagents() const { return reagents_; }

 private:
  struct Where {
    const MappedInput* mapped;
    std::vector<std::size_t> columns;
    const Input* input = nullptr;  // of the calculation
  };
  struct Repeat {
    const RawRow* row;
    std::size_t which;  // of several columns that repeat each other
  };
  void make_ready(const Bench& bench, const SampleRows& first);
  void find_inputs();
  Recipe recipe_of(const Repeat& first) const;
  Node step_of(const Repeat& first) const;
  std::string text_of(const Where& where, const Repeat& repeat) const;
  std::vector<Repeat> repeats_in(const SampleRows& rows) const;
  void set(const std::vector<Repeat>& repeats);
  Value value_of(const Where& where, const Repeat& repeat) const;
  void take(const Worksheet& sheet, Answer& answer);
  void take_facts(const StepSheet& step, Answer& answer) const;

  const Bench& bench_;
  const Mapping& mapping_;
  const MappedResult& result_;
  const RawTable& table_;
  std::vector<Where> where_;
  std::unique_ptr<Recipe> recipe_;
  std::unique_ptr<Prepared> ready_;
  const Input* rows_input_ = nullptr;
  const Input* fact_ = nullptr;  // of a result that stands in a column
  AnswerColumn column_;
  std::set<const Substance*> reagents_;
};

}  // namespace vatwright::intake
