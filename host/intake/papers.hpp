// What an intake came to, on paper and for other programs.
#pragma once

#include "host/intake/intake.hpp"
#include "host/sheet/html_markup.hpp"

#include <string>

namespace vatwright::intake {

// A table of lots, as `vatwright run --lots` reads it: what may be used, with its ±. Samples that are controls are left
// out; carried columns come last.
std::string write_lots(const IntakeSheet& sheet);

std::string write_intake_text(const IntakeSheet& sheet);
// What stands on the paper between its heading and its foot, for a page that has its own.
void write_intake_body(Markup& page, const IntakeSheet& sheet);
// One file that needs no other; made to be printed.
std::string write_intake_html(const IntakeSheet& sheet);
std::string write_intake_json(const IntakeSheet& sheet);

}  // namespace vatwright::intake
