// Accounts: what the law counts over all that was done to a lot. What nobody stated counts as none, and is not stated.
#pragma once

#include "host/plugin/readings.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace vatwright::facts {

// Who says nothing of it: "the lot", or the lots that went into it, "T7, T8"; empty for a stated account.
std::string silent_on(const Readings& lot, const Input& account);

// "the lot states nothing", "T7, T8 state nothing"
std::string states_nothing(std::string_view silent);
// "the lot does not state acid added", "T7, T8 do not state acid added"
std::string does_not_state(std::string_view silent, std::string_view what);

// Which accounts someone is silent on, by who that is, in the order in which they were asked for.
class Silence {
 public:
  void ask(const Readings& lot, const Input& account);

  struct Entry {
    std::string who;
    std::vector<std::string_view> on;
  };
  const std::vector<Entry>& entries() const { return entries_; }

 private:
  std::vector<Entry> entries_;
};

// Lots that say nothing, each once.
void add_silent(const std::vector<std::string>& more, std::vector<std::string>& all);

}  // namespace vatwright::facts
