#include "host/recipe/node_reader.hpp"

#include "host/recipe/allowed.hpp"
#include "units/nearest.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <vector>

namespace vatwright {
namespace {

std::string example_of(const Input& input) {
  if (input.kind != Kind::quantity) return choices_of(input);
  return input.unit == "1" || input.dimension == dimension_of<Ph>()
             ? "write a plain number"
             : "write a number and its unit, such as " + std::string(input.unit);
}

}  // namespace

const std::string& NodeReader::text_of(const Node& node) const {
  const bool empty = node.kind == Node::Kind::nothing || (node.kind == Node::Kind::text && node.text.empty());
  if (node.kind == Node::Kind::text && !empty) return node.text;
  fail(node.mark, empty ? "nothing is written here" : "expected one value, read several", example_of(input_));
}

Measured NodeReader::measured(const Node& node, const Expected& expected) const {
  const std::string& text = text_of(node);
  try {
    return expect(parse(text), expected, text);
  } catch (const InputError& error) {
    fail(node, error);
  }
}

double NodeReader::exact(const Node& node, const Expected& expected) const {
  const Measured m = measured(node, expected);
  at(node.mark, [&] { refuse_uncertainty(m, node.text); });
  return m.value;
}

void refuse_uncertainty(const Measured& measured, std::string_view text) {
  if (measured.uncertainty > 0)
    throw InputError("the ± in " + in_quotes(text) + " would be lost: only that of a reading is carried on",
                     "write the figure alone");
}

void NodeReader::in_range(const Node& node, double coherent) const {
  at(node.mark, [&] { refuse_out_of_range(input_, coherent, node.text); });
}

const Input& NodeReader::key_of(const Entry& entry) const {
  std::vector<std::string_view> known;
  for (const auto& need : input_.each) {
    if (need.input->name == entry.key) return *need.input;
    known.push_back(need.input->name);
  }
  fail(entry.mark, "unknown key '" + entry.key + "'",
       did_you_mean(entry.key, known, fmt::format("there are: {}", fmt::join(known, ", "))));
}

}  // namespace vatwright
