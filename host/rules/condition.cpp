#include "host/rules/condition.hpp"

#include "host/plugin/lot.hpp"
#include "units/expect.hpp"
#include "units/nearest.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <string>
#include <vector>

namespace vatwright {
namespace {

const Input& key_of(const Document& doc, const Entry& entry) {
  std::vector<std::string_view> known;
  for (const Input* key : lot::keys) {
    if (key->name == entry.key) return *key;
    known.push_back(key->name);
  }
  doc.fail(entry.mark, "'" + entry.key + "' is nothing that a lot has",
           did_you_mean(entry.key, known, fmt::format("a lot has {}", fmt::join(known, ", "))));
}

struct Comparison {
  std::string_view word;
  bool (*holds)(double, double);
};
constexpr Comparison comparisons[] = {{"below ", [](double a, double b) { return a < b; }},
                                      {"above ", [](double a, double b) { return a > b; }},
                                      {"at most ", [](double a, double b) { return a <= b; }},
                                      {"at least ", [](double a, double b) { return a >= b; }}};

const Comparison& comparison_of(const Document& doc, const Node& node) {
  for (const auto& comparison : comparisons)
    if (node.text.starts_with(comparison.word)) return comparison;
  doc.fail(node.mark, "expected 'below', 'above', 'at most' or 'at least' and a figure, read '" + node.text + "'",
           "such as 'below 5 g/L'");
}

double bound_of(const Document& doc, const Input& key, const Node& node, const Comparison& comparison) {
  const auto figure = std::string_view(node.text).substr(comparison.word.size());
  try {
    return expect(parse(figure), {key.dimension, key.counted, key.unit}, figure).value;
  } catch (const InputError& error) {
    doc.fail(node, InputError(error.what(), error.hint(), error.offset() + comparison.word.size()));
  }
}

// A word that no lot can have would never apply, and its limit would be lost without a sound.
const std::string& word_of(const Document& doc, const Input& key, const Node& node) {
  if (std::find(key.choices.begin(), key.choices.end(), node.text) != key.choices.end()) return node.text;
  const std::string words = fmt::format("a lot's {} is one of: {}", key.name, fmt::join(key.choices, ", "));
  doc.fail(node.mark, std::string(key.name) + " is never " + in_quotes(node.text),
           did_you_mean(node.text, key.choices, words));
}

// What the law counts and a lot does not state counts as none.
const Value* known_of(const Input& key, const LotView& lot) {
  static const Value none{};
  const Value* value = lot(key.name);
  return value == nullptr && key.kind == Kind::quantity && lot::is_counted_by_law(&key) ? &none : value;
}

}  // namespace

Condition::Clause Condition::read(const Document& doc, const Entry& entry) {
  const Input& key = key_of(doc, entry);
  const Node& node = entry.value;
  Clause clause{&key};
  if (key.kind == Kind::quantity) {
    const Comparison& comparison = comparison_of(doc, node);
    clause.compare = comparison.holds;
    clause.bound = bound_of(doc, key, node, comparison);
    clause.figure = node.text;
  } else if (node.kind == Node::Kind::text) {
    clause.any_of.push_back(word_of(doc, key, node));
    if (node.text.find(' ') != std::string::npos) clause.figure = node.text;  // "zone C III a"
  } else {
    for (const Node& item : node.items) clause.any_of.push_back(word_of(doc, key, item));
  }
  return clause;
}

bool Condition::Clause::holds(const Value& value) const {
  if (compare != nullptr) return compare(value.number, bound);
  return std::find(any_of.begin(), any_of.end(), value.word) != any_of.end();
}

Condition::Condition(const Document& doc, const Node* when) {
  if (when == nullptr) return;
  if (when->kind != Node::Kind::map)
    doc.fail(when->mark, "expected what must hold", "such as {stage: wine, colour: [white, pink], sugar: below 5 g/L}");
  for (const auto& entry : when->entries) clauses_.push_back(read(doc, entry));
}

Applies Condition::applies(const LotView& lot) const {
  auto verdict = Applies::yes;
  for (const auto& clause : clauses_) {
    const Value* value = known_of(*clause.key, lot);
    if (value == nullptr)
      verdict = Applies::open;
    else if (!clause.holds(*value))
      return Applies::no;
  }
  return verdict;
}

std::string Condition::words(const LotView& lot) const {
  std::string out, open;
  for (const auto& clause : clauses_) {
    const Value* value = known_of(*clause.key, lot);
    auto& list = value == nullptr ? open : out;
    if (!list.empty()) list += ", ";
    if (value != nullptr && clause.figure.empty()) {
      list += value->word;
      continue;
    }
    list += clause.key->name;
    if (value != nullptr) list.append(" ").append(clause.figure);
  }
  if (!open.empty()) out += (out.empty() ? "" : "; ") + ("not stated: " + open + ", so the strictest row is taken");
  return out;
}

}  // namespace vatwright
