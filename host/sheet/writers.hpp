// Writes a worksheet: as a page for the cellar, or as JSON for other programs.
#pragma once

#include "host/bench/worksheet.hpp"

#include <string>

namespace vatwright {

struct TextStyle {
  bool colour = false;  // bold headings and a red FAILS, on a terminal only
  std::size_t width = 96;
};

std::string write_text(const Worksheet& sheet, const TextStyle& style);

// The stable form, version 1; its schema is host/sheet/worksheet.schema.json.
std::string write_json(const Worksheet& sheet);

// "21.3 mg/L": a value of an input or a result as a person reads it. Inputs keep the digits they
// need, up to `digits` significant ones.
std::string shown(const Input& input, const Value& value);
std::string shown(const Figure& figure);

// The mass or volume of an addition, rounded as it is weighed or measured: "177 g".
std::string shown_amount(const Addition& addition);

}  // namespace vatwright
