#include "host/rules/rules.hpp"

#include "host/files/hash.hpp"
#include "units/nearest.hpp"
#include "units/parse.hpp"

#include <algorithm>
#include <array>
#include <utility>

namespace vatwright {
namespace {

constexpr std::array<std::string_view, 3> heads{"rules", "title", "note"};
constexpr std::array<std::string_view, 7> row_keys{"at most", "at least", "when",   "source",
                                                   "text of", "standing", "meaning"};
constexpr std::array<std::pair<std::string_view, Sense>, 2> senses{
    {{"at most", Sense::at_most}, {"at least", Sense::at_least}}};

std::string text(const Node& row, std::string_view key) {
  const Node* node = row.find(key);
  return node == nullptr ? std::string() : node->text;
}

bool stricter(const LimitRow& a, const LimitRow& b) {
  return a.sense == Sense::at_most ? a.number < b.number : a.number > b.number;
}

// The rows under a topic. Anything but a list would be no limit at all, without a sound.
const std::vector<Node>& rows_of(const Document& doc, std::string_view topic) {
  const Node* list = doc.root().find(topic);
  if (list == nullptr || list->kind != Node::Kind::list || list->items.empty())
    doc.fail(list == nullptr ? doc.root().mark : list->mark,
             "expected rows under '" + std::string(topic) + "', each beginning with '- '");
  return list->items;
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

}  // namespace

RuleSet::RuleSet(const std::filesystem::path& file) : sections_(file), sha256_(sha256_of(sections_.text())) {
  for (const auto& [key, into] : {std::pair{heads[0], &name_}, {heads[1], &title_}, {heads[2], &note_}})
    if (const auto doc = sections_.find(key)) *into = text(doc->root(), key);
  if (name_.empty()) throw BadInput(file.string() + ": a rule set without a line 'rules: NAME'");
}

std::vector<std::string_view> RuleSet::topics() const {
  std::vector<std::string_view> out;
  for (const auto name : sections_.names())
    if (std::find(heads.begin(), heads.end(), name) == heads.end()) out.push_back(name);
  return out;
}

RuleSet::Row RuleSet::read_row(const Document& doc, const Node& node) const {
  for (const auto& entry : node.entries) {
    if (std::find(row_keys.begin(), row_keys.end(), entry.key) != row_keys.end()) continue;
    const auto close = nearest(entry.key, row_keys);
    doc.fail(entry.mark, "a rule has no " + in_quotes(entry.key),
             close.empty() ? std::string() : "the nearest is " + in_quotes(close));
  }
  for (const auto& [word, sense] : senses) {
    const Node* figure = node.find(word);
    if (figure == nullptr) continue;
    Row row;
    row.figure = figure->text;
    row.limit.sense = sense;
    row.limit.rules = name_;
    row.limit.source = text(node, "source");
    row.standing = text(node, "standing");
    row.meaning = text(node, "meaning");
    row.when = as_written(node.find("when"));
    if (const auto date = text(node, "text of"); !date.empty()) row.limit.source += ", text of " + date;
    if (row.limit.source.empty()) doc.fail(node.mark, "a rule without a source");
    if (!row.standing.empty() && row.standing != "seen") row.limit.source += " (" + row.standing + ")";
    return row;
  }
  doc.fail(node.mark, "a rule without a figure", "write 'at most: ...' or 'at least: ...'");
}

std::vector<RuleSet::Row> RuleSet::rows(std::string_view topic) const {
  std::vector<Row> out;
  const auto doc = sections_.find(topic);
  if (!doc) return out;
  for (const auto& node : rows_of(*doc, topic)) out.push_back(read_row(*doc, node));
  return out;
}

void RuleSet::read(std::string_view topic) {
  if (read_.contains(topic)) return;
  if (auto doc = sections_.find(topic)) read_.emplace(topic, std::move(*doc));
}

std::optional<LimitRow> RuleSet::limit(const LimitInfo& wanted, const LotView& lot) const {
  const auto known = read_.find(wanted.name);
  const auto found = known == read_.end() ? sections_.find(wanted.name) : std::nullopt;
  if (known == read_.end() && !found) return std::nullopt;
  const Document* const doc = found ? &*found : &known->second;
  std::optional<LimitRow> strictest;
  std::optional<Sense> sense;
  for (const auto& node : rows_of(*doc, wanted.name)) {
    const Node* when = node.find("when");
    LimitRow row = read_row(*doc, node).limit;
    if (sense.value_or(row.sense) != row.sense)
      doc->fail(node.mark, "'at most' and 'at least' under one topic", "give the two figures topics of their own");
    sense = row.sense;
    const Node& figure = *node.find(row.sense == Sense::at_most ? "at most" : "at least");
    try {
      row.number = expect(parse(figure.text), {wanted.dimension, {}, wanted.unit}, figure.text).value;
    } catch (const InputError& error) {
      doc->fail(figure, error);
    }
    // Every row is read, so that a slip in one is found whatever the lot.
    if (applies(*doc, when, lot) == Applies::no) continue;
    row.condition = words(when, lot);
    if (!strictest || stricter(row, *strictest)) strictest = std::move(row);
  }
  return strictest;
}

std::optional<LimitRow> Rules::limit(const LimitInfo& wanted, const LotView& lot) const {
  std::optional<LimitRow> strictest;
  for (const auto& set : sets_) {
    auto row = set.limit(wanted, lot);
    if (row && strictest && row->sense != strictest->sense)
      throw BadInput("the rule sets " + strictest->rules + " and " + row->rules +
                     " give 'at most' and 'at least' for " + in_quotes(wanted.name) + "; they cannot be joined");
    if (row && (!strictest || stricter(*row, *strictest))) strictest = std::move(row);
  }
  return strictest;
}

}  // namespace vatwright
