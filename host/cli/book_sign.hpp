// A second person signs a sheet of the book: it is computed anew and compared before the name is entered.
#pragma once

#include "host/book/book.hpp"
#include "host/cli/verify.hpp"

#include <string>

namespace vatwright {

struct Signed {
  book::Entry entry;
  Verdict verdict;
};

// `recipe`: the file that the sheet was computed from; empty: the one that it names, where it is here. Nothing is
// committed. Throws BadInput: no sheet, nobody who signs, the person who computed it.
Signed sign_sheet(book::Book& book, const Bench& bench, std::int64_t sheet, const std::string& by,
                  const book::Moment& at, const std::filesystem::path& recipe);

}  // namespace vatwright
