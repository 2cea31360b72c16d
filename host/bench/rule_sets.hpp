// The rule sets that a recipe may name: those that ship, and files of somebody's own.
#pragma once

#include "host/loader/registry.hpp"
#include "host/recipe/recipe.hpp"
#include "host/rules/rules.hpp"

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

namespace vatwright {

// What a sheet says of a rule set; with the first one, how far the figures of all may be trusted. One whose
// review was due before today says so.
std::string told_on_a_sheet(const RuleSet& set, bool first);

// The names of the rule sets in a folder, in the order of the alphabet.
std::vector<std::string> rule_names(const std::filesystem::path& folder);

// The rule set of that name in the folder; throws InputError, with the known names.
RuleSet named_rules(const std::filesystem::path& folder, std::string_view name);

// Whether it names a file, and not a rule set that ships.
bool is_rule_file(std::string_view name);

// A file that the recipe names under 'rules:': it stands beside the recipe.
std::filesystem::path rule_file(const Recipe& recipe, const std::string& name);
std::vector<std::filesystem::path> rule_files(const Recipe& recipe);

// A person's own rule set. Throws BadInput for a topic that neither a calculation nor a rule set in the
// folder `shipped` has: misspelt, its limit would be gone without a sound.
RuleSet own_rules(const std::filesystem::path& file, const std::filesystem::path& shipped, Registry& registry);

// The topics that some calculation asks for, in the order of the alphabet: rows under another one are
// held by nothing. Opens all plugins.
std::vector<std::string> held_topics(Registry& registry);

}  // namespace vatwright
