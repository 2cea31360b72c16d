#include "host/facts/account.hpp"

#include <algorithm>
#include <utility>

namespace vatwright::facts {
namespace {

constexpr std::string_view the_lot = "the lot";

bool are_several(std::string_view names) { return names.find(", ") != std::string_view::npos; }

}  // namespace

std::string silent_on(const Readings& lot, const Input& account) {
  const Value* value = lot.find(account);
  if (value == nullptr) return std::string(the_lot);
  std::string names;
  for (const auto& name : value->silent) names += (names.empty() ? "" : ", ") + name;
  return names;
}

std::string states_nothing(std::string_view silent) {
  return std::string(silent) + (are_several(silent) ? " state nothing" : " states nothing");
}

std::string does_not_state(std::string_view silent, std::string_view what) {
  return std::string(silent) + (are_several(silent) ? " do not state " : " does not state ") + std::string(what);
}

void Silence::ask(const Readings& lot, const Input& account) {
  auto who = silent_on(lot, account);
  if (who.empty()) return;
  auto entry = std::find_if(entries_.begin(), entries_.end(), [&](const Entry& one) { return one.who == who; });
  if (entry == entries_.end()) entry = entries_.insert(entry, {std::move(who), {}});
  if (std::find(entry->on.begin(), entry->on.end(), account.name) == entry->on.end()) entry->on.push_back(account.name);
}

void add_silent(const std::vector<std::string>& more, std::vector<std::string>& all) {
  for (const auto& name : more)
    if (std::find(all.begin(), all.end(), name) == all.end()) all.push_back(name);
}

}  // namespace vatwright::facts
