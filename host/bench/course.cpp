#include "host/bench/course.hpp"

#include <algorithm>

namespace vatwright {

FirstRun::FirstRun(const Prepared& ready, Slots& slots, const Reach& reach, const Variant& variant)
    : slots_(slots), reach_(reach), figures_(slots.size()), left_(ready.lots.size()) {
  auto lots = variant.lots();
  for (std::size_t step = 0; known_ && step < ready.steps.size(); ++step) {
    known_ = slots.fill_first(step, variant, lots, figures_);
    for (const std::size_t lot : reach.lots_of(step))
      if (reach.used_after(step, lot)) left_[lot].push_back({step, lots[lot]});
  }
}

const LotState* FirstRun::found_by(std::size_t step, std::size_t lot) const {
  const auto& left = left_[lot];
  const auto next =
      std::partition_point(left.begin(), left.end(), [step](const Left& earlier) { return earlier.by < step; });
  return next == left.begin() ? nullptr : &std::prev(next)->lot;
}

Rerun::Rerun(const FirstRun& first, const Variant& variant)
    : first_(first), variant_(variant), lots_(variant.lots()), moved_in_(lots_.size(), 0) {}

// The lots of the step, as they are when those steps before it are run that have to do with what was set.
void Rerun::find(std::size_t step) {
  for (const std::size_t lot : first_.reach().lots_of(step)) {
    if (moved_in_[lot] == run_) continue;
    moved_in_[lot] = run_;
    const LotState* found = first_.found_by(step, lot);
    lots_[lot] = found != nullptr ? *found : variant_.lots()[lot];
  }
}

bool Rerun::operator()(const std::vector<std::size_t>& steps, std::span<double> figures) {
  ++run_;
  return std::all_of(steps.begin(), steps.end(), [&](std::size_t step) {
    find(step);
    return first_.slots().fill(step, variant_, lots_, figures);
  });
}

}  // namespace vatwright
