// The inputs of one step, as its calculation is given them.
#pragma once

#include "host/bench/lots.hpp"
#include "host/bench/worksheet.hpp"
#include "host/rules/rules.hpp"

#include <deque>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace vatwright {

// While readings are drawn: what the step found on the sheet, and what it decided.
struct Known {
  const Outcome* on_sheet = nullptr;  // its results that are declared `decided` are held; nullptr: it decides anew
  bool figures_only = true;
  std::optional<Volume> volume{};  // of the lot that those were decided for
  bool without_law = false;        // what the rules bound is not told; what a sweetness term means is
};

class GivenInputs final : public Inputs {
 public:
  // All that is given must outlive it.
  GivenInputs(const BoundStep& step, const std::vector<LotState>& lots, const Rules& rules,
              const Known* known = nullptr);

  const Value* find(const Input& input) const override;
  std::optional<LimitRow> limit(const LimitInfo& info, const Analysis* lot) const override;
  std::vector<TermRow> sweetness_terms(const Analysis* lot) const override;
  std::vector<CompositionRule> composition_rules(const Analysis* lot) const override;
  std::vector<AgentRule> agent_rules(std::string_view purpose, const Analysis* lot) const override;
  bool figures_only() const override { return known_ != nullptr && known_->figures_only; }

  // Whether all that the calculation needs is there.
  bool is_whole() const;

  // What is known of the lot by its key, as the step says or as it stands; nullptr: nothing.
  const Value* known(const Input& lot_key) const;

  bool is_there(const Input& input) const { return find_unread(input) != nullptr; }

  // For the sheet, after the run.
  std::vector<UsedInput> used() const;
  // What the rules have asked of the lot beside those: the conditions of their rows.
  std::vector<UsedInput> used_by_rules() const;
  // The lot as the rules are told of it, and what the calculation has asked of them.
  LotView lot_view() const { return view(nullptr); }
  const std::vector<const LimitInfo*>& asked() const { return asked_; }

 private:
  struct Used {
    const Input* input;
    const Value* value;
    Origin::Of from;
    mutable bool read = false;
  };
  const Used* find_unread(const Input& input) const;
  std::optional<double> decided_number(const ResultInfo& result) const override;
  double spread_over(const ResultInfo& result) const;
  double deviation(const ModelInfo& model) const override;
  bool without_law() const { return known_ != nullptr && known_->without_law; }
  std::optional<Used> pick(const BoundStep& step, const Input& input) const;
  const Value* join(const Value& lots_named, const std::vector<LotState>& lots);
  LotView view(const Analysis* lot) const;
  const Value* state(std::string_view key) const;

  const BoundStep& step_;
  const LotState& lot_;
  const Rules& rules_;
  const Known* known_;
  std::deque<Value> joined_;
  std::vector<Used> used_;
  mutable std::vector<const LimitInfo*> asked_;  // by the one step that is given this
  mutable std::set<std::string, std::less<>> asked_of_lot_;
};

}  // namespace vatwright
