#include "host/cli/command_slips.hpp"

#include "host/yaml/document.hpp"
#include "units/nearest.hpp"

#include <string_view>

namespace vatwright {
namespace {

std::string nearest_of(const std::vector<std::string>& known, const std::string& word, const std::string& otherwise) {
  return did_you_mean(word, std::vector<std::string_view>(known.begin(), known.end()), otherwise);
}

// "rnu RECIPE": the first word that is no option should have been a command.
void refuse_unknown_command(const CLI::App& app, const CLI::App& group, const std::string& help) {
  std::vector<std::string> names;
  for (const auto* command : commands_of(group)) names.push_back(command->get_name());
  for (const auto& word : app.remaining(true))
    if (!word.starts_with('-'))
      throw BadInput("there is no command " + in_quotes(word) + "\n  " +
                     nearest_of(names, word, help + " lists the commands"));
}

// What stands behind an unknown option is its value: the option is the slip.
void refuse_unknown_option(const CLI::App& app, const CLI::App& command, const std::string& help) {
  std::vector<std::string> names;
  for (const auto* of : {&app, &command})
    for (const auto* option : options_of(*of)) names.push_back(option->get_name());
  for (const auto& word : app.remaining(true))
    if (word.starts_with('-')) {
      const auto name = word.substr(0, word.find('='));
      throw BadInput("there is no option " + in_quotes(name) + "\n  " +
                     nearest_of(names, name, help + " lists the options"));
    }
}

}  // namespace

void refuse_slips(const CLI::App& app, const CLI::ParseError& error) {
  const CLI::App* deepest = &app;
  std::string name = "vatwright";
  for (auto chosen = app.get_subcommands(); !chosen.empty(); chosen = deepest->get_subcommands()) {
    deepest = chosen.front();
    name += " " + deepest->get_name();
  }
  const CLI::App& command = *deepest;
  const bool group = !commands_of(command).empty();
  const std::string help = in_quotes(name + " --help");
  const bool too_few = dynamic_cast<const CLI::RequiredError*>(&error) != nullptr;
  const bool too_many = dynamic_cast<const CLI::ExtrasError*>(&error) != nullptr;
  if (!too_few && !too_many) return;
  if (group) refuse_unknown_command(app, command, help);
  refuse_unknown_option(app, command, help);
  if (group) throw BadInput("expected a command\n  " + help + " lists the commands");
  std::string takes;
  for (const auto* argument : arguments_of(command)) takes += " " + value_name(*argument);
  if (too_many)
    throw BadInput(in_quotes(app.remaining(true).front()) + " is more than " + in_quotes(name) + " takes\n  " +
                   (takes.empty() ? "leave it out" : "write '" + name + takes + "'; a word with spaces wants quotes"));
  throw BadInput(in_quotes(name) + " needs" + takes + "\n  " + help + " says what that is");
}

}  // namespace vatwright
