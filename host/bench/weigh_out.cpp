#include "host/bench/weigh_out.hpp"

#include <algorithm>
#include <map>
#include <string>
#include <utility>

namespace vatwright {
namespace {

void add(std::vector<WeighOutTotal>& totals, const Addition& addition, const Substance& substance) {
  const auto same = std::find_if(totals.begin(), totals.end(),
                                 [&](const WeighOutTotal& total) { return counts_in(total, addition); });
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

// Tanks are seen to in rounds, days apart: each gets its first portion in one, its second in the next. A list that has
// the second portion of one lot above the first of the next invites giving both at once. Within a round the steps keep
// their order, and whatever a recipe has for a lot after a portion is not done before that portion.
class Rounds {
 public:
  // The round of an addition; to be asked in the order of the steps.
  std::size_t of(const StepSheet& step, std::size_t addition) {
    auto& round = reached_[step.lot];
    if (is_further_portion(step.outcome.additions, addition)) ++round;
    return round;
  }

  // A lot that is made of others waits for all that goes into them.
  void end(const StepSheet& step) {
    std::size_t latest = 0;
    for (const auto& [lot, round] : reached_) latest = std::max(latest, round);
    for (const auto& made : step.outcome.new_lots) reached_[made.name] = latest;
  }

 private:
  static bool is_further_portion(const std::vector<Addition>& additions, std::size_t i) {
    return std::any_of(additions.begin(), additions.begin() + static_cast<std::ptrdiff_t>(i),
                       [&](const Addition& earlier) { return earlier.substance == additions[i].substance; });
  }

  std::map<std::string, std::size_t> reached_;
};

}  // namespace

bool counts_in(const WeighOutTotal& total, const Addition& addition) {
  return total.all.substance == addition.substance && total.all.strength == addition.strength &&
         total.all.mass.has_value() == addition.mass.has_value();
}

WeighOut weigh_out(const std::vector<StepSheet>& steps, const Apart& apart) {
  WeighOut out;
  std::vector<const Substance*> handled;
  Rounds rounds;
  std::vector<std::pair<std::size_t, WeighOutLine>> lines;
  for (std::size_t i = 0; i < steps.size(); ++i) {
    const auto& additions = steps[i].outcome.additions;
    for (std::size_t n = 0; n < additions.size(); ++n) {
      lines.push_back({rounds.of(steps[i], n), {i, n}});
      add(out.totals, additions[n], *steps[i].added[n]);
      remember(handled, steps[i].added[n]);
    }
    for (const auto* reagent : steps[i].reagents) remember(handled, reagent);
    rounds.end(steps[i]);
  }
  std::stable_sort(lines.begin(), lines.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
  for (const auto& [round, line] : lines) out.lines.push_back(line);
  out.apart = apart.among(handled);
  return out;
}

}  // namespace vatwright
