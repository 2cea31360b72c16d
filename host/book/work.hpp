// Planned work that was done: with what was really weighed.
#pragma once

#include "host/book/book.hpp"

#include <string>
#include <vector>

namespace vatwright::book {

struct Report {
  std::string id;                    // "12", "12.2", "12.2.1": a sheet, a step of it, an addition of the step
  std::vector<std::string> weighed;  // "184 g", or of several "tartaric acid=1.2 kg"; what is not named is as planned
  std::vector<std::string> batches;  // "L-2231", or "tartaric acid=L-2231"
};

// One entry for each step. Throws BadInput: no such work, done already, a lot that is not there (yet), more wine than
// there is, a weight that names no addition.
std::vector<NewEntry> report_done(const Book& book, const Report& report, std::int64_t at);

}  // namespace vatwright::book
