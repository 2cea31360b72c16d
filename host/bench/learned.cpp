#include "host/bench/learned.hpp"

#include "units/parse.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace vatwright {
namespace {

// What the step leaves of its lot is a forecast that may be measured; a result of the same name says the same.
bool foretells(const StepSheet& step, const ResultValue& result, const Input& fact) {
  constexpr double rounding = 1e-9;
  return result.info->name == fact.name && std::any_of(step.leaves.begin(), step.leaves.end(), [&](const Left& left) {
           return left.key == &fact && left.lot == step.lot && left.value &&
                  std::abs(left.value->number - result.number) <= rounding * std::abs(result.number);
         });
}

std::string words_of_lesson(const LearnedForecast& one) {
  const Unit unit = parse_unit(one.fact->unit);
  const double bias = one.bias / unit.slope(0);
  return fmt::format("{}: {} forecasts of {} were measured in this cellar; measured less forecast is {}{} as a mean",
                     one.fact->name, one.cases, one.calculation, bias > 0 ? "+" : "",
                     with_unit(print_significant(bias, 2), one.fact->unit));
}

}  // namespace

void state_learned(const Recipe& recipe, Worksheet& sheet) {
  if (!recipe.learned) return;
  sheet.uncertainty.book = recipe.learned->record;
  for (auto& step : sheet.steps)
    for (const auto& one : recipe.learned->forecasts) {
      if (one.calculation != step.calculation) continue;
      const auto& results = step.outcome.results;
      for (std::size_t i = 0; i < results.size(); ++i) {
        if (!foretells(step, results[i], *one.fact)) continue;
        step.result_spreads.resize(results.size());
        step.result_spreads[i] = {.standard = one.off,
                                  .chief = fmt::format("how far {} such forecasts of this cellar were off", one.cases),
                                  .chief_share = 1};
        step.outcome.note(words_of_lesson(one));
        ++sheet.uncertainty.learned;
      }
    }
  if (sheet.uncertainty.learned == 0 && !sheet.steps.empty())
    sheet.steps.front().outcome.note(
        "the book has too few measured forecasts of what is on this sheet: their ± is not taken from it");
}

}  // namespace vatwright
