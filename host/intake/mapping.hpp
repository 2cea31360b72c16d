// A mapping: which column of a laboratory's table is which input of which calculation, with what it is counted in and
// what holds for all rows. Data, in YAML; the shipped ones stand in recipes/.
#pragma once

#include "host/yaml/document.hpp"
#include "units/basis.hpp"

#include <string>
#include <utility>
#include <vector>

namespace vatwright::intake {

// An input and where its readings stand: one column, or several that repeat each other.
struct MappedInput {
  std::string input;
  Mark mark;
  std::vector<std::pair<std::string, Mark>> heads;
  std::string unit;       // of the numbers in those columns; empty: each cell has its own, or needs none
  std::string doubt;      // the ± of each number, in the same unit; empty: none
  bool repeated = false;  // read again in each row; else once a sample
};

// What is found out of each sample.
struct MappedResult {
  std::string name;  // of a fact, where it stands in a column as it is
  Mark mark;
  std::vector<std::pair<std::string, std::string>> where{};  // column -> word: the rows that are of this result
  std::string calculation{};                                 // empty: the column holds the result itself
  std::string repeats{};                                     // the input that takes a row for each reading; empty: none
  std::vector<MappedInput> inputs{};
  const Node* with = nullptr;   // inputs that are the same for all, in the mapping's document; or nullptr
  std::string repeatability{};  // of a result that stands in a column, as a number in its unit
};

// What a control sample is known to have and how well the laboratory reads it, "30.0 ± 0.6 mg/L"; or how many of its
// first readings are to say so.
struct ControlTarget {
  std::string sample, result;
  Mark mark;
  std::string known;      // without ± beside a trial; empty: the trial's mean
  std::size_t trial = 0;  // 0: none
};

struct Mapping {
  explicit Mapping(Document read) : document(std::move(read)) {}
  Mapping(const Mapping&) = delete;  // results point into the document
  Mapping& operator=(const Mapping&) = delete;
  Mapping(Mapping&&) = default;
  Mapping& operator=(Mapping&&) = default;
  ~Mapping() = default;

  Document document;
  std::string title, demo;
  char separator = ',';
  bool decimal_comma = false;
  std::string sample;  // the column that names the sample
  Mark sample_mark;
  std::string date;  // the column of the day of a reading; empty: all are of one day
  Mark date_mark;
  bool carry_all = false;
  std::vector<std::pair<std::string, Mark>> carry;  // columns that go to the answer as they are
  const Basis* acid_basis = nullptr;
  std::vector<MappedResult> results;
  std::vector<ControlTarget> controls;
};

// Throws BadInput.
Mapping read_mapping(Document document);

}  // namespace vatwright::intake
