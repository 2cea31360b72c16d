// Whether a book is as it was written.
#pragma once

#include "host/book/book.hpp"

#include <string>
#include <vector>

namespace vatwright::book {

// What is wrong with it, in words; none: every byte that counts is as it was written. By SQLite's own check of the
// file, by the chain of the entries, and by making once more what is made of them.
std::vector<std::string> faults(const Book& book);

}  // namespace vatwright::book
