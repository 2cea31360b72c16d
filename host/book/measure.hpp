// Readings of a lot, as a person gives them on a command line.
#pragma once

#include "host/book/book.hpp"

#include <string>
#include <vector>

namespace vatwright::book {

// `readings`: "pH=3.38", "free SO2=24 ± 2 mg/L". Throws BadInput: no such fact, no such quantity, twice the same, or
// an account that the book keeps already.
NewEntry measure(const Book& book, const std::string& lot, const std::vector<std::string>& readings,
                 const std::string& sample);

}  // namespace vatwright::book
