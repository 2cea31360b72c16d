#include "host/bench/bench.hpp"

#include "host/bench/vet.hpp"
#include "host/files/hash.hpp"
#include "host/plugin/lot.hpp"
#include "units/nearest.hpp"
#include "units/parse.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace vatwright {

namespace fs = std::filesystem;

namespace {

// A lot as the steps leave it, and which of them last wrote each value.
struct LotState {
  std::string name;
  Analysis analysis;
  std::map<std::string, std::string, std::less<>> from;
  bool there = true;   // false: a later step makes it
  std::string made{};  // by that step

  void put(const std::string& key, Value value, const std::string& step) {
    analysis.insert_or_assign(key, std::move(value));
    from.insert_or_assign(key, step);
  }
};

const LotState no_lot{};

class GivenInputs final : public Inputs {
 public:
  GivenInputs(const BoundStep& step, const std::vector<LotState>& lots, const Rules& rules, const Catalogue& catalogue)
      : lot_(step.lot ? lots[*step.lot] : no_lot), rules_(rules) {
    for (const auto& need : step.calculation->inputs) {
      if (auto used = pick(step, *need.input)) {
        if (need.input->kind == Kind::substance) used->value.substance = facts(catalogue, used->value.word);
        if (need.input->kind == Kind::lots) join(used->value.rows, lots);
        used_.push_back(std::move(*used));
      }
    }
  }

  const Value* find(const Input& input) const override {
    for (const auto& used : used_)
      if (used.input == &input) return &used.value;
    return nullptr;
  }

  std::optional<LimitRow> limit(const LimitInfo& info, const Analysis* lot) const override {
    return rules_.limit(info, view(lot));
  }
  std::vector<TermRow> sweetness_terms(const Analysis* lot) const override { return rules_.sweetness_terms(view(lot)); }

  const std::vector<UsedInput>& used() const { return used_; }

 private:
  // From the step, else from the lot, else the default.
  std::optional<UsedInput> pick(const BoundStep& step, const Input& input) const {
    if (const auto at = step.given.find(&input); at != step.given.end()) return UsedInput{&input, at->second, "step"};
    if (const auto at = lot_.analysis.find(input.name); at != lot_.analysis.end()) {
      const auto changed = lot_.from.find(input.name);
      return UsedInput{&input, at->second, changed == lot_.from.end() ? "lot" : changed->second};
    }
    if (const auto at = step.defaults.find(&input); at != step.defaults.end())
      return UsedInput{&input, at->second, "default"};
    return std::nullopt;
  }

  static SubstanceFacts facts(const Catalogue& catalogue, const std::string& id) {
    if (const Substance* substance = catalogue.find(id)) return substance->facts;
    throw PluginError("the substance '" + id + "' is not in the catalogue");
  }

  // The lots that the step names, each as it stands now.
  static void join(std::vector<Row>& rows, const std::vector<LotState>& lots) {
    for (auto& row : rows)
      for (const auto& lot : lots)
        if (lot.name == row.name && lot.there) row.lot = std::make_shared<const Analysis>(lot.analysis);
  }

  LotView view(const Analysis* lot) const {
    if (lot == nullptr) return [this](std::string_view key) { return state(key); };
    return [lot](std::string_view key) {
      const auto at = lot->find(key);
      return at == lot->end() ? nullptr : &at->second;
    };
  }

  // What the step says of the lot counts for its rules too.
  const Value* state(std::string_view key) const {
    for (const auto& used : used_)
      if (used.input->name == key) return &used.value;
    const auto at = lot_.analysis.find(key);
    return at == lot_.analysis.end() ? nullptr : &at->second;
  }

  const LotState& lot_;
  const Rules& rules_;
  std::vector<UsedInput> used_;
};

void note_unusual(const std::vector<UsedInput>& inputs, Outcome& outcome) {
  for (const auto& used : inputs) {
    if (used.input->kind != Kind::quantity || !used.input->usual || used.from == "default") continue;
    const double number = parse_unit(used.input->unit).number(used.value.number);
    const auto [low, high] = *used.input->usual;
    if (number >= low && number <= high) continue;
    const auto with = [&](double n) { return with_unit(fmt::format("{:g}", n), used.input->unit); };
    outcome.note(fmt::format("{} of {} is outside the usual {:g} to {}: check the reading", used.input->name,
                             with(number), low, with(high)));
  }
}

std::vector<const Substance*> from_catalogue(const Catalogue& catalogue, const std::vector<std::string>& ids,
                                             const std::string& id_of_step) {
  std::vector<const Substance*> out;
  for (const auto& id : ids) {
    out.push_back(catalogue.find(id));
    if (out.back() == nullptr)
      throw PluginError(fmt::format("{} names a substance '{}' that is not in the catalogue; nothing is shown of it",
                                    id_of_step, id));
  }
  return out;
}

// Calls into the plugin; the only place that does.
Outcome call(const BoundStep& step, const GivenInputs& inputs, const Recipe& recipe) {
  const auto& id = step.spec->calculation;
  try {
    return step.calculation->run(inputs);
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

// What a step did to the lots. Throws PluginError where it cannot have.
class LotBook {
 public:
  LotBook(std::vector<LotState>& lots, const BoundStep& step, std::string number)
      : lots_(lots), step_(step), number_(std::move(number)) {}

  void enter(const Outcome& outcome) {
    for (const auto& changed : outcome.changes) own().put(std::string(changed.key->name), changed.value, number_);
    for (const Input* key : outcome.forgotten) own().analysis.erase(std::string(key->name));
    for (const auto& drawn : outcome.drawn) draw(drawn);
    for (const auto& made : outcome.new_lots) make(made);
  }

 private:
  [[noreturn]] void refuse(const std::string& what) const {
    throw PluginError(step_.spec->calculation + " gave an answer that cannot be used: " + what +
                      "; nothing is shown of it");
  }

  LotState& own() {
    if (!step_.lot) refuse("it changes a lot and is on none");
    return lots_[*step_.lot];
  }

  void draw(const Drawn& drawn) {
    const auto lot =
        std::find_if(lots_.begin(), lots_.end(), [&](const auto& l) { return l.there && l.name == drawn.lot; });
    if (lot == lots_.end()) refuse("wine from a lot '" + drawn.lot + "' that there is not");
    const std::string key(lot::volume.name);
    const auto at = lot->analysis.find(key);
    if (at == lot->analysis.end()) refuse("wine from lot '" + drawn.lot + "', whose volume is not known");
    constexpr double slack = 1e-9;
    const double left = at->second.number - drawn.volume.value();
    if (left < -slack * at->second.number) refuse("more wine than there is in lot '" + drawn.lot + "'");
    Value value;
    value.number = left > slack * at->second.number ? left : 0;
    lot->put(key, std::move(value), number_);
  }

  void make(const NewLot& made) {
    const auto own =
        std::find_if(step_.makes.begin(), step_.makes.end(), [&](std::size_t i) { return lots_[i].name == made.name; });
    if (own == step_.makes.end()) refuse("a lot '" + made.name + "' that it does not declare");
    LotState& lot = lots_[*own];
    lot.there = true;
    lot.made = number_;
    for (const auto& [key, value] : made.analysis) lot.put(key, value, number_);
  }

  std::vector<LotState>& lots_;
  const BoundStep& step_;
  std::string number_;
};

// A step may not work on what is not there.
void refuse_absent(const Recipe& recipe, const BoundStep& step, const std::vector<LotState>& lots) {
  const auto look = [&](const LotState& lot) {
    if (!lot.there)
      recipe.document.fail(step.spec->mark, "lot '" + lot.name + "' was not made by the step that was to make it",
                           "read the checks of that step");
    const auto at = lot.analysis.find(lot::volume.name);
    if (at != lot.analysis.end() && !(at->second.number > 0))
      recipe.document.fail(step.spec->mark, "lot '" + lot.name + "' is empty at this step",
                           "the steps before it have taken all of its wine");
  };
  if (step.lot) look(lots[*step.lot]);
  for (const auto& [input, value] : step.given)
    if (input->kind == Kind::lots)
      for (const auto& row : value.rows)
        for (const auto& lot : lots)
          if (lot.name == row.name) look(lot);
}

std::string shown_volume(const LotState& lot) {
  const auto at = lot.analysis.find("volume");
  if (at == lot.analysis.end()) return {};
  const Shown shown = readable(Volume::from_value(at->second.number));
  return fmt::format("{:.6g} {}", shown.number, shown.unit);
}

}  // namespace

std::vector<std::string> rule_names(const fs::path& folder) {
  std::vector<std::string> names;
  std::error_code ec;
  for (const auto& entry : fs::directory_iterator(folder, ec))
    if (entry.path().extension() == ".yaml") names.push_back(entry.path().stem().string());
  std::sort(names.begin(), names.end());
  return names;
}

RuleSet named_rules(const fs::path& folder, std::string_view name) {
  const auto file = folder / (std::string(name) + ".yaml");
  if (name.find('/') == std::string_view::npos && fs::exists(file)) return RuleSet(file);
  const auto names = rule_names(folder);
  const std::vector<std::string_view> views(names.begin(), names.end());
  std::string known;
  for (const auto& n : names) known += (known.empty() ? "" : ", ") + n;
  const auto close = nearest(name, views);
  throw InputError("no rule set '" + std::string(name) + "'",
                   (close.empty() ? "" : "the nearest is '" + std::string(close) + "'; ") + "there are: " + known +
                       "; a file of house rules is named with its ending .yaml");
}

Rules Bench::rules_of(const Recipe& recipe) const {
  Rules rules;
  for (const auto& [name, mark] : recipe.rules) {
    if (name.ends_with(".yaml") || name.ends_with(".yml")) {
      rules.add(RuleSet(fs::path(recipe.document.name()).parent_path() / name));
      continue;
    }
    try {
      rules.add(named_rules(rules_folder_, name));
    } catch (const InputError& error) {
      recipe.document.fail(mark, error.what(), error.hint());
    }
  }
  return rules;
}

void Bench::check(const Recipe& recipe) const {
  const Rules rules = rules_of(recipe);
  // A lot that says nothing meets every row, so that a slip in any of them is found.
  for (const auto& step : bind(recipe, registry_))
    for (const LimitInfo* limit : step.calculation->limits)
      rules.limit(*limit, [](std::string_view) { return nullptr; });
  rules.sweetness_terms([](std::string_view) { return nullptr; });
}

Worksheet Bench::run(const Recipe& recipe) const {
  const Rules rules = rules_of(recipe);
  const auto steps = bind(recipe, registry_);
  Worksheet sheet;
  sheet.title = recipe.title;
  sheet.demo = recipe.demo;
  sheet.recipe_name = recipe.document.name();
  sheet.recipe_sha256 = sha256_of(recipe.document.text());
  for (const auto& set : rules.sets()) {
    sheet.rules.push_back(set.name());
    sheet.rule_notes.push_back(set.title() + ": " + set.note());
  }
  std::vector<LotState> lots;
  for (const auto& spec : recipe.lots) {
    auto& lot = lots.emplace_back();
    lot.name = spec.name;
    for (const auto& [key, value] : spec.analysis) lot.analysis.emplace(key->name, value);
    sheet.lots.push_back({spec.name, lot.analysis, {}});
  }
  for (const auto& step : steps)
    for (const auto& need : step.calculation->inputs)
      if (need.input->kind == Kind::new_lot)
        if (const Value* name = said(step, *need.input)) {
          lots.emplace_back().name = name->word;
          lots.back().there = false;
        }
  for (std::size_t i = 0; i < steps.size(); ++i) {
    const BoundStep& step = steps[i];
    const auto& id = step.spec->calculation;
    refuse_absent(recipe, step, lots);
    const GivenInputs inputs(step, lots, rules, catalogue_);
    // An earlier step may leave a value unknown that it was free to change.
    refuse_missing(recipe, step, [&](const Input& input) { return inputs.find(input) != nullptr; });
    StepSheet out;
    out.calculation = id;
    out.plugin = std::string(step.plugin->name) + " " + std::string(step.plugin->version);
    out.help = step.calculation->help;
    if (step.lot) {
      out.lot = lots[*step.lot].name;
      out.volume = shown_volume(lots[*step.lot]);
    }
    out.inputs = inputs.used();
    out.outcome = call(step, inputs, recipe);
    vet(out.outcome, *step.calculation, id);
    note_unusual(out.inputs, out.outcome);
    std::vector<std::string> added;
    for (const auto& addition : out.outcome.additions) added.push_back(addition.substance);
    out.added = from_catalogue(catalogue_, added, id);
    out.reagents = from_catalogue(catalogue_, out.outcome.reagents, id);
    LotBook(lots, step, fmt::format("step {}", i + 1)).enter(out.outcome);
    sheet.steps.push_back(std::move(out));
  }
  for (std::size_t i = 0; i < lots.size(); ++i) {
    if (!lots[i].there) continue;
    if (i >= recipe.lots.size()) sheet.lots.push_back({lots[i].name, {}, {}, lots[i].made});
    sheet.lots[i < recipe.lots.size() ? i : sheet.lots.size() - 1].after = std::move(lots[i].analysis);
  }
  return sheet;
}

}  // namespace vatwright
