#include "host/bench/hand_over.hpp"

#include "host/yaml/nodes.hpp"
#include "units/nearest.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace vatwright {
namespace {

bool takes(const Calculation& calculation, std::string_view name) {
  return std::any_of(calculation.inputs.begin(), calculation.inputs.end(),
                     [&](const Need& need) { return need.input->name == name; });
}

}  // namespace

const HandOver* handed_over(const Calculation& of, const Input& input, std::string_view choice) {
  for (const auto& how : of.hands_over)
    if (how.input->name == input.name && std::find(how.choices.begin(), how.choices.end(), choice) != how.choices.end())
      return &how;
  return nullptr;
}

const HandOver* handed_over(const Calculation& of, const StepSpec& step) {
  for (const auto& how : of.hands_over)
    for (const auto& said : step.inputs)
      if (said.name == how.input->name && said.node->kind == Node::Kind::text)
        if (const auto* found = handed_over(of, *how.input, said.node->text)) return found;
  return nullptr;
}

std::string_view name_there(const HandOver& how, std::string_view name) {
  for (const auto& pair : how.renamed)
    if (pair.name == name) return pair.there;
  return name;
}

HandedStep::HandedStep(const StepSpec& step, const HandOver& how, const Calculation& answers, const Document& doc,
                       Slips& slips)
    : spec_(step) {
  spec_.calculation = how.to;
  spec_.inputs.clear();
  std::string_view choice;
  Mark mark = step.mark;
  for (const auto& said : step.inputs)
    if (said.name == how.input->name) choice = said.node->text, mark = said.mark;
  spec_.because = fmt::format("; {} is dosed by {}, because the lot moves with it", choice, how.to);
  for (const auto& pair : how.says)
    spec_.inputs.push_back({std::string(pair.name), mark, &says_.emplace_back(text_node_of(pair.there))});
  for (const auto& said : step.inputs) {
    const std::string name(name_there(how, said.name));
    // The choice itself is said in the words of that calculation, or is all that it does.
    const bool follows =
        std::any_of(how.says.begin(), how.says.end(), [&](const auto& pair) { return pair.name == name; });
    if (said.name == how.input->name && (follows || !takes(answers, name))) continue;
    if (!takes(answers, name)) {
      // What it stands for cannot be told, so that nothing is called missing beside it.
      for (const OneOf names : answers.one_of)
        for (const Input* input : names) spec_.unread.emplace(input->name);
      slips.in([&] {
        doc.fail(
            said.mark, fmt::format("{} is dosed by {}, which has no input {}", choice, how.to, in_quotes(said.name)),
            how.instead.empty() ? fmt::format("'vatwright show {}' lists them", how.to) : std::string(how.instead));
      });
      continue;
    }
    spec_.inputs.push_back({name, said.mark, said.node});
  }
}

}  // namespace vatwright
