#include "host/rules/condition.hpp"

#include "host/plugin/lot.hpp"
#include "units/nearest.hpp"
#include "units/parse.hpp"

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
           "the nearest is '" + std::string(nearest(entry.key, known)) + "'");
}

bool compare(const Document& doc, const Input& key, const Node& node, double number) {
  struct Sense {
    std::string_view word;
    bool (*holds)(double, double);
  };
  static constexpr Sense senses[] = {{"below ", [](double a, double b) { return a < b; }},
                                     {"above ", [](double a, double b) { return a > b; }},
                                     {"at most ", [](double a, double b) { return a <= b; }},
                                     {"at least ", [](double a, double b) { return a >= b; }}};
  for (const auto& sense : senses) {
    if (!node.text.starts_with(sense.word)) continue;
    const auto figure = std::string_view(node.text).substr(sense.word.size());
    try {
      const Measured bound = expect(parse(figure), {key.dimension, key.counted, key.unit}, figure);
      return sense.holds(number, bound.value);
    } catch (const InputError& error) {
      doc.fail(node, InputError(error.what(), error.hint(), error.offset() + sense.word.size()));
    }
  }
  doc.fail(node.mark, "expected 'below', 'above', 'at most' or 'at least' and a figure, read '" + node.text + "'");
}

// A word that no lot can have would never apply, and its limit would be lost without a sound.
bool is_word(const Document& doc, const Input& key, const Node& node, const std::string& word) {
  if (std::find(key.choices.begin(), key.choices.end(), node.text) == key.choices.end()) {
    const auto close = nearest(node.text, key.choices);
    doc.fail(node.mark, std::string(key.name) + " is never " + in_quotes(node.text),
             close.empty() ? "'vatwright show' lists the words of a lot" : "the nearest is " + in_quotes(close));
  }
  return node.text == word;
}

// `value` is nullptr when the lot does not say; the condition is read all the same.
bool holds(const Document& doc, const Input& key, const Node& node, const Value* value) {
  if (key.kind == Kind::quantity) return compare(doc, key, node, value == nullptr ? 0 : value->number);
  const std::string word = value == nullptr ? std::string() : value->word;
  if (node.kind == Node::Kind::text) return is_word(doc, key, node, word);
  bool any = false;
  for (const Node& item : node.items) any = is_word(doc, key, item, word) || any;
  return any;
}

}  // namespace

Applies applies(const Document& doc, const Node* when, const LotView& lot) {
  auto verdict = Applies::yes;
  if (when == nullptr) return verdict;
  if (when->kind != Node::Kind::map)
    doc.fail(when->mark, "expected what must hold", "such as {stage: wine, colour: [white, pink], sugar: below 5 g/L}");
  for (const auto& entry : when->entries) {
    const Input& key = key_of(doc, entry);
    const Value* value = lot(key.name);
    const bool does = holds(doc, key, entry.value, value);
    if (value != nullptr && !does) verdict = Applies::no;
    if (value == nullptr && verdict == Applies::yes) verdict = Applies::open;
  }
  return verdict;
}

std::string words(const Node* when, const LotView& lot) {
  if (when == nullptr) return {};
  std::string out, open;
  for (const auto& entry : when->entries) {
    const Value* value = lot(entry.key);
    const bool figure = entry.value.kind == Node::Kind::text && entry.value.text.find(' ') != std::string::npos;
    if (value == nullptr)
      open += (open.empty() ? "" : ", ") + entry.key;
    else if (figure)
      out += (out.empty() ? "" : ", ") + entry.key + " " + entry.value.text;
    else
      out += (out.empty() ? "" : ", ") + value->word;
  }
  if (!open.empty()) out += (out.empty() ? "" : "; ") + ("not stated: " + open + ", so the strictest row is taken");
  return out;
}

std::string as_written(const Node* when) {
  std::string out;
  if (when == nullptr) return out;
  for (const auto& entry : when->entries) {
    out += (out.empty() ? "" : ", ") + entry.key + " ";
    if (entry.value.kind == Node::Kind::text) out += entry.value.text;
    for (std::size_t i = 0; i < entry.value.items.size(); ++i) out += (i > 0 ? " or " : "") + entry.value.items[i].text;
  }
  return out;
}

}  // namespace vatwright
