#include "host/bench/given.hpp"

#include "host/plugin/lot.hpp"

#include <algorithm>

namespace vatwright {
namespace {

const LotState no_lot{};

}  // namespace

GivenInputs::GivenInputs(const BoundStep& step, const std::vector<LotState>& lots, const Rules& rules,
                         const Known* known)
    : step_(step), lot_(step.lot ? lots[*step.lot] : no_lot), rules_(rules), known_(known) {
  used_.reserve(step.calculation->inputs.size());
  for (const auto& need : step.calculation->inputs) {
    auto used = pick(step, *need.input);
    if (!used) continue;
    if (need.input->kind == Kind::lots) used->value = join(*used->value, lots);
    used_.push_back(*used);
  }
}

const GivenInputs::Used* GivenInputs::find_unread(const Input& input) const {
  for (const auto& used : used_)
    if (used.input == &input) return &used;
  return nullptr;
}

const Value* GivenInputs::find(const Input& input) const {
  const Used* used = find_unread(input);
  if (used == nullptr) return nullptr;
  used->read = true;
  return used->value;
}

bool GivenInputs::is_whole() const {
  return std::all_of(step_.calculation->inputs.begin(), step_.calculation->inputs.end(),
                     [&](const Need& need) { return !need.required || is_there(*need.input); });
}

std::optional<LimitRow> GivenInputs::limit(const LimitInfo& info, const Analysis* lot) const {
  if (known_ == nullptr && std::find(asked_.begin(), asked_.end(), &info) == asked_.end()) asked_.push_back(&info);
  if (without_law()) return std::nullopt;
  return rules_.limit(info, view(lot));
}

std::vector<TermRow> GivenInputs::sweetness_terms(const Analysis* lot) const {
  return rules_.sweetness_terms(view(lot));
}

std::vector<CompositionRule> GivenInputs::composition_rules(const Analysis* lot) const {
  if (without_law()) return {};
  return rules_.composition(view(lot));
}

std::vector<AgentRule> GivenInputs::agent_rules(std::string_view purpose, const Analysis* lot) const {
  if (without_law()) return {};
  return rules_.agents(purpose, view(lot));
}

std::vector<UsedInput> GivenInputs::used() const {
  std::vector<UsedInput> out;
  out.reserve(used_.size());
  for (const auto& used : used_) {
    Origin from{used.from};
    if (from.of == Origin::Of::reading)
      if (const auto changed = lot_.from.find(used.input->name); changed != lot_.from.end()) from = changed->second;
    out.push_back({used.input, *used.value, from, used.read});
  }
  return out;
}

std::vector<UsedInput> GivenInputs::used_by_rules() const {
  std::vector<UsedInput> out;
  for (const auto& key : asked_of_lot_)
    if (const Input* fact = find_lot_key(key))
      out.push_back({fact, lot_.analysis.find(key)->second, lot_.from.find(key)->second});
  return out;
}

std::optional<double> GivenInputs::decided_number(const ResultInfo& result) const {
  if (known_ == nullptr || known_->on_sheet == nullptr || !result.decided) return std::nullopt;
  for (const auto& value : known_->on_sheet->results)
    if (value.info == &result) return value.number * spread_over(result);
  return std::nullopt;
}

// What was weighed is held: in more wine than the sheet's it makes less of a dose per volume.
double GivenInputs::spread_over(const ResultInfo& result) const {
  constexpr int per_volume = -3;
  if (result.dimension.power[Dimension::length] != per_volume || !known_->volume) return 1;
  const Value* now = state(lot::volume.name);
  return now != nullptr && now->number > 0 ? known_->volume->value() / now->number : 1;
}

double GivenInputs::deviation(const ModelInfo& model) const {
  const auto at = step_.deviations.find(&model);
  return at == step_.deviations.end() ? 0 : at->second;
}

const Value* GivenInputs::known(const Input& lot_key) const {
  for (const auto& used : used_)
    if (used.input->name == lot_key.name && used.from == Origin::Of::said) return used.value;
  const auto at = lot_.analysis.find(lot_key.name);
  return at == lot_.analysis.end() ? nullptr : &at->second;
}

// From the step, else from the lot, else the default.
std::optional<GivenInputs::Used> GivenInputs::pick(const BoundStep& step, const Input& input) const {
  if (const auto at = step.given.find(&input); at != step.given.end())
    return Used{&input, &at->second, Origin::Of::said};
  if (const auto at = lot_.analysis.find(input.name); at != lot_.analysis.end())
    return Used{&input, &at->second, Origin::Of::reading};
  if (const auto at = step.defaults.find(&input); at != step.defaults.end())
    return Used{&input, &at->second, Origin::Of::fallback};
  return std::nullopt;
}

// The lots that the step names, each as it stands now.
const Value* GivenInputs::join(const Value& lots_named, const std::vector<LotState>& lots) {
  Value& value = joined_.emplace_back(lots_named);
  for (auto& row : value.rows)
    for (const auto& lot : lots)
      if (lot.name == row.name && lot.there) row.lot = std::make_shared<const Analysis>(lot.analysis);
  return &value;
}

LotView GivenInputs::view(const Analysis* lot) const {
  if (lot == nullptr) return [this](std::string_view key) { return state(key); };
  return [lot](std::string_view key) {
    const auto at = lot->find(key);
    return at == lot->end() ? nullptr : &at->second;
  };
}

// What the step says of the lot counts for its rules too.
const Value* GivenInputs::state(std::string_view key) const {
  for (const auto& used : used_)
    if (used.input->name == key) {
      used.read = true;
      return used.value;
    }
  const auto at = lot_.analysis.find(key);
  if (at == lot_.analysis.end()) return nullptr;
  if (known_ == nullptr && lot_.from.find(key) != lot_.from.end()) asked_of_lot_.emplace(key);
  return &at->second;
}

}  // namespace vatwright
