#include "host/rules/composition.hpp"

#include "host/rules/row.hpp"
#include "host/yaml/known_keys.hpp"
#include "units/expect.hpp"
#include "units/nearest.hpp"
#include "units/print.hpp"

#include <algorithm>
#include <array>
#include <charconv>

namespace vatwright {
namespace {

constexpr std::string_view together_at_least = "together at least", together_at_most = "together at most",
                           each_at_most = "each at most", least_members = "at least members",
                           never_together = "never together";
constexpr std::array<std::string_view, 13> composition_keys{
    "name",         "of",   "among",  least_members, together_at_least, together_at_most, each_at_most,
    never_together, "when", "source", "text of",     "standing",        "meaning"};
constexpr char such_names[] = "such as [Sorrel, Teasel]";
constexpr std::array<std::string_view, 4> kinds{"variety", "vintage", "origin", "colour"};

class RowReader {
 public:
  RowReader(const Document& doc, const Node& row) : doc_(doc), row_(row) {}

  CompositionRule read(const std::string& rules) const {
    if (row_.kind != Node::Kind::map)
      doc_.fail(row_.mark, "expected a rule with its keys", "such as {name: ..., of: variety}");
    refuse_unknown_keys(doc_, row_, "a rule", composition_keys);
    CompositionRule rule;
    rule.rules = rules;
    rule.name = text_of(row_, "name");
    if (rule.name.empty()) doc_.fail(row_.mark, "a composition rule without a name", "add 'name: ...'");
    rule.of = kind();
    rule.among = among();
    rule.least_members = members(rule.among.size());
    rule.together_at_least = share(together_at_least);
    rule.together_at_most = share(together_at_most);
    rule.each_at_most = share(each_at_most);
    rule.never_together = yes(never_together);
    rule.source = cited(doc_, row_);
    refuse_impossible(rule);
    return rule;
  }

 private:
  std::string kind() const {
    auto of = text_of(row_, "of");
    if (std::find(kinds.begin(), kinds.end(), of) != kinds.end()) return of;
    doc_.fail(row_.mark, of.empty() ? "a composition rule without 'of:'" : "no composition rule is of " + in_quotes(of),
              did_you_mean(of, kinds, "write variety, vintage, origin or colour"));
  }

  std::vector<std::string> among() const {
    std::vector<std::string> out;
    const Node* node = row_.find("among");
    if (node == nullptr) return out;
    if (node->kind == Node::Kind::text) return {node->text};
    for (const auto& item : node->items) {
      if (item.kind != Node::Kind::text) doc_.fail(item.mark, "expected a name", such_names);
      if (std::find(out.begin(), out.end(), item.text) != out.end())
        doc_.fail(item.mark, in_quotes(item.text) + " is named twice", "keep one of the two");
      out.push_back(item.text);
    }
    if (out.empty()) doc_.fail(node->mark, "expected names", such_names);
    return out;
  }

  std::optional<int> members(std::size_t set) const {
    const Node* node = row_.find(least_members);
    if (node == nullptr) return std::nullopt;
    const auto& text = node->text;
    int count = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), count);
    if (error != std::errc() || end != text.data() + text.size() || count < 1)
      doc_.fail(node->mark, "expected a whole number from 1, read " + in_quotes(text), "such as 'at least members: 2'");
    if (set > 0 && static_cast<std::size_t>(count) > set)
      doc_.fail(node->mark, "asks for " + text + " of a set of " + std::to_string(set),
                "lower the number, or name more under 'among:'");
    return count;
  }

  std::optional<double> share(std::string_view key) const {
    const Node* node = row_.find(key);
    if (node == nullptr) return std::nullopt;
    double share = 0;
    try {
      share = expect(parse(node->text), {dimension_of<Fraction>(), {}, "%"}, node->text).value;
    } catch (const InputError& error) {
      doc_.fail(*node, error);
    }
    if (!(share >= 0 && share <= 1))
      doc_.fail(node->mark, "a share of " + in_quotes(node->text), "expected 0 % to 100 %");
    return share;
  }

  bool yes(std::string_view key) const {
    const Node* node = row_.find(key);
    if (node == nullptr || node->text == "false") return false;
    if (node->text == "true") return true;
    doc_.fail(node->mark, "expected true or false, read " + in_quotes(node->text), "write 'never together: true'");
  }

  void refuse_impossible(const CompositionRule& rule) const {
    const bool together = rule.together_at_least || rule.together_at_most;
    if (!rule.least_members && !together && !rule.each_at_most && !rule.never_together)
      doc_.fail(
          row_.mark, "a composition rule that asks for nothing",
          "write 'at least members', 'together at least', 'together at most', 'each at most' or 'never together'");
    if (together && rule.among.empty()) doc_.fail(row_.mark, "a share together of no named set", "add 'among: [...]'");
    if (rule.never_together && rule.among.size() == 1)
      doc_.fail(row_.mark, "one alone is never together with another", "name two or more under 'among:'");
    if (rule.together_at_least && rule.together_at_most && *rule.together_at_least > *rule.together_at_most)
      doc_.fail(row_.mark, "'together at least' is above 'together at most'", "look whether the two are swapped");
  }

  const Document& doc_;
  const Node& row_;
};

std::string joined(const std::vector<std::string>& names) {
  std::string out;
  for (const auto& name : names) out += (out.empty() ? "" : ", ") + name;
  return out;
}

std::string percent_of(double share) { return print(Fraction(share), "%", 1); }

}  // namespace

std::vector<CompositionRow> read_composition(const Document& doc, const std::string& rules) {
  std::vector<CompositionRow> out;
  for (const auto& row : rows_of(doc, composition_topic))
    out.push_back({RowReader(doc, row).read(rules), as_written(row.find("when")), text_of(row, "meaning")});
  return out;
}

std::vector<CompositionRule> composition_for(const Document& doc, const std::string& rules, const LotView& blend) {
  std::vector<CompositionRule> out;
  for (const auto& row : rows_of(doc, composition_topic)) {
    // Every row is read, so that a slip in one is found whatever the blend.
    auto rule = RowReader(doc, row).read(rules);
    const Condition when(doc, row.find("when"));
    if (when.applies(blend) == Applies::no) continue;
    rule.condition = when.words(blend);
    if (const auto meaning = text_of(row, "meaning"); !meaning.empty())
      rule.condition += (rule.condition.empty() ? "" : "; ") + meaning;
    out.push_back(std::move(rule));
  }
  return out;
}

std::string in_words(const CompositionRule& rule) {
  const std::string set = rule.among.empty() ? "any " + rule.of : joined(rule.among);
  std::string out;
  const auto say = [&](const std::string& text) { out += (out.empty() ? "" : "; ") + text; };
  if (rule.least_members)
    say("at least " + std::to_string(*rule.least_members) + " of " + set);
  else
    say(set);
  if (rule.together_at_least) say("together at least " + percent_of(*rule.together_at_least));
  if (rule.together_at_most) say("together at most " + percent_of(*rule.together_at_most));
  if (rule.each_at_most) say("each at most " + percent_of(*rule.each_at_most));
  if (rule.never_together) say("never two of them in one blend");
  return out;
}

}  // namespace vatwright
