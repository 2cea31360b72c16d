// The words of a label that the law ties to the sugar of a wine, as a rule file gives them under
// `sweetness terms:`.
//
//   - term: dry
//     sugar at most: 9 g/L
//     sugar less acidity: at most 2 g/L      # titratable acidity as tartaric acid
//     when: {class: still}
//     source: ...
#pragma once

#include "host/rules/condition.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace vatwright {

inline constexpr std::string_view terms_section = "sweetness terms";

// One row of the section, for the lot and for the table.
struct TermLine {
  TermRow row;
  std::string figures;  // as written: "sugar at most 9 g/L, sugar less acidity at most 2 g/L"
  std::string when;     // as written
  Applies applies = Applies::yes;
};

// Every row of the section, in the file's order, each read for this lot, so that a slip in one is
// found whatever the lot. Throws BadInput for a row that is not in order: an unknown key, no term, no
// figure, a bound given twice or turned round, no source.
std::vector<TermLine> read_terms(const Document& doc, const std::string& rules, const LotView& lot);

}  // namespace vatwright
