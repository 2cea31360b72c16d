#include "host/bench/bind.hpp"

#include "host/recipe/value.hpp"
#include "units/nearest.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>

namespace vatwright {
namespace {

std::string joined(const std::vector<std::string>& words, std::string_view between) {
  std::string out;
  for (const auto& word : words) out += (out.empty() ? "" : std::string(between)) + word;
  return out;
}

class Binder {
 public:
  Binder(const Recipe& recipe, Registry& registry) : recipe_(recipe), doc_(recipe.document), registry_(registry) {
    for (const auto& lot : recipe.lots) {
      auto& known = lots_.emplace_back(KnownLot{lot.name, {}, false});
      for (const auto& [key, value] : lot.analysis) known.keys.emplace(key->name);
    }
  }

  BoundStep bind(const StepSpec& spec) {
    std::string close;
    const auto found = registry_.find(spec.calculation, close);
    if (found.calculation == nullptr) unknown(spec, close);
    BoundStep step{&spec, found.plugin, found.calculation, lot_of(spec, *found.calculation), {}, {}, {}, {}};
    for (const auto& input : spec.inputs) take(step, input);
    check_lots(step);
    for (const auto& need : found.calculation->inputs)
      if (!need.fallback.empty() && !step.given.contains(need.input))
        step.defaults.emplace(need.input, read_default(need.fallback, *need.input));
    refuse_missing(recipe_, step, step.lot ? lots_[*step.lot].name : std::string(),
                   [&](const Input& input) { return step.given.contains(&input) || from_lot(step, input); });
    // What a lot that a step makes has is known when that step has run.
    if (!step.lot || !lots_[*step.lot].made)
      refuse_unless_one(recipe_, step, [&](const Input& input) { return from_lot(step, input); });
    if (step.lot)
      for (const Input* key : found.calculation->changes) lots_[*step.lot].keys.emplace(key->name);
    make_lots(step);
    return step;
  }

 private:
  [[noreturn]] void unknown(const StepSpec& spec, const std::string& close) const {
    const std::string what = "no calculation " + in_quotes(spec.calculation);
    if (const auto hint = registry_.hint(spec.calculation, close); !hint.empty()) doc_.fail(spec.mark, what, hint);
    const auto plugin = spec.calculation.substr(0, spec.calculation.find('.'));
    std::string refused;
    for (const auto& why : registry_.refusals()) refused += "\n  refused: " + why;
    throw PluginError(fmt::format("{}:{}:{}: ", doc_.name(), spec.mark.line, spec.mark.byte + 1) + what +
                      ": there is no plugin " + in_quotes(plugin) +
                      (refused.empty() ? "; 'vatwright list' shows what there is" : refused));
  }

  void take(BoundStep& step, const StepInput& input) const {
    std::vector<std::string_view> known{"lot"};
    for (const auto& need : step.calculation->inputs) {
      if (need.input->name == input.name) {
        step.given.emplace(need.input, read_value(doc_, *input.node, *need.input, recipe_.acid_basis));
        return;
      }
      known.push_back(need.input->name);
    }
    doc_.fail(input.mark, step.spec->calculation + " has no input " + in_quotes(input.name),
              did_you_mean(input.name, known, "'vatwright show " + step.spec->calculation + "' lists them"));
  }

  bool from_lot(const BoundStep& step, const Input& input) const {
    return step.lot && (lots_[*step.lot].made || lots_[*step.lot].keys.contains(input.name));
  }

  std::size_t lot_named(const std::string& name, Mark mark) const {
    std::vector<std::string_view> names;
    for (std::size_t i = 0; i < lots_.size(); ++i) {
      if (lots_[i].name == name) return i;
      names.push_back(lots_[i].name);
    }
    doc_.fail(mark, "no lot '" + name + "' at this step of the recipe",
              did_you_mean(name, names, "the lots are named under 'lots:', or by the step that makes them"));
  }

  std::optional<std::size_t> lot_of(const StepSpec& spec, const Calculation& calculation) const {
    if (!calculation.on_lot) {
      if (!spec.lot.empty()) doc_.fail(spec.lot_mark, spec.calculation + " is not on a lot", "leave out 'lot:'");
      return std::nullopt;
    }
    if (!spec.lot.empty()) return lot_named(spec.lot, spec.lot_mark);
    if (lots_.size() == 1) return 0;
    if (lots_.empty()) doc_.fail(spec.mark, spec.calculation + " is on a lot, and the recipe has none", "add 'lots:'");
    std::vector<std::string> names;
    for (const auto& lot : lots_) names.push_back(lot.name);
    doc_.fail(spec.mark, "which lot? The recipe has " + joined(names, ", "), "add 'lot: ...' to the step");
  }

  // The place of an input in the recipe.
  static Mark mark_of(const BoundStep& step, const Input& input) {
    for (const auto& given : step.spec->inputs)
      if (given.name == input.name) return given.mark;
    return step.spec->mark;
  }

  void make_lots(BoundStep& step) {
    for (const auto& need : step.calculation->inputs) {
      if (need.input->kind != Kind::new_lot) continue;
      const Value* value = said(step, *need.input);
      if (value == nullptr) continue;
      for (const auto& lot : lots_)
        if (lot.name == value->word)
          doc_.fail(mark_of(step, *need.input), "there is a lot '" + lot.name + "' already",
                    "give the new lot a name of its own, with '" + std::string(need.input->name) + ": ...'");
      step.makes.push_back(lots_.size());
      lots_.push_back({value->word, {}, true});
    }
  }

  void check_lots(const BoundStep& step) const {
    for (const auto& [input, value] : step.given)
      if (input->kind == Kind::lots)
        for (const auto& row : value.rows) lot_named(row.name, mark_of(step, *input));
  }

  const Recipe& recipe_;
  const Document& doc_;
  Registry& registry_;
  // What is known of the lots, step by step. Of one that a step makes nothing is, before it runs.
  struct KnownLot {
    std::string name;
    std::set<std::string, std::less<>> keys;
    bool made;
  };
  std::vector<KnownLot> lots_;
};

}  // namespace

const Value* said(const BoundStep& step, const Input& input) {
  if (const auto at = step.given.find(&input); at != step.given.end()) return &at->second;
  if (const auto at = step.defaults.find(&input); at != step.defaults.end()) return &at->second;
  return nullptr;
}

void refuse_missing(const Recipe& recipe, const BoundStep& step, const std::string& lot,
                    const std::function<bool(const Input&)>& there) {
  std::vector<std::string> missing;
  for (const auto& need : step.calculation->inputs)
    if (need.required && !there(*need.input))
      missing.push_back(in_quotes(need.input->name) + " (" + std::string(need.input->help) + ")");
  if (missing.empty()) return;
  recipe.document.fail(
      step.spec->mark,
      step.spec->calculation + (lot.empty() ? "" : " on lot " + in_quotes(lot)) + " misses " + joined(missing, ", "),
      step.lot ? "write them in the lot or in the step; what was measured as nothing is written as 0"
               : "write them in the step; what was measured as nothing is written as 0");
}

void refuse_unless_one(const Recipe& recipe, const BoundStep& step, const std::function<bool(const Input&)>& from_lot) {
  for (const OneOf choice : step.calculation->one_of) {
    std::vector<std::string> names, in_step, in_lot;
    for (const Input* input : choice) {
      names.push_back(in_quotes(input->name));
      if (step.given.contains(input)) in_step.push_back(names.back());
      if (from_lot(*input)) in_lot.push_back(names.back());
    }
    const auto& given = in_step.empty() ? in_lot : in_step;
    if (given.size() == 1) continue;
    recipe.document.fail(step.spec->mark,
                         step.spec->calculation + " takes one of " + joined(names, ", ") + ", " +
                             (given.empty() ? "none is given" : "given are " + joined(given, " and ")),
                         given.empty() ? "write one of them in the step" : "keep one of them");
  }
}

std::vector<BoundStep> bind(const Recipe& recipe, Registry& registry) {
  Binder binder(recipe, registry);
  std::vector<BoundStep> steps;
  for (const auto& spec : recipe.steps) steps.push_back(binder.bind(spec));
  return steps;
}

}  // namespace vatwright
