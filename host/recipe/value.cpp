#include "host/recipe/value.hpp"

#include "units/nearest.hpp"
#include "units/parse.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace vatwright {
namespace {

class ValueReader {
 public:
  ValueReader(const Document& doc, const Input& input, const Basis* basis)
      : doc_(doc), input_(input), basis_(basis), prefix_(std::string(input.name) + ": ") {}

  Value read(const Node& node) const {
    switch (input_.kind) {
      case Kind::quantity:
        return quantity(node);
      case Kind::choice:
      case Kind::substance:
        return word(node);
      case Kind::series:
        return series(node);
      case Kind::shares:
        return shares(node);
    }
    return {};
  }

 private:
  [[noreturn]] void fail(Mark mark, const std::string& what, const std::string& hint = {}) const {
    doc_.fail(mark, prefix_ + what, hint);
  }

  const std::string& text_of(const Node& node) const {
    if (node.kind == Node::Kind::text) return node.text;
    fail(node.mark, node.kind == Node::Kind::nothing ? "nothing is written here" : "expected one value, read several",
         example());
  }

  std::string example() const {
    if (input_.kind != Kind::quantity) return choices();
    return input_.unit == "1" ? "write a plain number"
                              : "write a number and its unit, such as " + std::string(input_.unit);
  }

  std::string choices() const {
    std::string out;
    for (const auto choice : input_.choices) out += (out.empty() ? "one of: " : ", ") + std::string(choice);
    return out;
  }

  Measured measured(const Node& node, const Expected& expected) const {
    const std::string& text = text_of(node);
    try {
      return expect(parse(text), expected, text);
    } catch (const InputError& error) {
      doc_.fail(node, error, prefix_);
    }
  }

  void in_range(const Node& node, double coherent) const {
    if (!input_.valid) return;
    const Unit unit = parse_unit(input_.unit);
    const double number = unit.number(coherent);
    // A bound that is met exactly may be missed by the last bit of a conversion.
    const double slack = 1e-9 * std::max(std::abs(input_.valid->low), std::abs(input_.valid->high));
    if (number >= input_.valid->low - slack && number <= input_.valid->high + slack) return;
    fail(node.mark,
         fmt::format("'{}' is outside what can be: {:g} to {}", node.text, input_.valid->low,
                     with_unit(fmt::format("{:g}", input_.valid->high), input_.unit)),
         "check the figure and its unit");
  }

  Value quantity(const Node& node) const {
    const Measured m = measured(node, {input_.dimension, input_.counted, input_.unit, basis_});
    in_range(node, m.value);
    Value value;
    value.number = m.value;
    value.uncertainty = m.uncertainty;
    value.written = node.text;
    const bool by_recipe = input_.dimension == dimension_of<Acidity>() && basis_ != nullptr &&
                           node.text.find("eq") == std::string::npos && node.text.find(" as ") == std::string::npos;
    if (by_recipe) value.written += " as " + std::string(basis_->name);
    return value;
  }

  Value word(const Node& node) const {
    Value value;
    value.word = text_of(node);
    if (std::find(input_.choices.begin(), input_.choices.end(), value.word) != input_.choices.end()) return value;
    const auto close = nearest(value.word, input_.choices);
    fail(node.mark, "'" + value.word + "' is not known here",
         (close.empty() ? "" : "the nearest is '" + std::string(close) + "'; ") + choices());
  }

  // {path: 10 mm, 420 nm: 0.35 AU, 520 nm: 0.42 AU}
  Value series(const Node& node) const {
    if (node.kind != Node::Kind::map || node.entries.empty())
      fail(node.mark, "expected a map of " + std::string(input_.x_unit) + " to " + std::string(input_.unit));
    Value value;
    for (const auto& entry : node.entries) {
      if (entry.key == "path") {
        value.series.path = measured(entry.value, {dimension_of<Length>(), {}, "mm"}).value;
        if (!(*value.series.path > 0)) fail(entry.value.mark, "a path that is not above zero");
        continue;
      }
      Node key;
      key.kind = Node::Kind::text;
      key.text = entry.key;
      key.mark = entry.mark;
      const double x = measured(key, {input_.x_dimension, {}, input_.x_unit}).value;
      const double y = measured(entry.value, {input_.dimension, input_.counted, input_.unit}).value;
      in_range(entry.value, y);
      value.series.points.emplace_back(x, y);
    }
    if (value.series.points.empty()) fail(node.mark, "no readings");
    if (input_.dimension == dimension_of<Absorbance>() && !value.series.path)
      fail(node.mark, "an absorbance without its optical path", "add 'path: 10 mm' (the cell that was used)");
    std::sort(value.series.points.begin(), value.series.points.end());
    return value;
  }

  // {Sorrel: 60 %, Blackthorn: 40 %}, or one name alone.
  Value shares(const Node& node) const {
    Value value;
    if (node.kind == Node::Kind::text) {
      value.shares.emplace_back(node.text, 1.0);
      return value;
    }
    if (node.kind != Node::Kind::map || node.entries.empty())
      fail(node.mark, "expected a name, or names with their shares", "such as {Sorrel: 60 %, Blackthorn: 40 %}");
    double sum = 0;
    for (const auto& entry : node.entries) {
      const double share = measured(entry.value, {dimension_of<Fraction>(), {}, "%"}).value;
      if (!(share >= 0 && share <= 1))
        fail(entry.value.mark, "a share of '" + entry.value.text + "', expected 0 % to 100 %");
      sum += share;
      value.shares.emplace_back(entry.key, share);
    }
    constexpr double rounding = 0.005;  // of shares written to a per cent
    if (std::abs(sum - 1) > rounding)
      fail(node.mark, "the shares make " + print_number(100 * sum, 1) + " %, expected 100 %");
    return value;
  }

  const Document& doc_;
  const Input& input_;
  const Basis* basis_;
  std::string prefix_;
};

}  // namespace

Value read_value(const Document& doc, const Node& node, const Input& input, const Basis* acid_basis) {
  return ValueReader(doc, input, acid_basis).read(node);
}

Value read_default(std::string_view text, const Input& input) {
  const Document doc = Document::read("default of " + std::string(input.name), "\"" + std::string(text) + "\"");
  return read_value(doc, doc.root(), input, nullptr);
}

}  // namespace vatwright
