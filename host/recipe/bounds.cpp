#include "host/recipe/node_reader.hpp"
#include "host/recipe/quantity.hpp"

#include <string>
#include <string_view>

namespace vatwright {
namespace {

// One figure of a bound, in the words of the key that it is on.
double bound(const NodeReader& n, const Input& key, const Node& node, std::string_view text, std::size_t offset) {
  try {
    const Measured m = expect(parse(text), expected_of(key, n.acid_basis()), text);
    refuse_uncertainty(m, text);
    NodeReader(n.doc(), key, n.acid_basis()).in_range(node, m.value);
    return m.value;
  } catch (const InputError& error) {
    n.fail(node, InputError(error.what(), error.hint(), error.offset() + offset));
  }
}

// "11.5 to 12.5 % vol": the first figure may leave its unit to the second.
double lower_of_two(const NodeReader& n, const Input& key, const Node& node, std::string_view low,
                    std::string_view high) {
  const bool bare = low.find_first_not_of("0123456789.+-eE ") == std::string_view::npos;
  if (!bare) return bound(n, key, node, low, 0);
  const auto unit = high.find_first_not_of("0123456789.+-eE ");
  return bound(n, key, node,
               std::string(low) + " " + std::string(unit == std::string_view::npos ? "" : high.substr(unit)), 0);
}

}  // namespace

// {pH: at most 3.40, ethanol: 11.5 to 12.5 % vol, sugar: 2 g/L}
Value read_bounds(const NodeReader& n, const Node& node) {
  if (node.kind != Node::Kind::map || node.entries.empty())
    n.fail(node.mark, "expected a map of what is bound", "such as {pH: at most 3.40, ethanol: 11.5 to 12.5 % vol}");
  constexpr std::string_view most = "at most ", least = "at least ", between = " to ";
  Value value;
  for (const auto& entry : node.entries) {
    const Input& key = n.key_of(entry);
    const std::string& text = n.text_of(entry.value);
    const std::string_view all = text;
    KeyBounds b{&key, {}, {}};
    if (all.starts_with(most)) {
      b.high = bound(n, key, entry.value, all.substr(most.size()), most.size());
    } else if (all.starts_with(least)) {
      b.low = bound(n, key, entry.value, all.substr(least.size()), least.size());
    } else if (const auto at = all.find(between); at != std::string_view::npos) {
      b.high = bound(n, key, entry.value, all.substr(at + between.size()), at + between.size());
      b.low = lower_of_two(n, key, entry.value, all.substr(0, at), all.substr(at + between.size()));
      if (*b.low > *b.high) n.fail(entry.value.mark, "'" + text + "' runs from more to less", "swap the two figures");
    } else {
      b.low = b.high = bound(n, key, entry.value, all, 0);
    }
    value.bounds.push_back(b);
  }
  return value;
}

}  // namespace vatwright
