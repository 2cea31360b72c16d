#include "host/bench/bench.hpp"

#include "host/bench/contradiction.hpp"
#include "host/bench/label_words.hpp"
#include "host/bench/law_notes.hpp"
#include "host/bench/learned.hpp"
#include "host/bench/made_lots.hpp"
#include "host/bench/measurable.hpp"
#include "host/bench/measure_first.hpp"
#include "host/bench/prepared.hpp"
#include "host/bench/rule_sets.hpp"
#include "host/bench/vet.hpp"
#include "host/bench/weigh_out.hpp"
#include "host/bench/went_in.hpp"
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

std::vector<std::string> unusual_among(const std::vector<UsedInput>& inputs) {
  std::vector<std::string> out;
  for (const auto& used : inputs) {
    if (used.input->kind != Kind::quantity || !used.input->usual || used.from.is_fallback()) continue;
    const double number = parse_unit(used.input->unit).number(used.value.number);
    const auto [low, high] = *used.input->usual;
    const double last_bits = 1e-9 * std::max(std::abs(low), std::abs(high));
    if (number >= low - last_bits && number <= high + last_bits) continue;
    const auto with = [&](double n) { return with_unit(fmt::format("{:g}", n), used.input->unit); };
    out.push_back(fmt::format("{} of {} is outside the usual {:g} to {}: check the reading", used.input->name,
                              with(number), low, with(high)));
  }
  return out;
}

// What of the lot comes from the book is said once; a dose that rests on forecasts of the book waits for readings.
void note_book(const LotState& lot, const std::vector<StepSheet>& before, StepSheet& step) {
  if (lot.as_of.empty()) return;
  const bool said = std::any_of(before.begin(), before.end(), [&](const StepSheet& s) { return s.lot == lot.name; });
  if (!said) step.outcome.note(fmt::format("lot {} is {}", lot.name, lot.as_of));
  std::string names;
  // By name: a plugin has a key of its own for what the host calls the same.
  const auto is_foretold = [&](const UsedInput& used) {
    return std::any_of(lot.foretold.begin(), lot.foretold.end(),
                       [&](const Input* key) { return key->name == used.input->name; });
  };
  for (const auto& used : step.inputs)
    if (used.from.of == Origin::Of::reading && is_foretold(used))
      names += fmt::format("{}{}", names.empty() ? "" : ", ", used.input->name);
  if (names.empty() || step.outcome.additions.empty()) return;
  auto& work = step.outcome.work;
  work.insert(
      work.begin(),
      fmt::format("first measure {} of lot {}: the book has only a forecast of what was done before", names, lot.name));
}

// Of what was poured in nobody knows what it does to these.
void note_unknown(std::size_t said, Outcome& outcome) {
  std::string names;
  for (std::size_t i = said; i < outcome.forgotten.size(); ++i)
    names += fmt::format("{}{}", names.empty() ? "" : ", ", outcome.forgotten[i]->name);
  if (!names.empty()) outcome.note("no longer known after this step, and to be measured again: " + names);
}

// With the hazards of its strength, the languages that the recipe asks for, and the limits at work of its rule sets.
const Substance* handled(const Catalogue& catalogue, const Prepared& ready, std::string_view id,
                         std::string_view strength, const std::string& id_of_step) {
  const Substance* substance = catalogue.find(id, {strength, ready.languages, ready.rule_names});
  if (substance == nullptr)
    throw PluginError(
        fmt::format("{} names a substance '{}' that is not in the catalogue; nothing is shown of it", id_of_step, id));
  return substance;
}

bool decides(const Calculation& calculation) {
  return std::any_of(calculation.results.begin(), calculation.results.end(),
                     [](const ResultInfo* result) { return result->decided; });
}

std::string shown_volume(const LotState& lot) {
  const auto at = lot.analysis.find(lot::volume.name);
  if (at == lot.analysis.end()) return {};
  const Shown shown = readable(Volume::from_value(at->second.number));
  return fmt::format("{:.5g} {}", shown.number, shown.unit);
}

void name_samples(const Recipe& recipe, Worksheet& sheet) {
  for (auto& lot : sheet.lots)
    for (const auto& given : recipe.lots)
      if (given.name == lot.name) lot.sample = given.sample;
}

std::optional<Volume> volume_of(const std::vector<UsedInput>& inputs, const LotState* lot) {
  if (auto taken = volume_in(inputs)) return taken;
  if (lot == nullptr) return std::nullopt;
  const auto at = lot->analysis.find(lot::volume.name);
  return at == lot->analysis.end() ? std::nullopt : std::optional(Volume::from_value(at->second.number));
}

}  // namespace

// A set, and those that it includes; each once.
void Bench::add_rules(RuleSet set, Rules& rules) const {
  for (const auto& there : rules.sets())
    if (there.name() == set.name() && there.text() == set.text()) return;
  const auto includes = set.includes();
  rules.add(std::move(set));
  for (const auto& name : includes) add_rules(named_rules(rules_folder_, name), rules);
}

Rules Bench::rules_of(const Recipe& recipe, Slips& slips) const {
  Rules rules;
  for (const auto& [name, mark] : recipe.rules)
    slips.in([&, &called = name, place = mark] { add_rules(rule_set(recipe, called, place), rules); });
  return rules;
}

RuleSet Bench::rule_set(const Recipe& recipe, const std::string& name, Mark mark) const {
  if (is_rule_file(name)) {
    const auto file = rule_file(recipe, name);
    if (!fs::exists(file))
      recipe.document.fail(mark, "there is no file " + in_quotes(file.string()),
                           "house rules stand beside the recipe: look at the spelling of their name");
    return own_rules(file, rules_folder_, registry_);
  }
  try {
    return named_rules(rules_folder_, name);
  } catch (const InputError& error) {
    recipe.document.fail(mark, error.what(), error.hint());
  }
}

void Bench::check(const Recipe& recipe, Slips found) const { prepare(recipe, found); }

Prepared Bench::prepare(const Recipe& recipe) const {
  Slips slips;
  return prepare(recipe, slips);
}

Prepared Bench::prepare(const Recipe& recipe, Slips& slips) const {
  const fs::path data = rules_folder_.parent_path();
  auto typical = recipe.typical_uncertainty ? std::make_shared<const Typical>(data / "typical.yaml") : nullptr;
  auto languages = languages_of(recipe, slips);
  auto ready = vatwright::prepare(recipe, rules_of(recipe, slips), std::move(typical), registry_, catalogue_, slips);
  ready.languages = std::move(languages);
  for (const auto& set : ready.rules->sets()) ready.rule_names.push_back(set.name());
  return ready;
}

std::vector<Language> Bench::languages_of(const Recipe& recipe, Slips& slips) const {
  std::vector<Language> out;
  for (const auto& [code, mark] : recipe.languages)
    slips.in([&, &asked = code, place = mark] {
      if (std::any_of(out.begin(), out.end(), [&](const Language& known) { return known.code() == asked; })) return;
      try {
        out.push_back(named_language(rules_folder_.parent_path() / "languages", asked));
      } catch (const InputError& error) {
        recipe.document.fail(place, error.what(), error.hint());
      }
    });
  return out;
}

Worksheet Bench::run(const Recipe& recipe, const Draws& draws) const {
  const Prepared ready = prepare(recipe);
  Worksheet sheet;
  sheet.title = recipe.title;
  sheet.demo = recipe.demo;
  sheet.date = recipe.date;
  sheet.by = recipe.by;
  sheet.recipe_name = recipe.document.name();
  sheet.recipe_form = recipe.form;
  sheet.recipe_text = recipe.document.text();
  sheet.recipe_sha256 = sha256_of(recipe.document.text());
  for (const auto& set : ready.rules->sets())
    sheet.rules.push_back({set.name(), told_on_a_sheet(set, sheet.rules.empty()), set.sum()});
  for (const auto& language : ready.languages) sheet.languages.push_back({language.code(), language.told_on_a_sheet()});
  run_steps(ready, draws, sheet);
  const bool weighs = std::any_of(sheet.steps.begin(), sheet.steps.end(), [](const StepSheet& step) {
    return !step.outcome.additions.empty() || !step.outcome.reagents.empty();
  });
  if (weighs) sheet.weigh_out = weigh_out(sheet.steps, Apart(apart_table(), handled_in(sheet.steps)));
  name_samples(recipe, sheet);
  name_files(ready, sheet);
  return sheet;
}

// The tables and plugins that another figure or caution might come from.
void Bench::name_files(const Prepared& ready, Worksheet& sheet) const {
  const fs::path data = rules_folder_.parent_path();
  const auto table = [&](const std::string& name) {
    auto text = read_file(data / name, ReadLimits{}.bytes);
    sheet.tables.push_back({name, Sum([text = std::move(text)] { return sha256_of(text); })});
  };
  sheet.tables.push_back({"substances.yaml", catalogue_.sum()});
  if (!sheet.weigh_out.lines.empty()) table("apart.yaml");
  if (ready.typical != nullptr) sheet.tables.push_back({"typical.yaml", ready.typical->sum()});
  for (const auto& language : ready.languages) table("languages/" + language.code() + ".yaml");
  for (const auto& step : ready.steps) {
    const std::string name(step.plugin->name);
    if (std::none_of(sheet.plugins.begin(), sheet.plugins.end(),
                     [&](const UsedFile& known) { return known.name == name; }))
      sheet.plugins.push_back({name, Sum(registry_.sha256_of(name))});
  }
}

fs::path Bench::apart_table() const { return rules_folder_.parent_path() / "apart.yaml"; }

Apart Bench::apart() const { return Apart(apart_table()); }

void Bench::run_steps(const Prepared& ready, const Draws& draws, Worksheet& sheet) const {
  const Recipe& recipe = ready.recipe;
  for (const auto& lot : ready.lots)
    if (lot.there) sheet.lots.push_back({lot.name, lot.analysis, {}});
  for (std::size_t i = 0; i < recipe.lots.size() && i < sheet.lots.size(); ++i)
    sheet.lots[i].record = recipe.lots[i].record;
  auto lots = ready.lots;
  sheet.steps.reserve(ready.steps.size());
  for (const auto& bound : ready.steps) {
    const auto told = told_what_went_in(bound, lots, catalogue_);
    const BoundStep& step = told ? told->step : bound;
    const auto& id = step.spec->calculation;
    refuse_absent(recipe, step, lots);
    if (step.lot) refuse_contradiction(recipe, step, lots[*step.lot]);
    const GivenInputs inputs(step, lots, *ready.rules);
    // An earlier step may leave a value unknown that it was free to change.
    refuse_missing(recipe, step, step.lot ? lots[*step.lot].name : std::string(),
                   [&](const Input& input) { return inputs.is_there(input); });
    refuse_unless_one(recipe, step,
                      [&](const Input& input) { return !step.given.contains(&input) && inputs.is_there(input); });
    StepSheet out;
    out.calculation = id;
    out.doses = decides(*step.calculation);
    out.plugin = std::string(step.plugin->name) + " " + std::string(step.plugin->version);
    out.help = step.calculation->help;
    if (step.lot) {
      out.lot = lots[*step.lot].name;
      out.volume = shown_volume(lots[*step.lot]);
    }
    out.outcome = contradicted(step, lots);
    out.contradicted = !out.outcome.checks.empty();
    if (!out.contradicted) out.outcome = call(step, inputs, recipe);
    out.inputs = inputs.used();
    out.asked_by_rules = inputs.used_by_rules();
    const auto volume = volume_of(out.inputs, step.lot ? &lots[*step.lot] : nullptr);
    vet(out.outcome, *step.calculation, id, volume);
    if (refuse_unmeasurable(catalogue_, volume, out.outcome)) out.contradicted = true;
    const auto said = out.outcome.forgotten.size();
    let_follow(step, lots, out.outcome);
    note_unknown(said, out.outcome);
    withhold(out, sheet.steps);
    if (step.lot) note_book(lots[*step.lot], sheet.steps, out);
    if (told)
      out.outcome.note(
          fmt::format("what went into lot {}, by its book and by earlier steps: {}", out.lot, told->names));
    out.unusual = unusual_among(out.inputs);
    for (const auto& words : out.unusual) out.outcome.note(words);
    note_silent_rules(inputs, *ready.rules, out.outcome);
    note_wine_to_come(inputs, *ready.rules, out.outcome);
    for (const auto& addition : out.outcome.additions)
      out.added.push_back(handled(catalogue_, ready, addition.substance, addition.strength, id));
    out.made_first = made_first(out, sheet.steps);
    out.measure_first = measure_first(out, sheet.steps);
    for (const auto& reagent : out.outcome.reagents) {
      const auto [name, strength] = apart_from_strength(reagent);
      out.reagents.push_back(handled(catalogue_, ready, name, strength, id));
    }
    note_label_words(ready.languages, out);
    enter(out.outcome, step, sheet.steps.size(), recipe, lots, Run::on_sheet, &out.leaves);
    note_what_went_in(out.outcome, step, lots);
    sheet.steps.push_back(std::move(out));
  }
  for (std::size_t i = 0; i < lots.size(); ++i) {
    if (!lots[i].there) continue;
    if (i >= recipe.lots.size()) sheet.lots.push_back({lots[i].name, {}, {}, lots[i].made});
    sheet.lots[i < recipe.lots.size() ? i : sheet.lots.size() - 1].after = std::move(lots[i].analysis);
  }
  for (const auto& step : sheet.steps)
    for (auto& lot : sheet.lots)
      if (step.withheld && makes_of(step, lot.name)) lot.as_if = step.withheld->by;
  state_uncertainty(ready, draws, sheet);
  state_learned(recipe, sheet);
}

}  // namespace vatwright
