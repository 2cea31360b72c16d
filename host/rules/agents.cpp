#include "host/rules/agents.hpp"

#include "host/rules/row.hpp"
#include "host/yaml/known_keys.hpp"
#include "units/nearest.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>

namespace vatwright {
namespace {

constexpr std::string_view authorised_by = "authorised by";
constexpr char such_agents[] = "such as [tartaric acid, malic acid]";
constexpr std::array<std::string_view, 8> agent_keys{"to",     "only",    "when",     authorised_by,
                                                     "source", "text of", "standing", "meaning"};

std::string purpose_of(const Document& doc, const Node& row) {
  auto to = text_of(row, "to");
  if (std::find(purpose::all.begin(), purpose::all.end(), to) != purpose::all.end()) return to;
  const std::string words = fmt::format("write one of: {}", fmt::join(purpose::all, ", "));
  doc.fail(row.mark, to.empty() ? "a rule on agents without 'to:'" : "no step is there to " + in_quotes(to),
           did_you_mean(to, purpose::all, words));
}

std::vector<std::string> names(const Document& doc, const Node& list) {
  std::vector<std::string> out;
  if (list.kind == Node::Kind::text) return {list.text};
  for (const auto& item : list.items) {
    if (item.kind != Node::Kind::text) doc.fail(item.mark, "expected the name of a substance", such_agents);
    if (std::find(out.begin(), out.end(), item.text) != out.end())
      doc.fail(item.mark, in_quotes(item.text) + " is named twice", "keep one of the two");
    out.push_back(item.text);
  }
  if (out.empty()) doc.fail(list.mark, "expected names of substances", such_agents);
  return out;
}

}  // namespace

std::vector<AgentRow> read_agents(const Document& doc, const std::string& rules) {
  std::vector<AgentRow> out;
  for (const auto& row : rows_of(doc, agents_section)) {
    refuse_unknown_keys(doc, row, "a rule on agents", agent_keys);
    AgentRule rule{.purpose = purpose_of(doc, row), .rules = rules};
    if (const Node* only = row.find("only")) rule.only = names(doc, *only);
    rule.authorised_by = text_of(row, authorised_by);
    if (rule.only.empty() && rule.authorised_by.empty())
      doc.fail(row.mark, "a rule on agents that asks for nothing", "write 'only: [...]' or 'authorised by: ...'");
    rule.source = cited(doc, row);
    if (const auto meaning = text_of(row, "meaning"); !meaning.empty()) rule.source += "; " + meaning;
    out.push_back({std::move(rule), Condition(doc, row.find("when")), as_written(row.find("when"))});
  }
  return out;
}

std::string in_words(const AgentRule& rule) {
  std::string out;
  if (!rule.only.empty()) out = fmt::format("only {}", fmt::join(rule.only, ", "));
  if (!rule.authorised_by.empty())
    out += fmt::format("{}after an authorisation by {}", out.empty() ? "" : "; ", rule.authorised_by);
  return out;
}

}  // namespace vatwright
