#include "host/recipe/value.hpp"

#include "host/recipe/allowed.hpp"
#include "host/recipe/lot_name.hpp"
#include "host/recipe/node_reader.hpp"
#include "host/recipe/quantity.hpp"
#include "host/yaml/nodes.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <chrono>
#include <cmath>

namespace vatwright {
namespace {

Value read_quantity(const NodeReader& n, const Node& node) {
  const std::string& text = n.text_of(node);
  try {
    return quantity_of(text, n.input(), n.acid_basis());
  } catch (const InputError& error) {
    n.fail(node, error);
  }
}

Value read_word(const NodeReader& n, const Node& node) {
  Value value;
  value.word = n.text_of(node);
  n.at(node.mark, [&] { refuse_unknown_word(n.input(), value.word); });
  return value;
}

// {Sorrel: 60 %, Blackthorn: 40 %}, or one name alone.
Value read_shares(const NodeReader& n, const Node& node) {
  Value value;
  if (node.kind == Node::Kind::text) {
    value.shares.emplace_back(node.text, 1.0);
    return value;
  }
  if (node.kind != Node::Kind::map || node.entries.empty())
    n.fail(node.mark, "expected a name, or names with their shares", "such as {Sorrel: 60 %, Blackthorn: 40 %}");
  double sum = 0;
  for (const auto& entry : node.entries) {
    const double share = n.exact(entry.value, {dimension_of<Fraction>(), {}, "%"});
    if (!(share >= 0 && share <= 1))
      n.fail(entry.value.mark, "a share of '" + entry.value.text + "', expected 0 % to 100 %", "correct the share");
    sum += share;
    value.shares.emplace_back(entry.key, share);
  }
  constexpr double rounding = 0.005;  // of shares written to a per cent
  if (std::abs(sum - 1) > rounding)
    n.fail(node.mark, "the shares make " + print_number(100 * sum, 1) + " %, expected 100 %",
           "correct the shares, or add the one that is missing");
  return value;
}

// {PVPP: 60 g/hL}
Value read_amounts(const NodeReader& n, const Node& node) {
  const std::string such =
      "such as {" + std::string(n.input().choices.front()) + ": ... " + std::string(n.input().unit) + "}";
  if (node.kind != Node::Kind::map || node.entries.empty())
    n.fail(node.mark, "expected names with their amounts", such);
  Value value;
  for (const auto& entry : node.entries) {
    n.at(entry.mark, [&] { refuse_unknown_word(n.input(), entry.key); });
    const double amount = n.exact(entry.value, n.expected());
    n.in_range(entry.value, amount);
    value.amounts.emplace_back(entry.key, amount);
  }
  return value;
}

Value read_name(const NodeReader& n, const Node& node) {
  Value value;
  value.word = n.text_of(node);
  constexpr std::size_t most = 100;
  if (value.word.size() > most)
    n.fail(node.mark, fmt::format("a name of {} bytes, expected 1 to {}", value.word.size(), most),
           "write a shorter one");
  if (n.input().kind == Kind::new_lot) n.at(node.mark, [&] { check_lot_name(value.word); });
  return value;
}

// 2026-09-14
Value read_date(const NodeReader& n, const Node& node) {
  const std::string& text = n.text_of(node);
  const auto digits = [&](std::size_t from, std::size_t count) {
    int number = 0;
    for (std::size_t i = from; i < from + count; ++i) {
      if (text[i] < '0' || text[i] > '9') return -1;
      number = 10 * number + (text[i] - '0');
    }
    return number;
  };
  constexpr std::size_t length = 10;
  if (text.size() == length && text[4] == '-' && text[7] == '-') {
    const std::chrono::year_month_day day{std::chrono::year(digits(0, 4)),
                                          std::chrono::month(static_cast<unsigned>(digits(5, 2))),
                                          std::chrono::day(static_cast<unsigned>(digits(8, 2)))};
    if (digits(0, 4) >= 1900 && day.ok()) {
      Value value;
      value.number = static_cast<double>(std::chrono::sys_days(day).time_since_epoch().count());
      value.written = text;
      return value;
    }
  }
  n.fail(node.mark, "'" + text + "' is no day", "write year, month and day, such as 2026-09-14");
}

}  // namespace

Value read_value(const Document& doc, const Node& node, const Input& input, const Basis* acid_basis) {
  const NodeReader n(doc, input, acid_basis);
  switch (input.kind) {
    case Kind::quantity:
      return read_quantity(n, node);
    case Kind::choice:
    case Kind::substance:
      return read_word(n, node);
    case Kind::series:
      return read_series(n, node);
    case Kind::shares:
      return read_shares(n, node);
    case Kind::amounts:
      return read_amounts(n, node);
    case Kind::name:
    case Kind::new_lot:
      return read_name(n, node);
    case Kind::date:
      return read_date(n, node);
    case Kind::bounds:
      return read_bounds(n, node);
    case Kind::lots:
      return read_lots(n, node);
    case Kind::rows:
      return read_rows(n, node);
  }
  return {};
}

Value read_default(std::string_view text, const Input& input) {
  const Document doc =
      Document::of("default of " + std::string(input.name), std::string(text), text_node_of(text, {1, 0}));
  return read_value(doc, doc.root(), input, nullptr);
}

}  // namespace vatwright
