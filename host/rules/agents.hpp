// Which agents a rule set knows for a purpose, as data: the section `agents:`. An agent that a row
// leaves out is refused; silence is no permission.
//
//   - to: acidify                          # a word of host/plugin/law.hpp, namespace purpose
//     only: [tartaric acid, malic acid]    # by the names of the catalogue
//     when: {stage: must}                  # of the lot, as for limits
//     authorised by: the Member State      # whoever has to allow it first
//     source: ...                          # with `text of`, `standing`, `meaning`, as for limits
#pragma once

#include "host/rules/condition.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace vatwright {

inline constexpr std::string_view agents_section = "agents";

struct AgentRow {
  AgentRule rule;
  Condition applies;
  std::string when;  // as written, for the table
};

// All rows, in the file's order; `rules` is the name of the set. Throws BadInput for a row that is not
// in order: an unknown key or purpose, nothing asked for, an agent named twice, no source.
std::vector<AgentRow> read_agents(const Document& doc, const std::string& rules);

// "only tartaric acid, malic acid; after an authorisation by the Member State".
std::string in_words(const AgentRule& rule);

}  // namespace vatwright
