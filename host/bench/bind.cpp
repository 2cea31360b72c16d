#include "host/bench/bind.hpp"

#include "host/plugin/lot.hpp"
#include "host/recipe/lot_name.hpp"
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
  Binder(const Recipe& recipe, Registry& registry, Slips& slips)
      : recipe_(recipe), doc_(recipe.document), registry_(registry), slips_(slips) {
    for (const auto& lot : recipe.lots) {
      auto& known = lots_.emplace_back(KnownLot{lot.name, lot.unread, lot.all_unread});
      for (const auto& [key, value] : lot.analysis) known.keys.emplace(key->name);
    }
  }

  // Of a step that cannot be bound, any word may be the name of a lot that it would have made.
  void give_up(const StepSpec& spec) {
    for (const auto& input : spec.inputs)
      if (input.node->kind == Node::Kind::text) doubtful_.insert(input.node->text);
  }

  // As the calculation that answers it, where that is another one than was asked. None where the calculation is not
  // known, or whose step it would be is not.
  std::optional<BoundStep> bind(const StepSpec& spec) {
    std::string close;
    const auto asked = registry_.find(spec.calculation, close);
    const HandOver* other = asked.calculation == nullptr ? nullptr : handed_over(*asked.calculation, spec);
    if (other == nullptr) return bind_as_said(spec, asked, close);
    const auto answers = registry_.find(other->to, close);
    if (answers.calculation == nullptr) {
      slips_.in([&] { unknown(StepSpec{std::string(other->to), spec.mark, {}, {}, {}}, close); });
      return give_up(spec), std::nullopt;
    }
    if (other->stays_if_unknown && recipe_.rules.empty() && says_too_little(spec, *other, *answers.calculation))
      return bind_as_said(spec, asked, close);
    auto handed = std::make_shared<const HandedStep>(spec, *other, *answers.calculation, doc_, slips_);
    auto step = bind_as_said(handed->spec(), answers, close);
    if (step) step->handed = std::move(handed);
    return step;
  }

 private:
  // Whether the lot is known to have less than the calculation that would answer reckons by.
  bool says_too_little(const StepSpec& spec, const HandOver& how, const Calculation& answers) const {
    const KnownLot* lot = nullptr;
    for (const auto& known : lots_)
      if (spec.lot.empty() ? lots_.size() == 1 : known.name == spec.lot) lot = &known;
    if (lot == nullptr || lot->made) return false;
    const auto is_said = [&](std::string_view name) {
      return lot->keys.contains(name) ||
             std::any_of(spec.inputs.begin(), spec.inputs.end(),
                         [&](const StepInput& said) { return name_there(how, said.name) == name; });
    };
    for (const auto& need : answers.inputs)
      if (need.required && find_lot_key(need.input->name) != nullptr && !is_said(need.input->name)) return true;
    return !how.one_reading.empty() && std::none_of(how.one_reading.begin(), how.one_reading.end(), is_said);
  }

  // `close`: the nearest known name where there is no such calculation.
  std::optional<BoundStep> bind_as_said(const StepSpec& spec, Registry::Found found, std::string close) {
    const bool guessed = found.calculation == nullptr;
    if (guessed) {
      slips_.in([&] { unknown(spec, close); });
      // What the step says is held against the one that is likely meant.
      if (!close.empty()) found = registry_.find(std::string(close), close);
      if (found.calculation == nullptr) return give_up(spec), std::nullopt;
    }
    BoundStep step{&spec, found.plugin, found.calculation, {}, {}, {}, {}, {}, {}};
    unread_ = spec.unread;
    const bool refused = unread_.contains("lot") || slips_.in([&] { step.lot = lot_of(spec, *found.calculation); });
    lot_unread_ = refused || (found.calculation->on_lot && !step.lot);
    for (const auto& input : spec.inputs)
      if (slips_.in([&] { take(step, input); })) {
        unread_.insert(input.name);
        if (input.node->kind == Node::Kind::text) doubtful_.insert(input.node->text);
      }
    check_lots(step);
    for (const auto& need : found.calculation->inputs)
      if (!need.fallback.empty() && !step.given.contains(need.input))
        step.defaults.emplace(need.input, read_default(need.fallback, *need.input));
    if (!guessed)
      slips_.in([&] {
        refuse_missing(recipe_, step, step.lot ? lots_[*step.lot].name : std::string(),
                       [&](const Input& input) { return step.given.contains(&input) || from_lot(step, input); });
      });
    // What a lot that a step makes has is known when that step has run.
    if (!guessed && (!step.lot || !lots_[*step.lot].made) && !lot_unread_ && !any_unread(*step.calculation))
      slips_.in([&] { refuse_unless_one(recipe_, step, [&](const Input& input) { return from_lot(step, input); }); });
    for (const Input* key : found.calculation->changes) {
      if (step.lot) lots_[*step.lot].keys.emplace(key->name);
      if (lot_unread_)  // whichever it is
        for (auto& lot : lots_) lot.keys.emplace(key->name);
    }
    make_lots(step);
    return step;
  }

  [[noreturn]] void unknown(const StepSpec& spec, const std::string& close) const {
    const std::string what = "no calculation " + in_quotes(spec.calculation);
    if (const auto hint = registry_.hint(spec.calculation, close); !hint.empty()) doc_.fail(spec.mark, what, hint);
    const auto plugin = spec.calculation.substr(0, spec.calculation.find('.'));
    std::string refused;
    for (const auto& why : registry_.refusals()) refused += "\n  refused: " + why;
    Problem problem = doc_.problem(spec.mark, what + ": there is no plugin " + in_quotes(plugin), {});
    problem.place.excerpt.clear();
    problem.message += refused.empty() ? "; 'vatwright list' shows what there is" : refused;
    throw PluginError(std::move(problem));
  }

  void take(BoundStep& step, const StepInput& input) {
    std::vector<std::string_view> known{"lot"};
    for (const auto& need : step.calculation->inputs) {
      if (need.input->name == input.name) {
        if (step.lot && lot::is_counted_by_law(need.input)) refuse_account(input);
        step.given.emplace(need.input, read_value(doc_, *input.node, *need.input, recipe_.acid_basis));
        return;
      }
      known.push_back(need.input->name);
    }
    const auto meant = nearest(input.name, known);
    lot_unread_ = lot_unread_ || (meant == "lot" && step.spec->lot.empty());
    unread_.emplace(meant);
    doc_.fail(input.mark, step.spec->calculation + " has no input " + in_quotes(input.name),
              did_you_mean(input.name, known, "'vatwright show " + step.spec->calculation + "' lists them"));
  }

  [[noreturn]] void refuse_account(const StepInput& input) const {
    doc_.fail(input.mark, in_quotes(input.name) + " is an account of what was done to the lot, which no step can set",
              "write it under the lot: it is what was done before this recipe, and each step adds its own to it");
  }

  // Whether one of which one is due stands in the step or in its lot, but could not be read.
  bool any_unread(const Calculation& calculation) const {
    for (const OneOf choice : calculation.one_of)
      for (const Input* input : choice)
        if (unread_.contains(input->name)) return true;
    return false;
  }

  bool from_lot(const BoundStep& step, const Input& input) const {
    if (unread_.contains(input.name) || lot_unread_) return true;
    return step.lot && (lots_[*step.lot].made || lots_[*step.lot].keys.contains(input.name));
  }

  // None where it may be one that could not be read.
  std::optional<std::size_t> lot_named(const std::string& name, Mark mark) const {
    std::vector<std::string_view> names;
    for (std::size_t i = 0; i < lots_.size(); ++i) {
      if (lots_[i].name == name) return i;
      names.push_back(lots_[i].name);
    }
    if (recipe_.lots_unread || doubtful_.contains(name)) return std::nullopt;
    doc_.fail(mark, "no lot '" + name + "' at this step of the recipe",
              did_you_mean(name, names, "the lots are named under 'lots:', or by the step that makes them"));
  }

  std::optional<std::size_t> lot_of(const StepSpec& spec, const Calculation& calculation) const {
    if (!calculation.on_lot) {
      if (!spec.lot.empty()) doc_.fail(spec.lot_mark, spec.calculation + " is not on a lot", "leave out 'lot:'");
      return std::nullopt;
    }
    if (!spec.lot.empty()) return lot_named(spec.lot, spec.lot_mark);
    if (recipe_.lots_unread) return std::nullopt;
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
      const bool twice = slips_.in([&] {
        for (const auto& lot : lots_)
          if (likeness(lot.name) == likeness(value->word))
            doc_.fail(mark_of(step, *need.input),
                      "there is a lot '" + lot.name + "' already" +
                          (lot.name == value->word ? "" : ", which looks like '" + value->word + "'"),
                      "give the new lot a name of its own, with '" + std::string(need.input->name) + ": ...'");
      });
      if (twice) continue;
      step.makes.push_back(lots_.size());
      lots_.push_back({value->word, {}, true});
    }
  }

  void check_lots(const BoundStep& step) {
    for (const auto& [input, value] : step.given)
      if (input->kind == Kind::lots)
        for (const auto& row : value.rows)
          slips_.in([&, key = input, lot = &row] { lot_named(lot->name, mark_of(step, *key)); });
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
  Slips& slips_;
  std::set<std::string, std::less<>> doubtful_{};  // names of lots that a step which could not be read may make
  // Of the step at hand: inputs that stand there and could not be read, and whether its lot is one of them.
  std::set<std::string, std::less<>> unread_{};
  bool lot_unread_ = false;
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
      (step.lot ? "write them in the lot or in the step; what was measured as nothing is written as 0"
                : "write them in the step; what was measured as nothing is written as 0") +
          step.spec->because);
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

std::vector<BoundStep> bind(const Recipe& recipe, Registry& registry, Slips& slips) {
  Binder binder(recipe, registry, slips);
  std::vector<BoundStep> steps;
  std::vector<PluginError> troubles;
  for (const auto& spec : recipe.steps) {
    try {
      if (auto step = binder.bind(spec)) steps.push_back(std::move(*step));
    } catch (const PluginError& error) {
      troubles.push_back(error);
      binder.give_up(spec);
    }
  }
  // Beside what a person wrote amiss it is one more thing to mend; alone it is no fault of theirs.
  if (slips.none() && !troubles.empty()) throw troubles.front();
  for (const auto& trouble : troubles) slips.add({trouble.problem()});
  return steps;
}

}  // namespace vatwright
