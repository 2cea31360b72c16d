#include "host/bench/prepared.hpp"
#include "host/loader/running.hpp"

#include "host/bench/contradiction.hpp"
#include "host/facts/follow.hpp"
#include "host/facts/pour.hpp"
#include "host/plugin/lot.hpp"

#include <algorithm>

namespace vatwright {
namespace {

// Each chosen substance is given what the catalogue says of it.
void tell_of_substances(const Input& input, Value& value, const Catalogue& catalogue) {
  if (input.kind == Kind::substance) {
    const Substance* substance = catalogue.find(value.word);
    if (substance == nullptr) throw PluginError("the substance '" + value.word + "' is not in the catalogue");
    value.substance = substance->facts;
  }
  for (auto& row : value.rows)
    for (auto& [key, own] : row.own) tell_of_substances(*key, own, catalogue);
}

}  // namespace

Prepared prepare(const Recipe& recipe, Rules rules, std::shared_ptr<const Typical> typical, Registry& registry,
                 const Catalogue& catalogue, Slips& slips) {
  auto steps = bind(recipe, registry, slips);
  for (auto& step : steps) {
    for (auto& [input, value] : step.given) tell_of_substances(*input, value, catalogue);
    for (auto& [input, value] : step.defaults) tell_of_substances(*input, value, catalogue);
    // A lot that says nothing meets every row, so that a slip in any of them is found.
    for (const LimitInfo* limit : step.calculation->limits)
      slips.in([&, limit] {
        rules.read(*limit);
        rules.limit(*limit, [](std::string_view) { return nullptr; });
      });
  }
  for (const auto& set : rules.sets()) {
    if (!set.is_own()) continue;  // of ours it is looked at by the tests
    slips.in([&] { set.composition([](std::string_view) { return nullptr; }); });
    slips.in([&] { set.terms([](std::string_view) { return nullptr; }); });
  }
  slips.raise();
  auto lots = lots_of(recipe, steps);
  refuse_contradictions(recipe, steps, lots);
  if (typical != nullptr) {
    for (auto& step : steps)
      for (auto& [input, value] : step.given) typical->tell(*input, value);
    for (auto& lot : lots)
      for (const Input* key : lot::keys)
        if (const auto at = lot.analysis.find(key->name); at != lot.analysis.end()) typical->tell(*key, at->second);
  }
  return {recipe, std::make_shared<const Rules>(std::move(rules)), std::move(typical), std::move(steps),
          std::move(lots)};
}

namespace {

// What the step makes of a fact so far: as it has changed it, else as the lot has it, thinned by what is poured in;
// nullptr where nobody knows it.
Value* so_far(const GivenInputs& inputs, const Input& key, Outcome& out, double thinner) {
  const auto changed =
      std::find_if(out.changes.begin(), out.changes.end(), [&](const Changed& c) { return c.key == &key; });
  if (changed != out.changes.end()) return &changed->value;
  const Value* known = inputs.known(key);
  if (known == nullptr && key.behaves.account == Account::none) return nullptr;
  Value& value = out.changes.emplace_back(Changed{&key, {}}).value;
  if (known == nullptr) return &value;
  value.silent = known->silent;
  value.number = known->number * thinner;
  value.amounts = known->amounts;
  for (auto& [name, amount] : value.amounts) amount *= thinner;
  return &value;
}

// What is raised, as changes of what the lot has. It was raised in the wine that there was before.
void settle_raised(const GivenInputs& inputs, Outcome& out) {
  for (const auto& [key, by, name] : out.raised) {
    if (key == nullptr) throw PluginError("it raises nothing");
    const double thinner = out.poured && key->behaves.thins == Thins::yes ? out.poured->thinner().value() : 1;
    Value* value = so_far(inputs, *key, out, thinner);
    if (value == nullptr) continue;
    if (key->kind == Kind::amounts)
      add_to(value->amounts, name, by * thinner);
    else
      value->number += by * thinner;
  }
}

}  // namespace

Outcome call(const BoundStep& step, const GivenInputs& inputs, const Recipe& recipe) {
  const auto& id = step.spec->calculation;
  try {
    const Running at_work(id);
    Outcome out = step.calculation->run(inputs);
    settle_raised(inputs, out);
    // What waits for its moment comes after what goes in at once.
    std::stable_partition(out.additions.begin(), out.additions.end(),
                          [](const Addition& addition) { return addition.when.empty(); });
    return out;
  } catch (const InputError& error) {
    recipe.document.fail(step.spec->mark, id + ": " + error.what(), error.hint());
  } catch (const BadInput&) {
    throw;  // a rule file that is not in order
  } catch (const std::exception& error) {
    throw PluginError(id + " failed: " + error.what());
  } catch (...) {
    throw PluginError(id + " failed with something that says nothing of itself");
  }
}

void let_follow(const BoundStep& step, const std::vector<LotState>& lots, Outcome& outcome) {
  if (!step.lot) return;
  const Analysis& lot = lots[*step.lot].analysis;
  facts::pour_in(lot, lot::keys, outcome);
  facts::forget_what_hangs_on(lot, lot::keys, outcome);
}

}  // namespace vatwright
