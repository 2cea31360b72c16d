#include "host/cli/complete.hpp"

#include "host/bench/rule_sets.hpp"
#include "host/cli/command_line.hpp"
#include "host/cli/house.hpp"
#include "host/describe/describe.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <filesystem>
#include <map>

namespace vatwright {
namespace {

using Offers = std::vector<std::string>;

// How far a command line has come: all words but the last are read.
struct Typed {
  const CLI::App* command;
  const CLI::Option* waiting = nullptr;  // the option whose value comes next
  Offers arguments{};                    // of the command
  std::vector<std::filesystem::path> plugins{};
};

const CLI::Option* option_of(const CLI::App& app, const Typed& typed, const std::string& name) {
  if (const auto* option = typed.command->get_option_no_throw(name)) return option;
  return app.get_option_no_throw(name);
}

void take_value(Typed& typed, const CLI::Option& option, const std::string& value) {
  if (option.check_lname("plugins")) typed.plugins.emplace_back(value);
}

void take(const CLI::App& app, Typed& typed, const std::string& word) {
  if (typed.waiting != nullptr) {
    take_value(typed, *typed.waiting, word);
    typed.waiting = nullptr;
  } else if (word.starts_with("--")) {
    const auto equals = word.find('=');
    const auto* option = option_of(app, typed, word.substr(0, equals));
    if (option == nullptr || option->get_items_expected_max() == 0) return;
    if (equals == std::string::npos)
      typed.waiting = option;
    else
      take_value(typed, *option, word.substr(equals + 1));
  } else if (const auto below = commands_of(*typed.command); !below.empty()) {
    for (const auto* command : below)
      if (command->get_name() == word) typed.command = command;
  } else {
    typed.arguments.push_back(word);
  }
}

Offers calculation_ids(House& house, const Typed& /*typed*/, const std::string& /*word*/) {
  Offers out;
  for (const Manifest* plugin : house.registry.all())
    for (const auto& c : plugin->calculations) out.push_back(id_of(*plugin, c));
  return out;
}

Offers substances(House& house, const Typed& /*typed*/, const std::string& /*word*/) {
  const auto names = house.catalogue.names();
  return {names.begin(), names.end()};
}

Offers rule_sets(House& house, const Typed& /*typed*/, const std::string& /*word*/) {
  return rule_names(house.rules_folder);
}

Offers languages(House& house, const Typed& /*typed*/, const std::string& /*word*/) {
  return language_codes(house.rules_folder.parent_path() / "languages");
}

// The inputs that are not given yet, "pH="; after that, the words that one may be.
Offers inputs(House& house, const Typed& typed, const std::string& word) {
  std::string close;
  const auto found = house.registry.find(typed.arguments.front(), close);
  if (found.calculation == nullptr) return {};
  const auto& given = typed.arguments;
  Offers out;
  const auto described = description_of(*found.plugin, *found.calculation);
  for (const auto& input : described["plugins"].front()["calculations"].front()["inputs"]) {
    const std::string start = input["name"].get<std::string>() + "=";
    if (word.starts_with(start))
      for (const auto& choice : input.value("choices", Description::array()))
        out.push_back(start + choice["name"].get<std::string>());
    else if (std::none_of(given.begin(), given.end(), [&](const auto& g) { return g.starts_with(start); }))
      out.push_back(start);
  }
  return out;
}

// What the words in capitals mean, in the help of the options and arguments.
using Offering = Offers (*)(House&, const Typed&, const std::string&);
const std::map<std::string, Offering, std::less<>> sources{{"CALCULATION", calculation_ids},
                                                           {"SUBSTANCE", substances},
                                                           {"RULES", rule_sets},
                                                           {"LANGUAGE", languages},
                                                           {"NAME=VALUE", inputs}};
const std::map<std::string, std::string, std::less<>> files{
    {"RECIPE", ":files yaml"},  {"MAPPING", ":files yaml"}, {"TABLE", ":files csv"}, {"SHEET", ":files json"},
    {"LOTS.csv", ":files csv"}, {"FILE", ":files"},         {"DIR", ":folders"}};

// CLI11 describes an option that takes a few words as "TEXT:{text,html}".
Offers words_in_braces(const std::string& text) {
  const auto open = text.find('{'), shut = text.rfind('}');
  if (open == std::string::npos || shut == std::string::npos) return {};
  return CLI::detail::split(text.substr(open + 1, shut - open - 1), ',');
}

Offers values(const CLI::Option& option, const Typed& typed, const std::string& word) {
  const std::string kind = value_name(option);
  if (const auto file = files.find(kind); file != files.end()) return {file->second};
  const auto source = sources.find(kind);
  if (source == sources.end()) return words_in_braces(option.get_type_name());
  House house(typed.plugins);
  return source->second(house, typed, word);
}

Offers options(const CLI::App& app, const Typed& typed) {
  Offers out;
  for (const auto* command : {typed.command, &app})
    for (const auto* option : command->get_options())
      for (const auto& name : option->get_lnames())
        if (const auto offer = "--" + name; std::find(out.begin(), out.end(), offer) == out.end()) out.push_back(offer);
  return out;
}

Offers arguments(const Typed& typed, const std::string& word) {
  const auto places = arguments_of(*typed.command);
  if (places.empty()) return {};
  const auto at = typed.arguments.size();
  if (at < places.size()) return values(*places[at], typed, word);
  const bool repeats = places.back()->get_items_expected_max() > 1;
  return repeats ? values(*places.back(), typed, word) : Offers{};
}

Offers offers(const CLI::App& app, const Typed& typed, const std::string& word) {
  if (typed.waiting != nullptr) return values(*typed.waiting, typed, word);
  if (const auto equals = word.find('='); word.starts_with("--") && equals != std::string::npos) {
    const auto* option = option_of(app, typed, word.substr(0, equals));
    Offers out = option == nullptr ? Offers{} : values(*option, typed, word.substr(equals + 1));
    for (auto& offer : out)
      if (!offer.starts_with(":")) offer.insert(0, word, 0, equals + 1);
    return out;
  }
  if (word.starts_with("-")) return options(app, typed);
  const auto below = commands_of(*typed.command);
  if (below.empty()) return arguments(typed, word);
  Offers out;
  for (const auto* command : below) out.push_back(command->get_name());
  return out;
}

}  // namespace

std::string completions(const CLI::App& app, const std::vector<std::string>& words) {
  if (words.empty()) return {};
  Typed typed{.command = &app};
  for (std::size_t i = 0; i + 1 < words.size(); ++i) take(app, typed, words[i]);
  std::string out;
  for (const auto& offer : offers(app, typed, words.back()))
    if (offer.starts_with(":") || offer.starts_with(words.back())) out += offer + "\n";
  return out;
}

}  // namespace vatwright
