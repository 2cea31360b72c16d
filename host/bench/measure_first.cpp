#include "host/bench/measure_first.hpp"

#include "host/plugin/lot.hpp"

#include <algorithm>
#include <array>

namespace vatwright {
namespace {

// By name: a plugin has its own copy of a key.
bool is_booked(std::string_view name) {
  return name == lot::volume.name ||
         std::ranges::any_of(lot::booked, [&](const Input* key) { return key->name == name; });
}

bool is_predicted_reading(const UsedInput& used) {
  const bool reading = used.input->kind == Kind::quantity || used.input->kind == Kind::series;
  return reading && used.from.starts_with("step ") && !is_booked(used.input->name);
}

}  // namespace

std::optional<MeasureFirst> measure_first(const StepSheet& step, const std::vector<StepSheet>& before) {
  if (step.lot.empty() || step.outcome.additions.empty()) return std::nullopt;
  const auto last = std::find_if(before.rbegin(), before.rend(), [&](const StepSheet& earlier) {
    return earlier.lot == step.lot && !earlier.outcome.additions.empty();
  });
  if (last == before.rend()) return std::nullopt;
  MeasureFirst found{static_cast<std::size_t>(before.rend() - last) - 1, {}};
  for (const auto& used : step.inputs)
    if (is_predicted_reading(used)) found.figures.push_back(used.input->name);
  if (found.figures.empty()) return std::nullopt;
  return found;
}

}  // namespace vatwright
