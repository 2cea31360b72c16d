// What a command line says, and what it may: for the manual page and for the shells.
#pragma once

#include <CLI/CLI.hpp>

#include <algorithm>
#include <string>
#include <string_view>
#include <vector>

namespace vatwright {

// The words that were typed. Only the commands that are among them are told their options: to tell all of them takes a
// tenth of a short run.
class TypedWords {
 public:
  TypedWords(int count, char** words) : words_(words, words + count) {}

  std::string_view first() const { return words_.size() > 1 ? words_[1] : std::string_view(); }
  std::vector<std::string> after_first() const { return {words_.begin() + 2, words_.end()}; }
  // The manual page and completion ask for every command.
  bool may_mean(std::string_view command) const { return says(command) || says("manual") || first() == "complete"; }

 private:
  bool says(std::string_view word) const { return std::find(words_.begin(), words_.end(), word) != words_.end(); }
  std::vector<std::string_view> words_;
};

inline std::vector<const CLI::App*> commands_of(const CLI::App& app) {
  return app.get_subcommands([](const CLI::App*) { return true; });
}

// Those that do something, each with all of its words: "run", "book keep".
struct NamedCommand {
  std::string name;
  const CLI::App* app;
};
inline std::vector<NamedCommand> all_commands(const CLI::App& app, const std::string& before = {}) {
  std::vector<NamedCommand> out;
  for (const auto* command : commands_of(app)) {
    const std::string name = before + command->get_name();
    const auto below = all_commands(*command, name + " ");
    if (below.empty())
      out.push_back({name, command});
    else
      out.insert(out.end(), below.begin(), below.end());
  }
  return out;
}

// The arguments that are known by their place.
inline std::vector<const CLI::Option*> arguments_of(const CLI::App& command) {
  return command.get_options([](const CLI::Option* option) { return option->get_positional(); });
}

inline std::vector<const CLI::Option*> options_of(const CLI::App& command) {
  return command.get_options([](const CLI::Option* option) { return option->nonpositional(); });
}

// The word in capitals that stands for a value: "RECIPE", "FILE"; empty for a mere switch.
inline std::string value_name(const CLI::Option& option) {
  if (option.get_positional()) return option.get_name(true);
  if (option.get_items_expected_max() == 0) return {};
  const std::string type = option.get_type_name();
  return type.substr(0, type.find(':'));
}

}  // namespace vatwright
