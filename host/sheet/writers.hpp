// Writes a worksheet: as a page for the cellar, on paper or in a browser, or as JSON for other programs.
#pragma once

#include "host/bench/worksheet.hpp"

#include <string>

namespace vatwright {

struct TextStyle {
  bool colour = false;  // bold headings and a red FAILS, on a terminal only
  std::size_t width = 96;
};

std::string write_text(const Worksheet& sheet, const TextStyle& style);

// One file that needs no other: no script, nothing from the network, made to be printed.
std::string write_html(const Worksheet& sheet);

// What to do, its cautions and the signatures alone, for one page.
std::string write_short_text(const Worksheet& sheet, const TextStyle& style);
std::string write_short_html(const Worksheet& sheet);

// The stable form, version 1; its schema is host/sheet/worksheet.schema.json.
std::string write_json(const Worksheet& sheet);

// "21.3 mg/L": a value of an input as it was written, or, when it was computed, with three
// significant digits; a result with the decimals that it declares.
std::string shown(const Input& input, const Value& value);
std::string shown(const Figure& figure);

// A mass or a volume with no more figures than a balance, a cylinder or a tank shows: four.
Figure no_finer_than_measured(Figure figure);

// A lot's value before (nullptr: not known) and after, both in the unit in which the person wrote it.
struct BeforeAfter {
  std::string before, after;
};
BeforeAfter shown_change(const Input& input, const Value* before, const Value& after);
// The same where a step may have made it unknown: `after` is nullptr then.
BeforeAfter shown_change(const Input& input, const Value* before, const Value* after);

// Whether the uncertainty can be seen in the decimals of the result, or one more.
bool is_worth_showing(const ResultValue& result, const Spread& spread);
// "21.3 ± 2.9 mg/L": with the decimals of the result, or one more where the uncertainty would vanish; of that two
// significant digits at most.
std::string shown(const ResultValue& result, const Spread& spread);
// The standard uncertainty of an addition: "19 g".
std::string shown_spread(const Addition& addition, double standard);
// "93 %", "more than 99.9 %".
std::string shown_chance(double probability);

// The mass or volume of an addition, rounded as it is weighed or measured: "177 g".
std::string shown_amount(const Addition& addition);

}  // namespace vatwright
