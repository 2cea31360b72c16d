// The tables that the program can print: calculations, units, substances, rules.
#pragma once

#include "host/cli/house.hpp"
#include "host/describe/describe.hpp"
#include "host/sheet/writers.hpp"

#include <string>

namespace vatwright {

std::string list_table(House& house);
std::string units_table(const TextStyle& style);

// All ids, or one substance with its hazards, cautions and handling. Throws BadInput.
std::string substances_table(const House& house, const std::string& name, const TextStyle& style);

// All rule sets, or one with each figure and its article. Throws BadInput.
std::string rules_table(House& house, const std::string& name, const TextStyle& style);

// A calculation: inputs with range, default and source; results; cautions; a worked example with
// its answer. Throws BadInput when there is none of that name, PluginError when it is refused.
std::string show_table(House& house, const std::string& id, const TextStyle& style);

// The rule sets that ship, with what they say of themselves.
std::vector<Holdings::RuleSetName> rule_sets_of(const House& house);

// All that the calculations say of themselves, or one of them, as JSON. Throws like show_table.
std::string description_table(House& house, const std::string& id);

// Throws BadInput when there is no calculation of that name, PluginError when it is refused.
Registry::Found calculation_named(House& house, const std::string& id);

}  // namespace vatwright
