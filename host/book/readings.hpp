// What was read of one fact of a lot over time: for the chart of a control sample.
#pragma once

#include "host/book/book.hpp"

#include <string>
#include <vector>

namespace vatwright::book {

struct DatedReading {
  std::string at;     // as the book has it: "2026-10-03T09:30:00+02:00"
  double number = 0;  // coherent
};

// The oldest first; none of a lot that the book does not know, and none that was corrected.
std::vector<DatedReading> readings_of(const Book& book, const std::string& lot, const Input& fact);

}  // namespace vatwright::book
