// What the cellar's own measurements say of the forecasts, and what was weighed of each substance.
#pragma once

#include "host/book/book.hpp"
#include "host/sheet/writers.hpp"

#include <string>
#include <vector>

namespace vatwright::book {

// A forecast of work that was done, and the first reading after it.
struct Case {
  std::string lot;
  std::int64_t entry = 0;  // of the reading
  double forecast = 0, measured = 0;
};

// All cases of one fact and one calculation, in the unit of the fact.
struct Lesson {
  std::string calculation, fact, unit;
  std::vector<Case> cases;

  double bias() const;     // mean of measured less forecast
  double scatter() const;  // standard deviation of that; 0 of fewer than two cases
  double off() const;      // root of the mean square of that: bias and scatter together
};
// `until`, in seconds: of readings up to then.
std::vector<Lesson> lessons(const Book& book, std::optional<std::int64_t> until = std::nullopt);

Json lessons_json(const std::vector<Lesson>& all);
std::string lessons_text(const std::vector<Lesson>& all, const TextStyle& style);
std::string lessons_html(const std::vector<Lesson>& all, const std::string& book);

// What was weighed, by substance, strength and batch.
Json stock_json(const Book& book);
std::string stock_text(const Book& book, const TextStyle& style);

}  // namespace vatwright::book
