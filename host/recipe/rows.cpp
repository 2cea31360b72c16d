#include "host/recipe/node_reader.hpp"
#include "host/recipe/value.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <string>
#include <vector>

namespace vatwright {
namespace {

// A lot's share of a whole is no reading: with another, all of them would make more or less than the whole.
KeyedValue read_given(const NodeReader& n, const Node& node, const Input& key) {
  KeyedValue out{&key, read_value(n.doc(), node, key, n.acid_basis())};
  const bool share = n.input().kind == Kind::lots && key.kind == Kind::quantity && key.dimension.plain();
  if (share) n.exact(node, {key.dimension, key.counted, key.unit});
  return out;
}

Row read_row(const NodeReader& n, const Node& node) {
  Row out;
  for (const auto& entry : node.entries) {
    const Input& key = n.key_of(entry);
    out.own.push_back(read_given(n, entry.value, key));
  }
  for (const auto& need : n.input().each) {
    const bool given = out.find(*need.input) != nullptr;
    if (need.required && !given)
      n.fail(node.mark, "misses '" + std::string(need.input->name) + "'",
             fmt::format("add '{}: ...', {}", need.input->name, need.input->help));
    if (!given && !need.fallback.empty()) out.own.push_back({need.input, read_default(need.fallback, *need.input)});
  }
  return out;
}

void refuse_twice(const NodeReader& n, const std::vector<Row>& rows, Mark mark) {
  for (std::size_t i = 0; i + 1 < rows.size(); ++i)
    if (rows[i].name == rows.back().name)
      n.fail(mark, "the lot '" + rows[i].name + "' is named twice", "keep one of the two");
}

Row read_lot(const NodeReader& n, const Entry& entry) {
  if (entry.value.kind == Node::Kind::map || entry.value.kind == Node::Kind::nothing) return read_row(n, entry.value);
  const std::string& text = n.text_of(entry.value);
  Row out;
  std::string units;
  Measured read;
  try {
    read = parse(text);
  } catch (const InputError& error) {
    n.fail(entry.value, error);
  }
  for (const auto& need : n.input().each) {
    if (need.input->kind != Kind::quantity) continue;
    if (read.dimension == need.input->dimension && read.counted == need.input->counted) {
      out.own.push_back(read_given(n, entry.value, *need.input));
      return out;
    }
    units += (units.empty() ? "" : ", ") + std::string(need.input->name) + " in " + std::string(need.input->unit);
  }
  n.fail(entry.value.mark, "'" + text + "' says nothing of a lot here", "expected " + units);
}

std::string such_row(const Input& input) {
  std::vector<std::string> keys;
  for (const auto& need : input.each)
    if (need.required) keys.push_back(fmt::format("{}: ...", need.input->name));
  return fmt::format("such as '- {{{}}}'", fmt::join(keys, ", "));
}

}  // namespace

// {A: 60 %, B: 12 hL}, {A: {at most: 40 hL, price: 120}}, or a list of names
Value read_lots(const NodeReader& n, const Node& node) {
  Value value;
  if (node.kind == Node::Kind::list) {
    for (const auto& item : node.items) {
      value.rows.emplace_back().name = n.text_of(item);
      refuse_twice(n, value.rows, item.mark);
    }
  } else if (node.kind == Node::Kind::map) {
    for (const auto& entry : node.entries) {
      value.rows.push_back(read_lot(n, entry));
      value.rows.back().name = entry.key;
    }
  }
  if (value.rows.empty()) n.fail(node.mark, "expected lots by their names", "such as {T7: 60 %, T8: 40 %}");
  return value;
}

// [{date: 2026-08-20, sugar: 180 g/L}, ...]
Value read_rows(const NodeReader& n, const Node& node) {
  if (node.kind != Node::Kind::list || node.items.empty())
    n.fail(node.mark, "expected a list of readings, each beginning with '- '", such_row(n.input()));
  Value value;
  for (const auto& item : node.items) {
    if (item.kind != Node::Kind::map) n.fail(item.mark, "expected a reading with its keys", such_row(n.input()));
    value.rows.push_back(read_row(n, item));
  }
  return value;
}

}  // namespace vatwright
