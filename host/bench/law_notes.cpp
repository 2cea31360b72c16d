#include "host/bench/law_notes.hpp"

#include "host/plugin/lot.hpp"
#include "host/recipe/recipe.hpp"
#include "host/rules/become_wine.hpp"
#include "units/parse.hpp"
#include "units/print.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

namespace vatwright {
namespace {

// Of the lot after the step; nullptr: not known.
const Value* left_of(const Input& key, const LotView& lot, const Outcome& outcome) {
  for (const auto& changed : outcome.changes)
    if (changed.key->name == key.name) return &changed.value;
  return lot(key.name);
}

}  // namespace

void note_silent_rules(const GivenInputs& inputs, const Rules& rules, Outcome& outcome) {
  if (outcome.additions.empty() || rules.sets().empty()) return;
  std::vector<const LimitInfo*> topics;
  for (const auto* topic : inputs.asked())
    if (!topic->beside) topics.push_back(topic);
  const auto silent = rules.silent(topics, inputs.lot_view());
  if (silent.empty()) return;
  std::vector<std::string> dosed;
  for (const auto& addition : outcome.additions)
    if (std::find(dosed.begin(), dosed.end(), addition.substance) == dosed.end()) dosed.push_back(addition.substance);
  outcome.note(fmt::format("the rules asked for say nothing of {} in this lot: {}. Look it up before it goes in",
                           fmt::join(dosed, ", "), fmt::join(silent, ", ")));
}

void note_wine_to_come(const GivenInputs& inputs, const Rules& rules, Outcome& outcome) {
  const LotView must = inputs.lot_view(), wine = wine_to_come(must);
  const Value* stage = must(lot::stage.name);
  if (stage == nullptr || stage->word != "must" || has_become_wine(must)) return;
  for (const auto* topic : inputs.asked()) {
    const Input* key = find_lot_key(topic->name);  // else it is on what is done to a wine, not on what it has
    if (key == nullptr) continue;
    const auto now = rules.limit(*topic, must), then = rules.limit(*topic, wine);
    if (!then || (now && now->number == then->number)) continue;
    const auto shown = [&](double number) {
      return with_unit(fmt::format("{:.4g}", parse_unit(topic->unit).number(number)), topic->unit);
    };
    std::string note = fmt::format("as a wine it will be held to {} {} {} ({}{}; {})", topic->name,
                                   in_words(then->sense), shown(then->number), then->rules,
                                   then->condition.empty() ? "" : ", " + then->condition, then->source);
    if (const Value* left = left_of(*key, must, outcome); left != nullptr && !then->met_by(left->number))
      note += fmt::format(": it has {}, which is more", shown(left->number));
    outcome.note(std::move(note));
  }
}

}  // namespace vatwright
