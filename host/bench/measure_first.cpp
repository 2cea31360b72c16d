#include "host/bench/measure_first.hpp"

#include "host/plugin/lot.hpp"

#include <algorithm>
#include <array>

namespace vatwright {
namespace {

// Kept in the books of a lot, not read in the laboratory. By name: a plugin has its own copy of a key.
constexpr std::array<std::string_view, 7> booked{
    lot::volume.name,          lot::acid_added.name,    lot::acid_removed.name, lot::water_added.name,
    lot::strength_gained.name, lot::tirage_gained.name, lot::volume_gained.name};

bool is_predicted_reading(const UsedInput& used) {
  const bool reading = used.input->kind == Kind::quantity || used.input->kind == Kind::series;
  return reading && used.from.starts_with("step ") && std::ranges::find(booked, used.input->name) == booked.end();
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
