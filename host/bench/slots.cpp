#include "host/bench/slots.hpp"

#include "host/bench/readings.hpp"
#include "host/plugin/law.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace vatwright {
namespace {

double amount(const Addition& addition) { return addition.mass ? addition.mass->value() : addition.volume->value(); }

bool is_held_against(const Check& check) {
  return check.value && check.limit && check.relation != "equals" && !check.relation.empty();
}

constexpr double unknown = std::numeric_limits<double>::quiet_NaN();

// The like of a figure on the sheet in another run; NaN when there is none.
double like(const ResultValue& wanted, const Outcome& outcome) {
  for (const auto& result : outcome.results)
    if (result.info == wanted.info) return result.number;
  return unknown;
}
double like(const Addition& wanted, const Outcome& outcome) {
  for (const auto& addition : outcome.additions)
    if (addition.substance == wanted.substance && addition.mass.has_value() == wanted.mass.has_value())
      return amount(addition);
  return 0;  // with those readings nothing would have been added
}

// The check of that name; else, as another row of a rule may apply to a lot of other readings, one on the same limit.
const Check* check_like(const Check& wanted, const std::vector<Check>& checks) {
  const auto held = [&](const auto& same) {
    const auto at = std::find_if(checks.begin(), checks.end(),
                                 [&](const Check& check) { return check.value && check.limit && same(check); });
    return at == checks.end() ? nullptr : &*at;
  };
  const Check* same = held([&](const Check& check) { return check.name == wanted.name; });
  if (same != nullptr || wanted.on == nullptr) return same;
  return held([&](const Check& check) {
    return check.on == wanted.on && is_ceiling(check.relation) == is_ceiling(wanted.relation);
  });
}

// Where its limit moves with the readings too, what counts is how far it is from it.
double like(const Check& wanted, const Outcome& outcome) {
  const Check* check = check_like(wanted, outcome.checks);
  return check == nullptr ? unknown : check->value->number - (check->limit->number - wanted.limit->number);
}

// It would have to add something, and may not: nobody knows what. Where it has enough it adds nothing.
bool is_refused(const Outcome& outcome) { return outcome.additions.empty() && outcome.is_refused(); }

}  // namespace

Slots::Slots(const Prepared& ready, const Worksheet& sheet) : ready_(ready), sheet_(sheet) {
  for (std::size_t step = 0; step < sheet.steps.size(); ++step) {
    first_.push_back(slots_.size());
    const Outcome& outcome = sheet.steps[step].outcome;
    const auto& results = outcome.results;
    decides_.push_back(!outcome.additions.empty() ||
                       std::any_of(results.begin(), results.end(), [](const auto& r) { return r.info->decided; }));
    refused_.push_back(!sheet.steps[step].withheld && is_refused(outcome));
    volumes_.push_back(volume_in(sheet.steps[step].inputs));
    for (std::size_t i = 0; i < results.size(); ++i) slots_.push_back({step, Slot::Of::result, i});
    for (std::size_t i = 0; i < outcome.additions.size(); ++i) slots_.push_back({step, Slot::Of::addition, i});
    for (std::size_t i = 0; i < outcome.checks.size(); ++i)
      if (is_held_against(outcome.checks[i])) slots_.push_back({step, Slot::Of::check, i});
  }
  first_.push_back(slots_.size());
  in_full_.resize(sheet.steps.size());
}

double Slots::on_sheet(std::size_t i) const {
  const Outcome& outcome = sheet_.steps[slots_[i].step].outcome;
  const std::size_t index = slots_[i].index;
  switch (slots_[i].of) {
    case Slot::Of::result:
      return outcome.results[index].number;
    case Slot::Of::addition:
      return amount(outcome.additions[index]);
    case Slot::Of::check:
      return outcome.checks[index].value->number;
  }
  return 0;
}

// With those readings the step may have nothing to decide on, such as a target out of reach: what
// is unknown then is the dose alone, and not what follows from the one in the tank. What a limit would forbid is
// wanted all the same: were it left out, the doses near a limit would seem surer than they are.
std::optional<Outcome> Slots::decided_anew(const BoundStep& step, const std::vector<LotState>& lots) const {
  try {
    for (const bool without_law : {false, true}) {
      const Known free{.without_law = without_law};
      Outcome anew = call(step, GivenInputs(step, lots, *ready_.rules, &free), ready_.recipe);
      if (!is_refused(anew)) return anew;
    }
    return std::nullopt;
  } catch (const BadInput&) {
    return std::nullopt;
  }
}

bool Slots::gives_all_checks(std::size_t i, const BoundStep& step, const std::vector<LotState>& lots) const {
  const Outcome& sheet = sheet_.steps[i].outcome;
  if (std::none_of(sheet.checks.begin(), sheet.checks.end(), is_held_against)) return true;
  const Known held{&sheet};
  const GivenInputs inputs(step, lots, *ready_.rules, &held);
  if (!inputs.is_whole()) return false;
  const Outcome short_form = call(step, inputs, ready_.recipe);
  return std::all_of(sheet.checks.begin(), sheet.checks.end(), [&](const Check& check) {
    return !is_held_against(check) || !std::isnan(like(check, short_form));
  });
}

bool Slots::fill_first(std::size_t i, const Variant& variant, std::vector<LotState>& lots, std::span<double> figures) {
  const BoundStep& step = variant.steps()[i];
  try {
    in_full_[i] = step.calculation->repeatable && !sheet_.steps[i].contradicted && !gives_all_checks(i, step, lots);
  } catch (const BadInput&) {
    return false;
  }
  return fill(i, variant, lots, figures);
}

bool Slots::fill(std::size_t i, const Variant& variant, std::vector<LotState>& lots, std::span<double> figures) const {
  const BoundStep& step = variant.steps()[i];
  const Outcome& sheet = sheet_.steps[i].outcome;
  if (!step.calculation->repeatable || sheet_.steps[i].contradicted) {
    for (std::size_t s = first_[i]; s < first_[i + 1]; ++s) figures[s] = on_sheet(s);
    enter(sheet, step, i, ready_.recipe, lots, Run::again);
    return true;
  }
  try {
    const Known held{&sheet, !in_full_[i], volumes_[i]};
    const GivenInputs inputs(step, lots, *ready_.rules, &held);
    if (!inputs.is_whole()) return false;  // an earlier step left unknown what it leaves on the sheet
    Outcome after = call(step, inputs, ready_.recipe);
    let_follow(step, lots, after);
    const auto anew = decides_[i] && !refused_[i] ? decided_anew(step, lots) : Outcome{};
    for (std::size_t s = first_[i]; s < first_[i + 1]; ++s) {
      const std::size_t index = slots_[s].index;
      switch (slots_[s].of) {
        case Slot::Of::result:
          if (!sheet.results[index].info->decided)
            figures[s] = like(sheet.results[index], after);
          else if (refused_[i])
            figures[s] = on_sheet(s);
          else
            figures[s] = anew ? like(sheet.results[index], *anew) : unknown;
          break;
        case Slot::Of::addition:
          figures[s] = anew ? like(sheet.additions[index], *anew) : unknown;
          break;
        case Slot::Of::check:
          figures[s] = like(sheet.checks[index], after);
          break;
      }
    }
    enter(after, step, i, ready_.recipe, lots, Run::again);
    return true;
  } catch (const BadInput&) {
    return false;  // readings that cannot be together, such as more free SO2 than total
  }
}

}  // namespace vatwright
