#include "host/facts/follow.hpp"

#include <algorithm>
#include <cmath>
#include <string_view>
#include <vector>

namespace vatwright::facts {
namespace {

bool is_in(const std::vector<const Input*>& keys, std::string_view name) {
  return std::any_of(keys.begin(), keys.end(), [&](const Input* key) { return key->name == name; });
}

bool moves(const Outcome& outcome, std::string_view name, const Analysis& lot) {
  return std::any_of(outcome.changes.begin(), outcome.changes.end(),
                     [&](const Changed& c) { return c.key->name == name && !is_as_it_was(lot, *c.key, c.value); }) ||
         std::any_of(outcome.raised.begin(), outcome.raised.end(),
                     [&](const Raised& r) { return r.key->name == name && r.by != 0; }) ||
         is_in(outcome.carried, name) || is_in(outcome.forgotten, name);
}

}  // namespace

bool is_as_it_was(const Analysis& lot, const Input& fact, const Value& value) {
  const auto known = lot.find(fact.name);
  if (known == lot.end() || fact.kind != Kind::quantity) return false;
  constexpr double rounding = 1e-12;
  const double before = known->second.number;
  return std::abs(value.number - before) <= rounding * std::abs(before);
}

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
