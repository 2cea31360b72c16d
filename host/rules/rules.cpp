#include "host/rules/rules.hpp"

#include "host/rules/become_wine.hpp"
#include "host/rules/row.hpp"
#include "host/yaml/known_keys.hpp"
#include "units/expect.hpp"
#include "units/nearest.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>
#include <utility>

namespace vatwright {
namespace {

// Sections that hold no limits.
constexpr std::array<std::string_view, 9> heads{
    "rules", "title", "note", "includes", "confirmed", "review by", composition_topic, terms_section, agents_section};
constexpr std::array<Sense, 3> senses{Sense::at_most, Sense::at_least, Sense::below};
constexpr std::array<std::string_view, 8> row_keys{in_words(Sense::at_most),
                                                   in_words(Sense::at_least),
                                                   in_words(Sense::below),
                                                   "when",
                                                   "source",
                                                   "text of",
                                                   "standing",
                                                   "meaning"};

bool stricter(const LimitRow& a, const LimitRow& b) {
  if (!is_ceiling(a.sense)) return a.number > b.number;
  return a.number < b.number || (a.number == b.number && a.sense == Sense::below && b.sense != Sense::below);
}

// All rows ask for the same few facts, by the names that our keys have for them (lot::keys): each is looked up once.
LotView remembering(const LotView& lot) {
  return [&lot, known = std::vector<std::pair<const char*, const Value*>>()](std::string_view key) mutable {
    const auto at = std::find_if(known.begin(), known.end(), [&](const auto& one) { return one.first == key.data(); });
    return at != known.end() ? at->second : known.emplace_back(key.data(), lot(key)).second;
  };
}

// "includes: EU", or a list of names.
std::vector<std::string> names_in(const Document& doc) {
  const Node& node = *doc.root().find(heads[3]);
  std::vector<std::string> names;
  if (node.kind == Node::Kind::text) names.push_back(node.text);
  for (const Node& item : node.items) names.push_back(item.text);
  if (names.empty())
    doc.fail(node.mark, "expected the name of a rule set, or a list of names", "such as 'includes: EU'");
  return names;
}

}  // namespace

RuleSet::RuleSet(const std::filesystem::path& file) : sections_(file) {
  for (const auto& [key, into] : {std::pair{heads[0], &name_},
                                  {heads[1], &title_},
                                  {heads[2], &note_},
                                  {heads[4], &confirmed_},
                                  {heads[5], &review_by_}})
    if (const auto doc = sections_.find(key)) *into = text_of(doc->root(), key);
  if (const auto doc = sections_.find(heads[3])) includes_ = names_in(*doc);
  if (name_.empty())
    throw BadInput(file.string() + ": a rule set without a line 'rules: NAME'\n  add one, such as 'rules: our house'");
  if (const auto doc = sections_.find(agents_section)) agents_ = read_agents(*doc, name_);
}

std::vector<std::string_view> RuleSet::topics() const {
  std::vector<std::string_view> out;
  for (const auto name : sections_.names())
    if (std::find(heads.begin(), heads.end(), name) == heads.end()) out.push_back(name);
  return out;
}

void RuleSet::refuse_unknown_topics(const std::vector<std::string>& known) const {
  for (const auto topic : topics())
    if (std::find(known.begin(), known.end(), topic) == known.end()) {
      const auto doc = *sections_.find(topic);
      doc.fail(doc.root().entries.front().mark, "no calculation holds a limit on " + in_quotes(topic),
               did_you_mean(topic, std::vector<std::string_view>(known.begin(), known.end()),
                            fmt::format("there are limits on: {}", fmt::join(known, ", "))));
    }
}

RuleSet::Row RuleSet::read_row(const Document& doc, const Node& node) const {
  refuse_unknown_keys(doc, node, "a rule", row_keys);
  const auto figures =
      std::count_if(senses.begin(), senses.end(), [&](Sense one) { return node.find(in_words(one)) != nullptr; });
  if (figures > 1) doc.fail(node.mark, "two figures in one rule", "give each a row of its own");
  for (const auto sense : senses) {
    const Node* figure = node.find(in_words(sense));
    if (figure == nullptr) continue;
    Row row;
    row.figure = figure->text;
    row.limit.sense = sense;
    row.limit.rules = name_;
    row.limit.source = cited(doc, node);
    row.standing = text_of(node, "standing");
    row.meaning = text_of(node, "meaning");
    row.when = as_written(node.find("when"));
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

// Every row is read, so that a slip in one is found whatever the lot.
std::vector<RuleSet::Ready> RuleSet::ready_rows(const LimitInfo& wanted) const {
  std::vector<Ready> out;
  const auto doc = sections_.find(wanted.name);
  if (!doc) return out;
  for (const auto& node : rows_of(*doc, wanted.name)) {
    const Row read = read_row(*doc, node);
    LimitRow row = read.limit;
    // What the row says beyond its figure is read with the check.
    if (!read.meaning.empty()) row.source += "; " + read.meaning;
    if (!out.empty() && is_ceiling(out.front().limit.sense) != is_ceiling(row.sense))
      doc->fail(node.mark, "'at most' and 'at least' under one topic", "give the two figures topics of their own");
    const Node& figure = *node.find(in_words(row.sense));
    try {
      row.number = expect(parse(figure.text), {wanted.dimension, {}, wanted.unit}, figure.text).value;
    } catch (const InputError& error) {
      doc->fail(figure, error);
    }
    out.push_back({std::move(row), Condition(*doc, node.find("when"))});
  }
  return out;
}

void RuleSet::read(const LimitInfo& wanted) {
  if (!read_.contains(wanted.name)) read_.emplace(wanted.name, ready_rows(wanted));
}

std::optional<LimitRow> RuleSet::limit(const LimitInfo& wanted, const LotView& lot) const {
  const auto known = read_.find(wanted.name);
  const auto fresh = known == read_.end() ? ready_rows(wanted) : std::vector<Ready>();
  const Ready* strictest = nullptr;
  for (const auto& row : known == read_.end() ? fresh : known->second)
    if (row.when.applies(lot) != Applies::no && (strictest == nullptr || stricter(row.limit, strictest->limit)))
      strictest = &row;
  if (strictest == nullptr) return std::nullopt;
  LimitRow out = strictest->limit;
  out.condition = strictest->when.words(lot);
  return out;
}

std::vector<CompositionRow> RuleSet::composition() const {
  const auto doc = sections_.find(composition_topic);
  return doc ? read_composition(*doc, name_) : std::vector<CompositionRow>();
}

std::vector<CompositionRule> RuleSet::composition(const LotView& lot) const {
  const auto doc = sections_.find(composition_topic);
  return doc ? composition_for(*doc, name_, lot) : std::vector<CompositionRule>();
}

std::vector<CompositionRule> Rules::composition(const LotView& lot) const {
  std::vector<CompositionRule> all;
  for (const auto& set : sets_)
    for (auto& rule : set.composition(lot)) all.push_back(std::move(rule));
  return all;
}

std::vector<AgentRule> RuleSet::agents(std::string_view purpose, const LotView& lot) const {
  std::vector<AgentRule> out;
  for (const auto& row : agents_) {
    if (row.rule.purpose != purpose || row.applies.applies(lot) == Applies::no) continue;
    out.push_back(row.rule);
    out.back().condition = row.applies.words(lot);
  }
  return out;
}

std::vector<AgentRule> Rules::agents(std::string_view purpose, const LotView& lot) const {
  std::vector<AgentRule> all;
  for (const auto& set : sets_)
    for (auto& rule : set.agents(purpose, lot)) all.push_back(std::move(rule));
  return all;
}

std::optional<LimitRow> Rules::limit(const LimitInfo& wanted, const LotView& of) const {
  std::optional<LimitRow> strictest;
  const LotView lot = remembering(of);
  const bool wine_too = has_become_wine(lot);
  for (const auto& set : sets_) {
    auto row = set.limit(wanted, lot);
    if (wine_too)
      if (auto of_wine = set.limit(wanted, as_wine(lot)); of_wine && (!row || stricter(*of_wine, *row))) {
        row = std::move(of_wine);
        row->condition += std::string(row->condition.empty() ? "" : "; ") + counts_as_wine;
      }
    if (row && strictest && is_ceiling(row->sense) != is_ceiling(strictest->sense))
      throw BadInput("the rule sets " + strictest->rules + " and " + row->rules +
                     " give 'at most' and 'at least' for " + in_quotes(wanted.name) +
                     "; they cannot be joined\n  keep one of the two sets under 'rules:'");
    if (row && (!strictest || stricter(*row, *strictest))) strictest = std::move(row);
  }
  return strictest;
}

std::vector<std::string> Rules::silent(const std::vector<const LimitInfo*>& topics, const LotView& lot) const {
  const LotView wine = as_wine(lot);
  const bool wine_too = has_become_wine(lot);
  const auto speaks = [&](const RuleSet& set) {
    return std::any_of(topics.begin(), topics.end(), [&](const LimitInfo* topic) {
      return set.limit(*topic, lot) || (wine_too && set.limit(*topic, wine));
    });
  };
  std::vector<std::string> out;
  for (const auto& set : sets_) {
    const auto& includes = set.includes();
    const bool said =
        speaks(set) || std::any_of(sets_.begin(), sets_.end(), [&](const RuleSet& other) {
          return std::find(includes.begin(), includes.end(), other.name()) != includes.end() && speaks(other);
        });
    if (!said) out.push_back(set.name());
  }
  return out;
}

std::vector<TermLine> RuleSet::terms(const LotView& lot) const {
  const auto doc = sections_.find(terms_section);
  return doc ? read_terms(*doc, name_, lot) : std::vector<TermLine>();
}

std::vector<TermRow> Rules::sweetness_terms(const LotView& lot) const {
  std::vector<TermRow> out;
  for (const auto& set : sets_)
    for (auto& line : set.terms(lot))
      if (line.applies != Applies::no) out.push_back(std::move(line.row));
  return out;
}

}  // namespace vatwright
