// A worksheet into the book: its readings, and its steps as planned work.
#pragma once

#include "host/book/book.hpp"

#include <cstdint>
#include <string>
#include <vector>

namespace vatwright::book {

// `name` stands for the file in messages. `at`, in seconds, is when it was computed. Throws BadInput: no worksheet, one
// that rests on other accounts than the book's, one that is kept already.
NewEntry keep(const Book& book, const std::string& name, const std::string& sheet, std::int64_t at);

// The work of a sheet that is planned: one for each addition, or one for a step without any.
Json work_of(const Json& sheet);

// What is to be heeded with an addition of the sheet: hazards, then cautions. None for work without an addition (part
// 0).
std::vector<std::string> cautions_of(const Json& sheet, std::int64_t step, std::int64_t part);

}  // namespace vatwright::book
