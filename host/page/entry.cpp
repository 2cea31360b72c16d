#include "host/page/entry.hpp"

#include "host/page/draft.hpp"
#include "host/recipe/quantity.hpp"
#include "host/recipe/value.hpp"
#include "units/parse.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>

namespace vatwright {
namespace {

constexpr std::size_t most_lines = 2'000;

// {..} and [..] are read as in a recipe; all else is one text.
Node node_of(const std::string& typed) {
  if (typed.starts_with('{') || typed.starts_with('[')) {
    try {
      return Document::read("field", typed).root();
    } catch (const BadInput&) {
      return text_node_of(typed);  // to be refused where it is read
    }
  }
  return text_node_of(typed);
}

std::string typed_of(const Node& node) {
  return node.kind == Node::Kind::text ? node.text : node.kind == Node::Kind::nothing ? "" : in_one_line(node);
}

std::string with_its_unit(const std::string& typed, std::string_view unit) {
  if (unit.empty() || unit == "1") return typed;
  try {
    if (!parse(typed).bare) return typed;
    parse(with_unit(typed, unit));
  } catch (const InputError&) {
    return typed;
  }
  return with_unit(typed, unit);
}

// A plain number is left alone where the input takes one.
std::string with_its_unit(const Input& input, const std::string& typed, const Basis* basis) {
  if (input.kind != Kind::quantity) return typed;
  try {
    quantity_of(typed, input, basis);
    return typed;
  } catch (const InputError&) {
    return with_its_unit(typed, input.unit);
  }
}

void put(Node& map, std::string_view key, Node value) {
  map.kind = Node::Kind::map;
  map.entries.push_back({std::string(key), {}, std::move(value)});
}

// One line of a table of readings, or what is said of one lot.
Node cells(const Input& input, const std::string& name, const Fields& fields, const Basis* basis) {
  Node row;
  for (const auto& need : input.each)
    if (const auto typed = fields.get(under(name, need.input->name)); !typed.empty())
      put(row, need.input->name, node_of(with_its_unit(*need.input, typed, basis)));
  return row;
}

std::optional<Node> if_any(Node node) {
  if (node.kind == Node::Kind::nothing) return std::nullopt;
  return node;
}

Node typed_lots(const Input& input, const std::string& name, const Fields& fields, const Basis* basis,
                const std::vector<std::string>& lots) {
  Node map;
  for (const auto& lot : lots) {
    Node row = cells(input, under(name, lot), fields, basis);
    const bool taken = fields.has(under(under(name, lot), taken_mark));
    if (row.kind == Node::Kind::nothing && taken) row.kind = Node::Kind::map;
    if (row.kind != Node::Kind::nothing) put(map, lot, std::move(row));
  }
  return map;
}

Node typed_rows(const Input& input, const std::string& name, const Fields& fields, const Basis* basis) {
  Node list;
  for (std::size_t i = 0; i < lines_typed(name, fields); ++i) {
    Node row = cells(input, under(name, std::to_string(i)), fields, basis);
    if (row.kind == Node::Kind::nothing) continue;
    list.kind = Node::Kind::list;
    list.items.push_back(std::move(row));
  }
  return list;
}

// Names or quantities with a value each, in lines of two fields.
Node typed_pairs(const std::string& name, const Fields& fields, std::string_view first_unit, std::string_view unit) {
  Node map;
  for (std::size_t i = 0; i < lines_typed(name, fields); ++i) {
    const auto line = under(name, std::to_string(i));
    const auto first = fields.get(under(line, "0")), second = fields.get(under(line, "1"));
    if (!first.empty() || !second.empty())
      put(map, with_its_unit(first, first_unit), text_node_of(with_its_unit(second, unit)));
  }
  return map;
}

Node typed_keys(const std::string& name, const Fields& fields, std::string_view unit) {
  Node map;
  for (const auto& [field, typed] : fields.all())
    if (field.starts_with(name + field_mark) && !trimmed(typed).empty())
      put(map, field.substr(name.size() + 1), node_of(with_its_unit(std::string(trimmed(typed)), unit)));
  return map;
}

// What a reading is in its input's unit; nothing where it is no quantity.
std::optional<Value> quantity_typed(const Input& input, const std::string& typed, const Basis* basis) {
  if (input.kind != Kind::quantity || typed.empty()) return std::nullopt;
  try {
    return quantity_of(with_its_unit(input, typed, basis), input, basis);
  } catch (const InputError&) {
    return std::nullopt;
  }
}

std::string without_spaces(std::string text) {
  std::erase(text, ' ');
  return text;
}

}  // namespace

std::string under(std::string_view name, std::string_view part) {
  return std::string(name).append(1, field_mark).append(part);
}

std::size_t lines_typed(const std::string& name, const Fields& fields) {
  std::size_t lines = 0;
  for (const auto& [field, typed] : fields.all()) {
    if (!field.starts_with(name + field_mark) || trimmed(typed).empty()) continue;
    std::size_t line = 0;
    const char* first = field.data() + name.size() + 1;
    if (std::from_chars(first, field.data() + field.size(), line).ec == std::errc{} && line < most_lines)
      lines = std::max(lines, line + 1);
  }
  return lines;
}

std::optional<Node> typed_value(const Input& input, const std::string& name, const Fields& fields, const Basis* basis,
                                const std::vector<std::string>& lots) {
  switch (input.kind) {
    case Kind::series:
      return if_any(typed_pairs(name, fields, input.x_unit, input.unit));
    case Kind::shares:
      return if_any(typed_pairs(name, fields, {}, "%"));
    case Kind::amounts:
      return if_any(typed_keys(name, fields, input.unit));
    case Kind::bounds:
      return if_any(typed_keys(name, fields, {}));
    case Kind::lots:
      return if_any(typed_lots(input, name, fields, basis, lots));
    case Kind::rows:
      return if_any(typed_rows(input, name, fields, basis));
    case Kind::quantity:
    case Kind::choice:
    case Kind::substance:
    case Kind::name:
    case Kind::new_lot:
    case Kind::date:
      break;
  }
  const auto typed = fields.get(name);
  if (typed.empty()) return std::nullopt;
  return text_node_of(with_its_unit(input, typed, basis));
}

void put_into_fields(const Input& input, const std::string& name, const Node& value, Fields& fields) {
  const auto put_cells = [&](const std::string& line, const Node& row) {
    for (const auto& entry : row.entries) fields.add(under(line, entry.key), typed_of(entry.value));
  };
  switch (input.kind) {
    case Kind::rows:
      for (std::size_t i = 0; i < value.items.size(); ++i) put_cells(under(name, std::to_string(i)), value.items[i]);
      return;
    case Kind::lots:
      for (const auto& item : value.items) fields.add(under(under(name, item.text), taken_mark), "yes");
      for (const auto& lot : value.entries) {
        fields.add(under(under(name, lot.key), taken_mark), "yes");
        put_cells(under(name, lot.key), lot.value);
        // One figure alone goes to the column of its dimension.
        if (lot.value.kind == Node::Kind::text)
          for (const auto& need : input.each)
            if (!slip_in(*need.input, lot.value, nullptr)) {
              fields.add(under(under(name, lot.key), need.input->name), lot.value.text);
              break;
            }
      }
      return;
    case Kind::series:
    case Kind::shares:
      if (value.kind == Node::Kind::text) fields.add(under(under(name, "0"), "0"), value.text);
      if (value.kind == Node::Kind::text) fields.add(under(under(name, "0"), "1"), "100 %");
      for (std::size_t i = 0; i < value.entries.size(); ++i) {
        fields.add(under(under(name, std::to_string(i)), "0"), value.entries[i].key);
        fields.add(under(under(name, std::to_string(i)), "1"), typed_of(value.entries[i].value));
      }
      return;
    case Kind::amounts:
    case Kind::bounds:
      put_cells(name, value);
      return;
    case Kind::quantity:
    case Kind::choice:
    case Kind::substance:
    case Kind::name:
    case Kind::new_lot:
    case Kind::date:
      fields.add(name, typed_of(value));
  }
}

std::string in_words(const Range& range) {
  const auto number = [](double n) {
    constexpr double many = 1e5;  // from here on "1e+07" would be written
    return n < many ? fmt::format("{:g}", n) : fmt::format("{:.0f}", n);
  };
  return number(range.low) + " to " + number(range.high);
}

std::string understood(const Input& input, const std::string& typed, const Basis* basis) {
  const auto value = quantity_typed(input, typed, basis);
  if (!value) return {};
  const Unit unit = parse_unit(input.unit);
  std::string number = fmt::format("{:.6g}", unit.number(value->number));
  if (value->uncertainty > 0) {
    const double other = unit.number(value->number + value->uncertainty);
    number += fmt::format(" ± {:.3g}", other - unit.number(value->number));
  }
  const std::string words = input.unit == "1" ? number : with_unit(number, input.unit);
  return without_spaces(words) == without_spaces(typed) ? std::string() : words;
}

std::string unusual(const Input& input, const std::string& typed, const Basis* basis) {
  const auto value = quantity_typed(input, typed, basis);
  if (!value || !input.usual) return {};
  const double number = parse_unit(input.unit).number(value->number);
  const auto [low, high] = *input.usual;
  if (number >= low && number <= high) return {};
  return fmt::format("outside the usual {:g} to {}: look at the reading again", low,
                     with_unit(fmt::format("{:g}", high), input.unit));
}

Slip slip_of(std::string_view message, std::string_view file) {
  Slip slip;
  const auto first_end = message.find('\n');
  std::string_view first = message.substr(0, first_end);
  if (first.starts_with(file) && first.substr(file.size()).starts_with(":")) {
    first.remove_prefix(file.size() + 1);
    const auto read = std::from_chars(first.data(), first.data() + first.size(), slip.line);
    if (read.ec == std::errc{}) {
      const auto end = first.find(": ");
      if (end != std::string_view::npos) first.remove_prefix(end + 2);
    }
  }
  slip.what = trimmed(first);
  std::string_view rest = first_end == std::string_view::npos ? std::string_view() : message.substr(first_end + 1);
  while (!rest.empty()) {
    const auto line = rest.substr(0, rest.find('\n'));
    rest.remove_prefix(std::min(rest.size(), line.size() + 1));
    const auto start = line.find_first_not_of(" 0123456789");
    if (start != std::string_view::npos && line.substr(start).starts_with("| ")) continue;  // the line, and its caret
    slip.hint.append(slip.hint.empty() ? "" : " ").append(trimmed(line));
  }
  return slip;
}

std::optional<Slip> slip_in(const Input& input, const Node& value, const Basis* basis) {
  constexpr std::string_view name = "field";
  try {
    const Document doc = Document::read(std::string(name), in_one_line(value));
    read_value(doc, doc.root(), input, basis);
  } catch (const BadInput& error) {
    return slip_of(error.what(), name);
  } catch (const InputError& error) {
    return Slip{error.what(), error.hint()};
  }
  return std::nullopt;
}

}  // namespace vatwright
