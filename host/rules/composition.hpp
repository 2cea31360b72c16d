// What a blend may be made of, as data: the section `composition:` of a rule set.
//
//   composition:
//     - name: principal varieties
//       of: variety                      # variety, vintage, origin or colour
//       among: [Sorrel, Teasel]          # the named set; left out: whatever there is
//       at least members: 2              # so many of the set are present
//       together at least: 70 %          # the set's share; also `together at most:`
//       each at most: 90 %               # any single one's share
//       never together: true             # no two of the set in one blend
//       when: {stage: wine}              # of the blend, as for limits
//       source: ...                      # with `text of`, `standing`, `meaning`, as for limits
#pragma once

#include "host/rules/condition.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace vatwright {

inline constexpr std::string_view composition_topic = "composition";

struct CompositionRow {
  CompositionRule rule;
  std::string when;     // as written, for the table
  std::string meaning;  // what the row says beyond its figures
};

// All rows, in the file's order; `rules` is the name of the set. Throws BadInput for a row that is not
// in order: an unknown key, nothing asked for, no name or source, a set that cannot be.
std::vector<CompositionRow> read_composition(const Document& doc, const std::string& rules);

// The rules that apply, or might apply, to a blend.
std::vector<CompositionRule> composition_for(const Document& doc, const std::string& rules, const LotView& blend);

// "at least 2 of Sorrel, Teasel; together at least 70 %".
std::string in_words(const CompositionRule& rule);

}  // namespace vatwright
