// What the command line says about itself, for the manual page and for the shells.
#pragma once

#include <CLI/CLI.hpp>

#include <string>
#include <vector>

namespace vatwright {

inline std::vector<const CLI::App*> commands_of(const CLI::App& app) {
  return app.get_subcommands([](const CLI::App*) { return true; });
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
