// Laws and house rules as data. A rule set is a file of topics; each topic has rows, each row a
// figure, when it applies, and the article that it comes from.
#pragma once

#include "host/rules/agents.hpp"
#include "host/rules/composition.hpp"
#include "host/rules/condition.hpp"
#include "host/rules/terms.hpp"
#include "host/yaml/sections.hpp"

#include <filesystem>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace vatwright {

class RuleSet {
 public:
  // Throws BadInput when the file cannot be read or does not name itself.
  explicit RuleSet(const std::filesystem::path& file);

  // Of somebody else than us: all of it is looked at before it is used.
  void mark_as_own() { own_ = true; }
  bool is_own() const { return own_; }

  const std::string& name() const { return name_; }
  const std::string& title() const { return title_; }
  const std::string& note() const { return note_; }
  // Days, as 2026-11-27: when its rows were last held against their texts, and when they should be again.
  // Empty where it does not say.
  const std::string& confirmed() const { return confirmed_; }
  const std::string& review_by() const { return review_by_; }
  const std::string& text() const { return sections_.text(); }
  Sum sum() const { return sections_.sum(); }
  std::vector<std::string_view> topics() const;
  // The rule sets that it only adds to: whoever asks for it asks for those too.
  const std::vector<std::string>& includes() const { return includes_; }
  // Throws BadInput for a topic that is not among the known ones; the nearest is named.
  void refuse_unknown_topics(const std::vector<std::string>& known) const;

  struct Row {
    LimitRow limit;
    std::string figure;    // as written: "200 mg/L"
    std::string when;      // as written, for the table
    std::string standing;  // "seen", "from memory", ...
    std::string meaning;
  };
  // Reads the rows of a limit once and for all, so that `limit` finds them quickly on any thread. Throws
  // BadInput where one is not in order.
  void read(const LimitInfo& wanted);
  // All rows of a topic, in the file's order.
  std::vector<Row> rows(std::string_view topic) const;
  // The strictest row that applies, or might apply, to the lot.
  std::optional<LimitRow> limit(const LimitInfo& wanted, const LotView& lot) const;
  // All rows of its sweetness terms, in the file's order; none when it has no such section.
  std::vector<TermLine> terms(const LotView& lot) const;

  // What a blend may be made of: every row, and those that apply, or might apply, to the lot.
  std::vector<CompositionRow> composition() const;
  std::vector<CompositionRule> composition(const LotView& lot) const;

  // Which agents it knows for a purpose: every row, and those for it that apply, or might apply, to the lot.
  const std::vector<AgentRow>& agents() const { return agents_; }
  std::vector<AgentRule> agents(std::string_view purpose, const LotView& lot) const;

 private:
  // A row of a limit, ready to be asked.
  struct Ready {
    LimitRow limit;
    Condition when;
  };
  Row read_row(const Document& doc, const Node& node) const;
  std::vector<Ready> ready_rows(const LimitInfo& wanted) const;
  Sections sections_;
  std::string name_, title_, note_, confirmed_, review_by_;
  bool own_ = false;
  std::vector<AgentRow> agents_;
  std::vector<std::string> includes_;
  std::map<std::string, std::vector<Ready>, std::less<>> read_;
};

class Rules {
 public:
  void add(RuleSet set) { sets_.push_back(std::move(set)); }
  const std::vector<RuleSet>& sets() const { return sets_; }
  void read(const LimitInfo& wanted) {
    for (auto& set : sets_) set.read(wanted);
  }
  // Several sets together: the strictest figure wins. A must that has become wine meets the rows of a wine too.
  std::optional<LimitRow> limit(const LimitInfo& wanted, const LotView& lot) const;
  // The sets that have no row for the lot under any of `topics`, and include none that has: by name.
  std::vector<std::string> silent(const std::vector<const LimitInfo*>& topics, const LotView& lot) const;
  // Several sets together: every rule of each counts.
  std::vector<CompositionRule> composition(const LotView& lot) const;
  std::vector<AgentRule> agents(std::string_view purpose, const LotView& lot) const;
  // The rows of all sets that apply, or might apply, to the lot.
  std::vector<TermRow> sweetness_terms(const LotView& lot) const;

 private:
  std::vector<RuleSet> sets_;
};

}  // namespace vatwright
