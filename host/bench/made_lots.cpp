#include "host/bench/made_lots.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace vatwright {
namespace {

bool works_on_lots_of(const StepSheet& step, const StepSheet& maker) {
  if (!step.lot.empty() && makes_of(maker, step.lot)) return true;
  return std::any_of(step.inputs.begin(), step.inputs.end(), [&](const UsedInput& used) {
    return used.input->kind == Kind::lots && std::any_of(used.value.rows.begin(), used.value.rows.end(),
                                                         [&](const Row& row) { return makes_of(maker, row.name); });
  });
}

// The step before, with a check that fails, that stands in the way of this one.
std::optional<std::size_t> in_the_way(const StepSheet& step, const std::vector<StepSheet>& before) {
  const auto maker = std::find_if(before.begin(), before.end(), [&](const StepSheet& earlier) {
    return earlier.withheld && works_on_lots_of(step, earlier);
  });
  if (maker == before.end()) return std::nullopt;
  return maker->withheld->by;
}

Check comes_first(std::size_t by) {
  return {.name = fmt::format("step {} comes first", by + 1),
          .holds = false,
          .source = "order of the recipe",
          .remedy = fmt::format("nothing is to be done here: step {} is not to be done while its check fails. The "
                                "figures are of the lots as it would leave them",
                                by + 1)};
}

}  // namespace

bool makes_of(const StepSheet& step, std::string_view lot) {
  const Outcome& o = step.outcome;
  return makes_lots(o) &&
         (step.lot == lot ||
          std::any_of(o.new_lots.begin(), o.new_lots.end(), [&](const NewLot& made) { return made.name == lot; }) ||
          std::any_of(o.drawn.begin(), o.drawn.end(), [&](const Drawn& drawn) { return drawn.lot == lot; }));
}

std::optional<MadeFirst> made_first(const StepSheet& step, const std::vector<StepSheet>& before) {
  if (step.lot.empty() || step.outcome.additions.empty()) return std::nullopt;
  const auto last = std::find_if(before.rbegin(), before.rend(),
                                 [&](const StepSheet& earlier) { return makes_of(earlier, step.lot); });
  if (last == before.rend()) return std::nullopt;
  const auto& made = last->outcome.new_lots;
  return MadeFirst{static_cast<std::size_t>(before.rend() - last) - 1, made.empty() ? "draw" : made.front().by};
}

void withhold(StepSheet& step, const std::vector<StepSheet>& before) {
  Outcome& o = step.outcome;
  if (const auto by = in_the_way(step, before); by && asks_for_something(o)) {
    step.withheld = Withheld{*by, false};
    o.checks.push_back(comes_first(*by));
    o.notes.clear();
    o.opinions.clear();
  } else if (makes_lots(o) && !o.holds()) {
    step.withheld = Withheld{before.size(), true};
  } else {
    return;
  }
  for (const auto& addition : o.additions) {
    const std::string handled = addition.substance + (addition.strength.empty() ? "" : ", " + addition.strength);
    if (std::find(o.reagents.begin(), o.reagents.end(), handled) == o.reagents.end()) o.reagents.push_back(handled);
  }
  o.additions.clear();
  o.work.clear();
}

}  // namespace vatwright
