#include "host/bench/measure_first.hpp"

#include "host/bench/waiting.hpp"

#include <algorithm>

namespace vatwright {
namespace {

// What waits for its moment comes after `step`, unless its forecast is taken.
bool comes_before(const StepSheet& step, const std::vector<StepSheet>& before, std::size_t i) {
  const auto& additions = before[i].outcome.additions;
  return before[i].lot == step.lot && !additions.empty() &&
         (!std::ranges::all_of(additions, waits) || rests_on(step, i));
}

}  // namespace

std::optional<MeasureFirst> measure_first(const StepSheet& step, const std::vector<StepSheet>& before) {
  if (step.lot.empty() || step.outcome.additions.empty()) return std::nullopt;
  auto last = before.size();
  while (last > 0 && !comes_before(step, before, last - 1)) --last;
  if (last == 0) return std::nullopt;
  MeasureFirst found{last - 1, {}};
  for (const auto& used : step.inputs)
    if (is_predicted_reading(used)) found.figures.push_back(used.input->name);
  if (found.figures.empty()) return std::nullopt;
  return found;
}

}  // namespace vatwright
