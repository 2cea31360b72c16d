// Laws and house rules as data. A rule set is a file of topics; each topic has rows, each row a
// figure, when it applies, and the article that it comes from.
#pragma once

#include "host/rules/condition.hpp"
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

  const std::string& name() const { return name_; }
  const std::string& title() const { return title_; }
  const std::string& note() const { return note_; }
  const std::string& sha256() const { return sha256_; }
  std::vector<std::string_view> topics() const;

  struct Row {
    LimitRow limit;
    std::string figure;    // as written: "200 mg/L"
    std::string when;      // as written, for the table
    std::string standing;  // "seen", "from memory", ...
    std::string meaning;
  };
  // Reads the rows of a topic once and for all, so that `limit` finds them quickly on any thread.
  void read(std::string_view topic);
  // All rows of a topic, in the file's order.
  std::vector<Row> rows(std::string_view topic) const;
  // The strictest row that applies, or might apply, to the lot.
  std::optional<LimitRow> limit(const LimitInfo& wanted, const LotView& lot) const;

 private:
  Row read_row(const Document& doc, const Node& node) const;
  Sections sections_;
  std::string name_, title_, note_, sha256_;
  std::map<std::string, Document, std::less<>> read_;
};

class Rules {
 public:
  void add(RuleSet set) { sets_.push_back(std::move(set)); }
  const std::vector<RuleSet>& sets() const { return sets_; }
  void read(std::string_view topic) {
    for (auto& set : sets_) set.read(topic);
  }
  // Several sets together: the strictest figure wins.
  std::optional<LimitRow> limit(const LimitInfo& wanted, const LotView& lot) const;

 private:
  std::vector<RuleSet> sets_;
};

}  // namespace vatwright
