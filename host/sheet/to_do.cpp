#include "host/sheet/to_do.hpp"

#include "host/sheet/writers.hpp"
#include "units/constants.hpp"
#include "units/parse.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace vatwright {
namespace {

// "pH", "pH and potassium", "pH, potassium and ethanol".
std::string enumerated(const std::vector<std::string_view>& names) {
  if (names.size() == 1) return std::string(names.front());
  return fmt::format("{} and {}", fmt::join(names.begin(), names.end() - 1, ", "), names.back());
}

std::string measuring(const StepSheet& step) {
  const MeasureFirst& first = *step.measure_first;
  const auto step_done = first.mixes ? fmt::format("mix what step {} adds, wait as its handling says,", first.after + 1)
                                     : fmt::format("do step {},", first.after + 1);
  return fmt::format("first {} and measure {}: {} so far; then run the recipe again with what you find", step_done,
                     enumerated(first.figures), first.figures.size() == 1 ? "it is a forecast" : "they are forecasts");
}

// To be measured out with any vessel: "2750 L", "137 mL".
std::string part_volume(Volume part) {
  constexpr int digits = 4;
  const bool small = part < 1.0 * litre;
  const std::string_view unit = small ? "mL" : "L";
  return with_unit(print_significant(parse_unit(unit).number(part.value()), digits), unit);
}

// Why a step that could have done something does nothing.
struct Idle {
  std::string why;   // before a list of steps
  std::string here;  // in the step itself
};

Idle withheld(const StepSheet& step) {
  if (step.withheld->itself) {
    const auto& made = step.outcome.new_lots;
    const auto words = fmt::format("do not {} yet", made.empty() ? "draw" : made.front().by);
    return {words + ", since a check fails", words + ": a check of this step fails"};
  }
  const auto because = fmt::format("step {} is not to be done while its check fails", step.withheld->by + 1);
  const std::string_view what = step.doses ? "not dosed" : "not to be done";
  return {fmt::format("{}, since {}", what, because), fmt::format("{}: {}", what, because)};
}

std::optional<Idle> idle(const StepSheet& step) {
  const Outcome& o = step.outcome;
  if (step.withheld) return withheld(step);
  if (!step.doses || asks_for_something(o)) return std::nullopt;
  const std::string nothing(nothing_to_add);
  if (o.holds()) return Idle{nothing, nothing};
  if (!o.is_refused()) return Idle{nothing, nothing + "; a check of this step fails"};
  return Idle{"refused by a check", "refused by a check of this step"};
}

}  // namespace

std::string named(const Addition& addition, const Substance& substance) {
  return substance.name() + (addition.strength.empty() ? "" : " (" + addition.strength + ")");
}

std::string dose_words(const Addition& addition) {
  return "dose " + shown(addition.dose) + (addition.part ? " of the whole lot" : "");
}

std::string part_of_lot(const StepSheet& step, const Addition& addition) {
  if (!addition.part) return {};
  return fmt::format("{} taken out of lot {}", part_volume(*addition.part), step.lot);
}

std::string destination(const StepSheet& step, const Addition& addition) {
  const std::string whole = step.lot.empty() ? "the vessel" : "lot " + step.lot;  // a gas over tanks is on no lot
  return (addition.part ? part_of_lot(step, addition) : whole) + (addition.when.empty() ? "" : ", " + addition.when);
}

std::string listed_destination(const StepSheet& step, std::size_t addition) {
  std::string where = destination(step, step.outcome.additions[addition]);
  for (const auto& first : {making_first(step), addition > 0 ? std::string() : measuring_in_short(step)})
    if (!first.empty()) where.append("; ").append(first);
  return where;
}

std::string destination_in_a_row(std::string_view lot, const StepSheet& step, const Addition& addition) {
  const bool elsewhere = addition.part.has_value() || !addition.when.empty() || step.lot != lot;
  return elsewhere ? " into " + destination(step, addition) : std::string();
}

std::string step_in_a_row(const Worksheet& sheet, std::size_t step) {
  return sheet.steps.size() > 1 ? fmt::format("step {}: ", step + 1) : std::string();
}

std::string making_first(const StepSheet& step) {
  return step.made_first ? fmt::format("first do step {} ({})", step.made_first->step + 1, step.made_first->by)
                         : std::string();
}

std::string measuring_in_short(const StepSheet& step) {
  if (!step.measure_first) return {};
  return (step.measure_first->mixes ? "first mix, wait and measure " : "first measure ") +
         enumerated(step.measure_first->figures);
}

std::vector<std::string> tasks(const StepSheet& step) {
  std::vector<std::string> out;
  if (step.made_first) out.push_back(making_first(step));
  if (step.measure_first) out.push_back(measuring(step));
  out.insert(out.end(), step.outcome.work.begin(), step.outcome.work.end());
  return out;
}

std::string idle_words(const StepSheet& step) {
  const auto words = idle(step);
  return words ? words->here : std::string();
}

std::vector<std::string> idle_in_a_row(const Worksheet& sheet) {
  std::vector<std::string> out;
  bool needs_none = false, asks = false;
  for (std::size_t i = 0; i < sheet.steps.size(); ++i) {
    const StepSheet& step = sheet.steps[i];
    const auto words = idle(step);
    asks = asks || (!step.withheld && asks_for_something(step.outcome));
    if (!words) continue;
    if (words->why == nothing_to_add)
      needs_none = true;
    else
      out.push_back(step_in_a_row(sheet, i) + words->why);
  }
  if (out.empty() && needs_none && !asks)
    out.push_back(std::string(nothing_to_add) + (sheet.holds() ? "" : "; a check fails"));
  return out;
}

std::vector<std::string> idle_steps(const Worksheet& sheet) {
  std::vector<std::pair<std::string, std::string>> groups;
  for (std::size_t i = 0; i < sheet.steps.size(); ++i) {
    const StepSheet& step = sheet.steps[i];
    const auto words = idle(step);
    if (!words) continue;
    auto group = std::find_if(groups.begin(), groups.end(), [&](const auto& g) { return g.first == words->why; });
    if (group == groups.end()) group = groups.insert(groups.end(), {words->why, ""});
    const auto number = fmt::format("step {}", i + 1);
    group->second += (group->second.empty() ? "" : ", ") +
                     (step.lot.empty() ? number : fmt::format("lot {} ({})", step.lot, number));
  }
  std::vector<std::string> out;
  for (const auto& [why, steps] : groups) out.push_back(fmt::format("{}: {}", why, steps));
  return out;
}

std::string read_in_a_row(const Worksheet& sheet) {
  std::vector<std::string> out;
  for (const auto& step : sheet.steps)
    for (const auto& used : step.inputs) {
      if (used.from != Origin{} || used.value.written.empty()) continue;
      auto words = fmt::format("{} {}", used.input->name, used.value.written);
      if (std::find(out.begin(), out.end(), words) == out.end()) out.push_back(std::move(words));
    }
  return fmt::format("{}", fmt::join(out, ", "));
}

std::vector<std::string> unusual_in_a_row(const Worksheet& sheet) {
  std::vector<std::string> out;
  for (const auto& step : sheet.steps)
    for (const auto& words : step.unusual)
      if (std::find(out.begin(), out.end(), words) == out.end()) out.push_back(words);
  return out;
}

std::vector<HazardLine> hazard_lines(const Substance& substance) {
  std::vector<HazardLine> out;
  const auto also = [&](const std::vector<Wording>& said) {
    for (const auto& one : said)
      out.push_back({one.language, {}, one.text.empty() ? std::string(no_wording) : one.text, one.text.empty()});
  };
  if (!substance.signal_also.empty()) out.push_back({{}, {}, substance.signal});
  also(substance.signal_also);
  for (const auto& hazard : substance.hazards) {
    out.push_back({{}, hazard.code, hazard.text});
    also(hazard.also);
  }
  return out;
}

std::optional<std::size_t> told_before(std::span<const StepSheet> earlier, const Substance& substance) {
  const auto at = std::find_if(earlier.begin(), earlier.end(), [&](const StepSheet& step) {
    return std::find(step.reagents.begin(), step.reagents.end(), &substance) != step.reagents.end() ||
           std::find(step.added.begin(), step.added.end(), &substance) != step.added.end();
  });
  if (at == earlier.end()) return std::nullopt;
  return static_cast<std::size_t>(at - earlier.begin());
}

std::string told_words(const Substance& substance, std::size_t step) {
  return fmt::format("Handle {} with care: its cautions are at step {}.", substance.name(), step + 1);
}

std::vector<std::string> papers_of(const StepSheet& step) {
  std::vector<std::string> out;
  for (const auto* substance : step.added)
    for (const auto& line : substance->papers)
      if (auto words = substance->name() + ": " + line; std::find(out.begin(), out.end(), words) == out.end())
        out.push_back(std::move(words));
  return out;
}

std::vector<std::string> all_cautions(const Substance& substance) {
  std::vector<std::string> out;
  for (const auto& line : hazard_lines(substance)) out.push_back(line.words());
  out.insert(out.end(), substance.cautions.begin(), substance.cautions.end());
  return out;
}

std::string first_cautions(const Substance& substance) {
  if (substance.hazards.empty()) return substance.cautions.front();
  std::vector<std::string> texts;
  for (const auto& hazard : substance.hazards) {
    texts.push_back(hazard.text);
    for (const auto& said : hazard.also) {
      texts.push_back(in_words(said));
      if (texts.back().ends_with('.')) texts.back().pop_back();
    }
  }
  return fmt::format("{}", fmt::join(texts, "; "));
}

bool wants_weigh_out(const WeighOut& list) {
  // One addition of the first step stands at the top already.
  return list.lines.size() > 1 || !list.apart.empty() || (list.lines.size() == 1 && list.lines.front().step > 0);
}

std::string total_words(const WeighOutTotal& total) {
  // No finer than a balance shows as much: a sum knows no more than its parts.
  Addition all = total.all;
  if (all.mass) all.mass = to_balance(*all.mass);
  if (all.volume) all.volume = to_measure(*all.volume);
  return fmt::format("{} of {} in all", shown_amount(all), named(all, *total.substance));
}

std::string apart_words(const ApartPair& pair) {
  return fmt::format("{} and {}: {} [{}]", pair.one->name(), pair.other->name(), pair.because, pair.source);
}

}  // namespace vatwright
