#include "host/rules/terms.hpp"

#include "host/plugin/lot.hpp"
#include "host/rules/row.hpp"
#include "host/yaml/known_keys.hpp"
#include "units/expect.hpp"
#include "units/nearest.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace vatwright {
namespace {

constexpr std::string_view over_acidity = "sugar less acidity";
constexpr std::string_view at_most = "at most ";
constexpr std::array<std::string_view, 4> bounds{"sugar at least", "sugar above", "sugar at most", "sugar below"};
constexpr std::array<std::string_view, 11> term_keys{"term", bounds[0], bounds[1], bounds[2],  bounds[3], over_acidity,
                                                     "when", "source",  "text of", "standing", "meaning"};

// Mass per volume; `skipped` bytes of the node's text stand before the figure.
double sugar(const Document& doc, const Node& node, std::size_t skipped = 0) {
  const auto figure = std::string_view(node.text).substr(skipped);
  try {
    return expect(parse(figure), {lot::sugar.dimension, {}, lot::sugar.unit}, figure).value;
  } catch (const InputError& error) {
    doc.fail(node, InputError(error.what(), error.hint(), error.offset() + skipped));
  }
}

double read_over_acidity(const Document& doc, const Node& node) {
  if (!node.text.starts_with(at_most))
    doc.fail(node.mark, "expected 'at most' and a figure, read " + in_quotes(node.text), "such as 'at most 2 g/L'");
  return sugar(doc, node, at_most.size());
}

void refuse_twice(const Document& doc, const Node& row, std::string_view one, std::string_view other) {
  if (row.find(one) != nullptr && row.find(other) != nullptr)
    doc.fail(row.mark, in_quotes(one) + " and " + in_quotes(other) + " in one row", "keep one of the two");
}

// A bound that is itself left out is the next number beside it.
void read_bounds(const Document& doc, const Node& row, TermRow& term) {
  constexpr double endless = std::numeric_limits<double>::infinity();
  refuse_twice(doc, row, bounds[0], bounds[1]);
  refuse_twice(doc, row, bounds[2], bounds[3]);
  if (const Node* node = row.find(bounds[0])) term.least_sugar = sugar(doc, *node);
  if (const Node* node = row.find(bounds[1])) term.least_sugar = std::nextafter(sugar(doc, *node), endless);
  if (const Node* node = row.find(bounds[2])) term.most_sugar = sugar(doc, *node);
  if (const Node* node = row.find(bounds[3])) term.most_sugar = std::nextafter(sugar(doc, *node), -endless);
  if (const Node* node = row.find(over_acidity)) term.most_over_acidity = read_over_acidity(doc, *node);
  if (std::none_of(bounds.begin(), bounds.end(), [&](auto key) { return row.find(key) != nullptr; }))
    doc.fail(row.mark, "a sweetness term without a figure", "write 'sugar at most: ...' or 'sugar at least: ...'");
  if (term.least_sugar > term.most_sugar)
    doc.fail(row.mark, "no sugar is above the one bound and below the other", "look whether the two are swapped");
}

std::string figures_of(const Node& row) {
  std::string out;
  for (const auto& key : {bounds[0], bounds[1], bounds[2], bounds[3], over_acidity})
    if (const Node* node = row.find(key)) out += (out.empty() ? "" : ", ") + std::string(key) + " " + node->text;
  return out;
}

TermLine read_line(const Document& doc, const Node& row, const std::string& rules, const LotView& lot) {
  if (row.kind != Node::Kind::map)
    doc.fail(row.mark, "expected a sweetness term", "such as {term: dry, sugar at most: 4 g/L, source: ...}");
  refuse_unknown_keys(doc, row, "a rule", term_keys);
  const Condition when(doc, row.find("when"));
  TermLine line;
  line.row.word = text_of(row, "term");
  if (line.row.word.empty()) doc.fail(row.mark, "a row without its word", "write 'term: dry'");
  read_bounds(doc, row, line.row);
  line.row.rules = rules;
  line.row.source = cited(doc, row);
  line.applies = when.applies(lot);
  line.row.condition = when.words(lot);
  line.figures = figures_of(row);
  line.when = as_written(row.find("when"));
  line.row.meaning = text_of(row, "meaning");
  return line;
}

}  // namespace

std::vector<TermLine> read_terms(const Document& doc, const std::string& rules, const LotView& lot) {
  std::vector<TermLine> out;
  for (const Node& row : rows_of(doc, terms_section)) out.push_back(read_line(doc, row, rules, lot));
  return out;
}

}  // namespace vatwright
