#include "host/bench/measure_first.hpp"

#include "host/bench/waiting.hpp"

#include <algorithm>

namespace vatwright {
namespace {

// What waits for its moment comes after `step`, unless its forecast is taken.
bool comes_before(const StepSheet& step, const std::vector<StepSheet>& before, std::size_t i) {
  const auto& additions = before[i].outcome.additions;
  return before[i].lot == step.lot && !additions.empty() &&
         (!std::all_of(additions.begin(), additions.end(), waits) || rests_on(step, i));
}

}  // namespace

std::optional<MeasureFirst> measure_first(const StepSheet& step, const std::vector<StepSheet>& before) {
  if (step.lot.empty() || step.outcome.additions.empty()) return std::nullopt;
  MeasureFirst found{0, false, {}};
  for (const auto* inputs : {&step.inputs, &step.asked_by_rules})
    for (const auto& used : *inputs) {
      if (!used.from.is_forecast() || !used.read) continue;
      found.figures.push_back(used.input->name);
      found.after = std::max(found.after, used.from.step);
    }
  if (found.figures.empty()) return std::nullopt;
  for (std::size_t i = found.after + 1; i < before.size(); ++i)
    if (comes_before(step, before, i)) found.after = i;
  found.mixes = !before[found.after].outcome.additions.empty();
  return found;
}

}  // namespace vatwright
