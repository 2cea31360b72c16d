// The cellar book on the page: its lots, one of them, and the forms by which something is entered.
#pragma once

#include "host/page/answer.hpp"
#include "host/page/frame.hpp"

#include <optional>
#include <string>

namespace vatwright {

// The answer to all that is asked under "/book"; nothing where there is no such page. What is entered is only taken
// from a form that is sent (POST). Throws BadInput.
std::optional<Response> book_answer(const Request& request, const Premises& on);

// On the page of a sheet: the form that keeps it. Nothing where the page was given no book.
void keep_form(Frame& frame, const std::string& recipe, const Premises& on);

}  // namespace vatwright
