#include "host/bench/models_alone.hpp"

#include "host/bench/first_order.hpp"
#include "units/parse.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <string>
#include <vector>

namespace vatwright {

void tell_models_alone(const Prepared& ready, Worksheet& sheet) {
  Variant variant(ready);
  if (variant.readings().empty()) return;
  Slots slots(ready, sheet);
  const Reach reach(ready, sheet);
  const FirstRun first(ready, slots, reach, variant);
  if (!first.known()) return;
  const Sensitivities effects = sensitivities(first, variant);
  std::vector<std::string> words(sheet.steps.size()), advice(sheet.steps.size());
  for (std::size_t s = 0; s < slots.size(); ++s) {
    if (slots[s].of != Slot::Of::result) continue;
    const StepSheet& step = sheet.steps[slots[s].step];
    const ResultInfo& info = *step.outcome.results[slots[s].index].info;
    const auto shown = print_spread(effects.standard(s) / parse_unit(info.unit).slope(0), info.decimals);
    if (shown.find_first_not_of("0.") == std::string::npos) continue;
    auto& line = words[slots[s].step];
    line += fmt::format("{}{} ± {}", line.empty() ? "" : ", ", info.name, with_unit(shown, info.unit));
    if (auto& more = advice[slots[s].step]; more.empty() && info.decided && !step.outcome.additions.empty())
      more = effects.advice(s, info);
  }
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (words[i].empty() || sheet.steps[i].withheld) continue;
    sheet.steps[i].outcome.note(
        fmt::format("by the models alone, as standard uncertainties: {}. No reading carries a ±, so that none stands "
                    "at the figures; write one, or 'uncertainty: typical'",
                    words[i]));
    if (!advice[i].empty()) sheet.steps[i].outcome.note(std::move(advice[i]));
  }
}

}  // namespace vatwright
