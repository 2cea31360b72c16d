// Everything that calculations say of themselves, as JSON (schema: describe.schema.json), for forms and other
// programs: no calculation, fact, unit or word needs to be typed a second time anywhere.
#pragma once

#include "host/plugin/description.hpp"

#include <nlohmann/json_fwd.hpp>

#include <string>
#include <string_view>
#include <vector>

namespace vatwright {

// What the program holds besides the units, which are its own.
struct Holdings {
  std::vector<const Manifest*> plugins;
  std::vector<std::string_view> substances;
  struct RuleSetName {
    std::string name, title, note;
  };
  std::vector<RuleSetName> rule_sets;
};

using Description = nlohmann::ordered_json;

// All of it: facts of a lot, units, substances, rule sets, and every plugin with its calculations.
Description description_of(const Holdings& all);

// One plugin, with its calculations.
Description description_of(const Manifest& plugin);

// One calculation, under its plugin.
Description description_of(const Manifest& plugin, const Calculation& calculation);

// A member of a part of it that is words; empty where it says nothing and is left out.
std::string said(const Description& part, const char* member);

// "sulfite.addition"
std::string id_of(const Manifest& plugin, const Calculation& calculation);

// What stands beside a field: what the description says, else its name or help with a capital.
std::string label_of(const Input& input);

// What a calculation answers, as the heading of its form.
std::string label_of(const Calculation& calculation);

// What people write for it: what the description says, and the everyday words (units/everyday.hpp).
std::vector<std::string_view> aliases_of(const Input& input);

// A kind in one word, as in the JSON: "quantity", "new lot".
std::string_view word_of(Kind kind);

}  // namespace vatwright
