// What was added to a lot, and to the lots that it was made of before it was made of them.
#pragma once

#include "host/book/book.hpp"

namespace vatwright::book {

// Substances by their names in the catalogue, each once: those of the lot's ancestors first, then by the hour. `until`,
// in seconds, is that of the last entry that counts. What was added to a lot of that name before this one began does
// not count, nor does what was corrected.
std::vector<std::string> went_in(const Book& book, const LotState& lot, std::int64_t until);

}  // namespace vatwright::book
