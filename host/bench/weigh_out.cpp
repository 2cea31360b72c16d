#include "host/bench/weigh_out.hpp"

#include <algorithm>

namespace vatwright {
namespace {

void add(std::vector<WeighOutTotal>& totals, const Addition& addition, const Substance& substance) {
  const auto same = std::find_if(totals.begin(), totals.end(), [&](const WeighOutTotal& total) {
    return total.all.substance == addition.substance && total.all.strength == addition.strength &&
           total.all.mass.has_value() == addition.mass.has_value();
  });
  if (same == totals.end()) {
    totals.push_back({addition, 1, &substance});
    return;
  }
  ++same->additions;
  if (addition.mass)
    *same->all.mass += *addition.mass;
  else
    *same->all.volume += *addition.volume;
}

void remember(std::vector<const Substance*>& all, const Substance* one) {
  if (std::find(all.begin(), all.end(), one) == all.end()) all.push_back(one);
}

}  // namespace

WeighOut weigh_out(const std::vector<StepSheet>& steps, const Apart& apart) {
  WeighOut out;
  std::vector<const Substance*> handled;
  for (std::size_t i = 0; i < steps.size(); ++i) {
    const auto& additions = steps[i].outcome.additions;
    for (std::size_t n = 0; n < additions.size(); ++n) {
      out.lines.push_back({i, n});
      add(out.totals, additions[n], *steps[i].added[n]);
      remember(handled, steps[i].added[n]);
    }
    for (const auto* reagent : steps[i].reagents) remember(handled, reagent);
  }
  out.apart = apart.among(handled);
  return out;
}

}  // namespace vatwright
