// One lot as a page in HTML, without script.
#pragma once

#include "host/book/views.hpp"
#include "host/sheet/html_markup.hpp"

#include <string>

namespace vatwright::book {

// The sections of the page, into one that is around them.
void write_lot(Markup& page, const Book& book, const LotState& lot, const Hour& until);

// Its figures, its course (readings over time beside forecasts), what was done, what it was made of, what is open.
std::string lot_page(const Book& book, const LotState& lot, const std::string& as_of, const Hour& until);

}  // namespace vatwright::book
