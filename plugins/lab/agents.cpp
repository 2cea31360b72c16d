#include "plugins/lab/agents.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <string>

namespace vatwright::lab {
namespace {

bool knows(const AgentRule& rule, std::string_view substance) {
  return rule.only.empty() || std::find(rule.only.begin(), rule.only.end(), substance) != rule.only.end();
}

std::string of_lot(const AgentRule& rule) {
  return rule.rules + (rule.condition.empty() ? "" : " (" + rule.condition + ")");
}

void refuse(const AgentRule& rule, std::string_view substance, Outcome& out) {
  out.checks.push_back({.name = fmt::format("{} to {}, {}", substance, rule.purpose, of_lot(rule)),
                        .source = rule.source,
                        .remedy = fmt::format("nothing was dosed: to {}, {} knows {} only. Say another 'substance'",
                                              rule.purpose, rule.rules, fmt::join(rule.only, ", "))});
}

}  // namespace

bool may_take(const Inputs& in, std::string_view purpose, std::string_view substance, Outcome& out) {
  const auto rules = in.agent_rules(purpose);
  bool may = true;
  for (const auto& rule : rules)
    if (!knows(rule, substance)) {
      refuse(rule, substance, out);
      may = false;
    }
  if (!may || in.figures_only()) return may;
  for (const auto& rule : rules)
    if (!rule.authorised_by.empty())
      out.checks.push_back({.name = fmt::format("to {}, under {}, by {}: have it in hand before you begin",
                                                rule.purpose, of_lot(rule), rule.authorised_by),
                            .holds = true,
                            .source = rule.source,
                            .remedy = {},
                            .authorised_by = rule.authorised_by});
  return may;
}

}  // namespace vatwright::lab
