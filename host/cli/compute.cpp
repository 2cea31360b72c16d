#include "host/cli/compute.hpp"

#include "host/yaml/nodes.hpp"

#include <algorithm>
#include <sstream>

namespace vatwright {
namespace {

constexpr char lot_name[] = "A";  // so that a sheet reads: "into lot A"
constexpr std::string_view rules_mark = "--rules ";

// "{Sorrel: 60 %}" is a map as in a recipe, "[...]" a list; everything else is one text.
Node value_node(const std::string& name, const std::string& argument, Mark mark) {
  const auto start = static_cast<std::size_t>(mark.byte);
  const auto first = argument.substr(start, 1);
  if (first != "{" && first != "[") return text_node_of(argument.substr(start), mark);
  // Blanks in place of the name keep every column where the argument has it.
  return Document::read(name, std::string(start, ' ') + argument.substr(start), {}, mark.line).root();
}

}  // namespace

Recipe recipe_of_arguments(const std::string& calculation, const std::vector<std::string>& arguments,
                           const std::vector<std::string>& rules) {
  std::string text = calculation;
  for (const auto& argument : arguments) {
    if (argument.find('\n') != std::string::npos)
      throw BadInput("a line break in the argument '" + argument + "'\n  write each NAME=VALUE in quotes of its own");
    text += "\n" + argument;
  }
  for (const auto& rule : rules) text.append("\n").append(rules_mark).append(rule);
  const std::string name = "argument";
  const Mark first{1, 0};
  std::vector<Entry> lot, step, root;
  root.push_back({"recipe", first, text_node_of(calculation, first)});
  int line = 1;
  for (const auto& argument : arguments) {
    const Mark mark{++line, 0};
    const auto equals = argument.find('=');
    const Document so_far = Document::of(name, text, {});
    if (equals == std::string::npos || equals == 0)
      so_far.fail(mark, "expected NAME=VALUE, read '" + argument + "'", "such as 'pH=3.40', in quotes");
    Entry entry{argument.substr(0, equals), mark, {}};
    const Mark at{line, static_cast<int>(equals) + 1};
    entry.value = value_node(name, argument, at);
    auto& into = entry.key == "acid basis" ? root : find_lot_key(entry.key) != nullptr ? lot : step;
    if (std::any_of(into.begin(), into.end(), [&](const Entry& e) { return e.key == entry.key; }))
      so_far.fail(mark, "'" + entry.key + "' is given a second time", "keep one of the two");
    into.push_back(std::move(entry));
  }
  if (!rules.empty()) {
    std::vector<Node> list;
    for (const auto& rule : rules) list.push_back(text_node_of(rule, {++line, static_cast<int>(rules_mark.size())}));
    root.push_back({"rules", first, list_node_of(std::move(list), first)});
  }
  std::vector<Entry> lots, steps;
  lots.push_back({lot_name, first, map_node_of(std::move(lot), first)});
  steps.push_back({calculation, first, map_node_of(std::move(step), first)});
  std::vector<Node> list{map_node_of(std::move(steps), first)};
  root.push_back({"lots", first, map_node_of(std::move(lots), first)});
  root.push_back({"steps", first, list_node_of(std::move(list), first)});
  Recipe recipe = read_recipe(Document::of(name, text, map_node_of(std::move(root), first)));
  recipe.form = arguments_form;
  return recipe;
}

Recipe recipe_of_text(const std::string& text) {
  std::vector<std::string> arguments, rules;
  std::string calculation;
  std::istringstream lines(text);
  std::getline(lines, calculation);
  for (std::string line; std::getline(lines, line);) {
    if (line.starts_with(rules_mark))
      rules.push_back(line.substr(rules_mark.size()));
    else
      arguments.push_back(line);
  }
  return recipe_of_arguments(calculation, arguments, rules);
}

}  // namespace vatwright
