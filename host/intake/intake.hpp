// Raw readings of a laboratory to results that may be used. The readings of a sample are gathered by the mapping and
// given to the calculations, which judge whether they agree; control samples say whether the laboratory is right.
#pragma once

#include "host/bench/bench.hpp"
#include "host/intake/mapping.hpp"
#include "host/intake/raw_table.hpp"

#include <functional>
#include <optional>
#include <set>
#include <string>
#include <vector>

namespace vatwright::intake {

// What a result makes known of a lot.
struct Fact {
  const Input* key;
  Value value;  // with its ±
};

// One result of one sample.
struct Answer {
  std::size_t readings = 0;     // 0: the sample was not read for it
  std::optional<double> value;  // in the unit of the column; nothing: none may be reported
  double standard = 0;
  std::vector<std::string> amiss;  // what to do, or what is wrong
  bool held_back = false;          // a control sample says so
  std::vector<Fact> facts;
  std::string day{};  // on which it was read; empty: nobody said

  bool may_be_used() const { return readings == 0 || (value && amiss.empty() && !held_back); }
};

struct SampleAnswers {
  std::string name;
  bool control = false;
  std::vector<Answer> answers;       // beside the columns
  std::vector<std::string> carried;  // beside the carried heads
};

struct AnswerColumn {
  std::string name, unit;
  int decimals = 2;
  std::string how;  // the calculation and what was the same for all
};

// A control sample on its last day, against its past.
struct ControlVerdict {
  std::string sample, result, known, found;
  bool right = false;
  std::string words{};           // what to do, where it is not
  std::size_t readings = 0;      // that the chart has
  std::optional<Chart> chart{};  // of two and more
  struct Held {
    std::string sample, why;
  };
  std::vector<Held> held{};  // whose result may not be used for it
};

// A reading of a control sample before those of the table.
struct PastReading {
  std::string day;    // "2026-09-14"
  double number = 0;  // coherent
};
// Those of a fact, the oldest first; none where nobody kept any.
using Past = std::function<std::vector<PastReading>(const std::string& sample, const Input& fact)>;

struct IntakeSheet {
  std::string title, demo, table, mapping, mapping_sha256;
  std::vector<AnswerColumn> columns;
  std::vector<std::string> carried_heads;
  std::vector<SampleAnswers> samples;
  std::vector<ControlVerdict> controls;
  std::vector<std::string> notes;  // of the table: rows that no result takes
  std::vector<const Substance*> reagents;
  bool dated = false;  // readings are of several days, and of a sample the last one counts

  bool holds() const;
};

// Throws BadInput where the table or the mapping is not in order, PluginError; what is wrong with one sample stays with
// it.
IntakeSheet take_in(const Bench& bench, const Mapping& mapping, const RawTable& table, const Past& past = {});

}  // namespace vatwright::intake
