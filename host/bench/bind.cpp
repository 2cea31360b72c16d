#include "host/bench/bind.hpp"

#include "host/recipe/value.hpp"
#include "units/nearest.hpp"

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
      auto& keys = known_.emplace_back();
      for (const auto& [key, value] : lot.analysis) keys.emplace(key->name);
    }
  }

  BoundStep bind(const StepSpec& spec) {
    std::string close;
    const auto found = registry_.find(spec.calculation, close);
    if (found.calculation == nullptr) unknown(spec, close);
    BoundStep step{&spec, found.plugin, found.calculation, {}, {}};
    for (const auto& input : spec.inputs) take(step, input);
    for (const auto& need : found.calculation->inputs)
      if (!need.fallback.empty() && !step.given.contains(need.input))
        step.defaults.emplace(need.input, read_default(need.fallback, *need.input));
    refuse_missing(recipe_, step,
                   [&](const Input& input) { return step.given.contains(&input) || from_lot(step, input); });
    for (const auto& choice : found.calculation->one_of) refuse_unless_one(step, choice);
    for (const Input* key : found.calculation->changes) known_[spec.lot].emplace(key->name);
    return step;
  }

 private:
  [[noreturn]] void unknown(const StepSpec& spec, const std::string& close) const {
    const std::string what = "no calculation " + in_quotes(spec.calculation);
    if (!close.empty()) doc_.fail(spec.mark, what, "the nearest known one is " + in_quotes(close));
    const auto plugin = spec.calculation.substr(0, spec.calculation.find('.'));
    std::string refused;
    for (const auto& why : registry_.refusals()) refused += "\n  refused: " + why;
    throw PluginError(doc_.name() + ": " + what + ": there is no plugin " + in_quotes(plugin) +
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

  bool from_lot(const BoundStep& step, const Input& input) const { return known_[step.spec->lot].contains(input.name); }

  void refuse_unless_one(const BoundStep& step, OneOf choice) const {
    std::vector<std::string> names, in_step, in_lot;
    for (const Input* input : choice) {
      names.push_back(in_quotes(input->name));
      if (step.given.contains(input)) in_step.push_back(names.back());
      if (from_lot(step, *input)) in_lot.push_back(names.back());
    }
    const auto& given = in_step.empty() ? in_lot : in_step;
    if (given.size() == 1) return;
    doc_.fail(step.spec->mark, step.spec->calculation + " takes one of " + joined(names, ", ") + ", " +
                                   (given.empty() ? "none is given" : "given are " + joined(given, " and ")));
  }

  const Recipe& recipe_;
  const Document& doc_;
  Registry& registry_;
  std::vector<std::set<std::string, std::less<>>> known_;  // lot keys with a value, step by step
};

}  // namespace

void refuse_missing(const Recipe& recipe, const BoundStep& step, const std::function<bool(const Input&)>& there) {
  std::vector<std::string> missing;
  for (const auto& need : step.calculation->inputs)
    if (need.required && !there(*need.input))
      missing.push_back(in_quotes(need.input->name) + " (" + std::string(need.input->help) + ")");
  if (missing.empty()) return;
  recipe.document.fail(step.spec->mark,
                       step.spec->calculation + " on lot " + in_quotes(recipe.lots[step.spec->lot].name) + " misses " +
                           joined(missing, ", "),
                       "write them in the lot or in the step; what was measured as nothing is written as 0");
}

std::vector<BoundStep> bind(const Recipe& recipe, Registry& registry) {
  Binder binder(recipe, registry);
  std::vector<BoundStep> steps;
  for (const auto& spec : recipe.steps) steps.push_back(binder.bind(spec));
  return steps;
}

}  // namespace vatwright
