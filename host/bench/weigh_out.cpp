#include "host/bench/weigh_out.hpp"

#include "host/bench/waiting.hpp"

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

// What need not wait comes before what does: fermentation has to begin before the first portion of a nutrient, and a
// third of the sugar to be gone before the second. Tanks are then seen to in rounds, days apart: each gets its first
// portion in one, its second in the next. A list that has the second portion of one lot above the first of the next
// invites giving both at once. Within a round the steps keep their order.
class Rounds {
 public:
  explicit Rounds(const std::vector<StepSheet>& steps) : steps_(steps) {}

  // To be told of the steps in their order. What rests on the forecast of an addition that waits comes after it.
  void begin(std::size_t step) {
    for (std::size_t earlier = 0; earlier < step; ++earlier)
      if (steps_[earlier].lot == steps_[step].lot &&
          std::any_of(steps_[earlier].outcome.additions.begin(), steps_[earlier].outcome.additions.end(), waits) &&
          rests_on(steps_[step], earlier))
        lots_[steps_[step].lot].at_once = lots_[steps_[step].lot].last;
  }

  // The round of an addition of that step.
  std::size_t of(const StepSheet& step, std::size_t addition) {
    Reached& lot = lots_[step.lot];
    const bool waiting = waits(step.outcome.additions[addition]);
    const bool further = is_further_portion(step.outcome.additions, addition);
    if (!waiting && !further) return lot.at_once;
    if (further || lot.last == lot.at_once) ++lot.last;
    // A further portion that says no moment holds up what the recipe has for the lot after it.
    if (!waiting) lot.at_once = lot.last;
    return lot.last;
  }

  // A lot that is made of others waits for all that goes into them, and so does what is left of those.
  void end(const StepSheet& step) {
    const Outcome& o = step.outcome;
    if (!makes_lots(o)) return;
    std::size_t latest = 0;
    for (const auto& [name, lot] : lots_) latest = std::max(latest, lot.last);
    for (const auto& made : o.new_lots) lots_[made.name] = {latest, latest};
    for (const auto& drawn : o.drawn) lots_[drawn.lot] = {latest, latest};
    lots_[step.lot] = {latest, latest};
  }

 private:
  static bool is_further_portion(const std::vector<Addition>& additions, std::size_t i) {
    return std::any_of(additions.begin(), additions.begin() + static_cast<std::ptrdiff_t>(i),
                       [&](const Addition& earlier) { return earlier.substance == additions[i].substance; });
  }

  struct Reached {
    std::size_t at_once = 0, last = 0;  // the rounds of what need not wait, and of its last addition
  };
  const std::vector<StepSheet>& steps_;
  std::map<std::string, Reached> lots_;
};

}  // namespace

bool counts_in(const WeighOutTotal& total, const Addition& addition) {
  return total.all.substance == addition.substance && total.all.strength == addition.strength &&
         total.all.mass.has_value() == addition.mass.has_value();
}

std::vector<const Substance*> handled_in(const std::vector<StepSheet>& steps) {
  std::vector<const Substance*> handled;
  for (const auto& step : steps)
    for (const auto* list : {&step.added, &step.reagents})
      for (const Substance* substance : *list) remember(handled, substance);
  return handled;
}

WeighOut weigh_out(const std::vector<StepSheet>& steps, const Apart& apart) {
  WeighOut out;
  Rounds rounds(steps);
  std::vector<std::pair<std::size_t, WeighOutLine>> lines;
  for (std::size_t i = 0; i < steps.size(); ++i) {
    const auto& additions = steps[i].outcome.additions;
    rounds.begin(i);
    for (std::size_t n = 0; n < additions.size(); ++n) {
      lines.push_back({rounds.of(steps[i], n), {i, n}});
      add(out.totals, additions[n], *steps[i].added[n]);
    }
    rounds.end(steps[i]);
  }
  std::stable_sort(lines.begin(), lines.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
  for (const auto& [round, line] : lines) out.lines.push_back(line);
  out.apart = apart.among(handled_in(steps));
  return out;
}

}  // namespace vatwright
