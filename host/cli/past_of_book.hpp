// What the cellar book has of the control samples of a laboratory's table.
#pragma once

#include "host/cli/book_commands.hpp"
#include "host/intake/intake.hpp"

namespace vatwright {

// Of the book that is named, else of the person's own where there is one; else empty. Throws BadInput for a file that
// is no book.
intake::Past past_of_book(const BookOptions& options);

}  // namespace vatwright
