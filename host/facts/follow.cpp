#include "host/facts/follow.hpp"

#include <algorithm>
#include <cmath>
#include <string_view>
#include <vector>

namespace vatwright::facts {
namespace {

// Rounding apart.
bool differs(const Changed& changed, const Analysis& lot) {
  const auto before = lot.find(changed.key->name);
  if (before == lot.end() || changed.key->kind != Kind::quantity) return true;
  constexpr double rounding = 1e-12;
  return std::abs(changed.value.number - before->second.number) > rounding * std::abs(before->second.number);
}

bool is_in(const std::vector<const Input*>& keys, std::string_view name) {
  return std::any_of(keys.begin(), keys.end(), [&](const Input* key) { return key->name == name; });
}

bool moves(const Outcome& outcome, std::string_view name, const Analysis& lot) {
  return std::any_of(outcome.changes.begin(), outcome.changes.end(),
                     [&](const Changed& c) { return c.key->name == name && differs(c, lot); }) ||
         std::any_of(outcome.raised.begin(), outcome.raised.end(),
                     [&](const Raised& r) { return r.key->name == name && r.by != 0; }) ||
         is_in(outcome.carried, name) || is_in(outcome.forgotten, name);
}

}  // namespace

bool is_settled(const Input& fact, const Outcome& outcome) {
  return std::any_of(outcome.changes.begin(), outcome.changes.end(),
                     [&](const Changed& c) { return c.key->name == fact.name; }) ||
         is_in(outcome.forgotten, fact.name);
}

void forget_what_hangs_on(const Analysis& lot, std::span<const Input* const> facts, Outcome& outcome) {
  for (const Input* fact : facts) {
    const auto& of = fact->behaves.of;
    if (of.empty() || !lot.contains(fact->name) || is_settled(*fact, outcome) || is_in(outcome.carried, fact->name))
      continue;
    if (std::any_of(of.begin(), of.end(), [&](std::string_view name) { return moves(outcome, name, lot); }))
      outcome.forget(*fact);
  }
}

}  // namespace vatwright::facts
