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
  return fmt::format(
      "first mix what step {} adds, wait as its handling says, and measure {}: {} so far; then run the recipe again "
      "with what you find",
      first.after + 1, enumerated(first.figures),
      first.figures.size() == 1 ? "it is a forecast" : "they are forecasts");
}

// To be measured out with any vessel: "2750 L", "137 mL".
std::string part_volume(Volume part) {
  constexpr int digits = 4;
  const bool small = part < 1.0 * litre;
  const std::string_view unit = small ? "mL" : "L";
  return with_unit(print_significant(parse_unit(unit).number(part.value()), digits), unit);
}

// Wine that is drawn off, or a lot that is made, is what the step decided on.
bool asks_for_something(const Outcome& o) {
  return !o.additions.empty() || !o.work.empty() || !o.drawn.empty() || !o.new_lots.empty();
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
  return (addition.part ? part_of_lot(step, addition) : "lot " + step.lot) +
         (addition.when.empty() ? "" : ", " + addition.when);
}

std::string listed_destination(const StepSheet& step, std::size_t addition) {
  const std::string where = destination(step, step.outcome.additions[addition]);
  return addition > 0 || !step.measure_first ? where : where + "; " + measuring_in_short(step);
}

std::string destination_in_a_row(std::string_view lot, const StepSheet& step, const Addition& addition) {
  const bool elsewhere = addition.part.has_value() || !addition.when.empty() || step.lot != lot;
  return elsewhere ? " into " + destination(step, addition) : std::string();
}

std::string step_in_a_row(const Worksheet& sheet, std::size_t step) {
  return sheet.steps.size() > 1 ? fmt::format("step {}: ", step + 1) : std::string();
}

std::string measuring_in_short(const StepSheet& step) {
  return step.measure_first ? "first mix, wait and measure " + enumerated(step.measure_first->figures) : std::string();
}

std::vector<std::string> tasks(const StepSheet& step) {
  std::vector<std::string> out;
  if (step.measure_first) out.push_back(measuring(step));
  out.insert(out.end(), step.outcome.work.begin(), step.outcome.work.end());
  return out;
}

std::string nothing_to_add(const StepSheet& step) {
  const Outcome& o = step.outcome;
  if (!step.doses || asks_for_something(o)) return {};
  return o.holds() ? "nothing to add" : "nothing to add; a check of this step fails";
}

std::string nothing_to_add(const Worksheet& sheet) {
  bool could = false;
  for (const auto& step : sheet.steps) {
    if (asks_for_something(step.outcome)) return {};
    could = could || step.doses;
  }
  if (!could) return {};
  return sheet.holds() ? "nothing to add" : "nothing to add; a check fails";
}

std::string steps_without_dose(const Worksheet& sheet) {
  std::vector<std::string> out;
  for (std::size_t i = 0; i < sheet.steps.size(); ++i)
    if (!nothing_to_add(sheet.steps[i]).empty())
      out.push_back(fmt::format("lot {} (step {})", sheet.steps[i].lot, i + 1));
  return fmt::format("{}", fmt::join(out, ", "));
}

std::vector<std::string> all_cautions(const Substance& substance) {
  std::vector<std::string> out;
  for (const auto& hazard : substance.hazards) out.push_back(hazard.code + " " + hazard.text);
  out.insert(out.end(), substance.cautions.begin(), substance.cautions.end());
  return out;
}

std::string first_cautions(const Substance& substance) {
  if (substance.hazards.empty()) return substance.cautions.front();
  std::vector<std::string_view> texts;
  for (const auto& hazard : substance.hazards) texts.push_back(hazard.text);
  return fmt::format("{}", fmt::join(texts, "; "));
}

bool wants_weigh_out(const WeighOut& list) { return list.lines.size() > 1 || !list.apart.empty(); }

std::string total_words(const WeighOutTotal& total) {
  return fmt::format("{} of {} in all", shown_amount(total.all), named(total.all, *total.substance));
}

std::string apart_words(const ApartPair& pair) {
  return fmt::format("{} and {}: {} [{}]", pair.one->name(), pair.other->name(), pair.because, pair.source);
}

}  // namespace vatwright
