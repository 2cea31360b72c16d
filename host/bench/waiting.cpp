#include "host/bench/waiting.hpp"

#include "host/plugin/lot.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace vatwright {
namespace {

// By name: a plugin has its own copy of a key.
bool is_booked(std::string_view name) {
  return name == lot::volume.name ||
         std::ranges::any_of(lot::booked, [&](const Input* key) { return key->name == name; });
}

}  // namespace

bool is_predicted_reading(const UsedInput& used) {
  const bool reading = used.input->kind == Kind::quantity || used.input->kind == Kind::series;
  return reading && used.from.starts_with("step ") && !is_booked(used.input->name);
}

bool rests_on(const StepSheet& step, std::size_t earlier) {
  const auto number = fmt::format("step {}", earlier + 1);
  return std::ranges::any_of(step.inputs,
                             [&](const UsedInput& used) { return used.from == number && is_predicted_reading(used); });
}

}  // namespace vatwright
