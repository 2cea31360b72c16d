// What a recipe came to: everything that the writers in host/sheet/ put on paper.
#pragma once

#include "host/facts/origin.hpp"
#include "host/files/hash.hpp"
#include "host/plugin/description.hpp"
#include "host/plugin/lot.hpp"
#include "host/plugin/outcome.hpp"
#include "host/substances/apart.hpp"
#include "host/substances/catalogue.hpp"
#include "host/substances/language.hpp"

#include <algorithm>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace vatwright {

// What the uncertainty of readings and models does to one figure of a step.
struct Spread {
  double standard = 0;                                  // coherent, standard uncertainty; 0: none is known
  std::optional<std::pair<double, double>> interval{};  // coherent, of 95 %; by Monte Carlo only
  std::string chief{};                                  // the reading or model that does most of it
  double chief_share = 0;                               // of the variance
};

// How likely a figure is where it ought to be.
struct Chance {
  std::string name;
  double probability = 0;
};

struct UsedInput {
  const Input* input = nullptr;
  Value value;
  Origin from{};
  bool read = true;  // this run has asked for it; others stand there for the case that it had
};

// Of the lot, where the step takes it.
inline std::optional<Volume> volume_in(const std::vector<UsedInput>& inputs) {
  for (const auto& used : inputs)
    if (used.input->name == lot::volume.name) return Volume::from_value(used.value.number);
  return std::nullopt;
}

// A step's additions rest on figures that earlier steps only predict, whatever they did to the lot.
struct MeasureFirst {
  std::size_t after;                      // steps[after] is the last of them, or made the last addition before this one
  bool mixes;                             // and adds something, which is to be mixed in
  std::vector<std::string_view> figures;  // lot keys to read again before anything more goes in
};

// A step's additions go into a lot that an earlier step makes, or draws from: they are reckoned for what it leaves.
struct MadeFirst {
  std::size_t step;     // steps[step]
  std::string_view by;  // "join", "draw", "press"
};

// Lots are not to be made while a check of the step that makes them fails, and nothing is done to them after it.
struct Withheld {
  std::size_t by;  // a check of steps[by] fails
  bool itself;     // this is that step
};

// A value that the step leaves of a lot; nothing: it is not known any more.
struct Left {
  std::string lot;
  const Input* key;
  std::optional<Value> value;
  Origin::Of from;
};

struct StepSheet {
  std::string calculation;  // "sulfite.addition"
  std::string plugin;       // "sulfite 0.1.0"
  std::string help;
  std::string lot;     // empty: the step is on no single lot
  std::string volume;  // of the lot, as shown; empty when it is not known
  std::vector<UsedInput> inputs;
  std::vector<UsedInput> asked_by_rules;  // of the lot, beside those: the conditions of their rows
  std::vector<std::string> unusual;       // of the inputs, in words: also among the notes
  Outcome outcome;
  bool contradicted = false;  // readings cannot all be right, or nobody can measure its dose: nothing is done
  bool doses = false;         // the calculation decides on an amount, which may come to nothing
  std::optional<MadeFirst> made_first{};
  std::optional<MeasureFirst> measure_first{};
  std::optional<Withheld> withheld{};                    // neither work nor additions are left in the outcome
  std::vector<Spread> result_spreads, addition_spreads;  // beside the outcome's; empty when nothing is uncertain
  std::vector<Chance> chances;
  std::vector<const Substance*> added;     // beside outcome.additions, one each
  std::vector<const Substance*> reagents;  // handled without being added
  std::vector<Left> leaves;                // of its lots once it is done, and of those that it makes
};

// Whether the step makes lots, or draws from lots.
inline bool makes_lots(const Outcome& o) { return !o.new_lots.empty() || !o.drawn.empty(); }
// Wine that is drawn off, or a lot that is made, is what a step decides on too.
inline bool asks_for_something(const Outcome& o) { return !o.additions.empty() || !o.work.empty() || makes_lots(o); }

struct LotSheet {
  std::string name;
  Analysis before, after;
  std::string made{};                  // "step 2" when a step made it
  std::string record{};                // JSON: what the book had of it, where the recipe took it from there
  std::optional<std::size_t> as_if{};  // after it is as if steps[as_if] were done, which a check forbids
  std::string sample{};                // that its readings were taken on; empty: not said

  // Before and after; nullptr: not known, or all was drawn off.
  std::pair<const Value*, const Value*> of(const Input& key) const {
    const auto was = before.find(key.name), is = after.find(key.name);
    const bool left = !after.empty();
    return {was == before.end() || !left ? nullptr : &was->second, is == after.end() ? nullptr : &is->second};
  }
};

struct UsedRules {
  std::string name;  // "EU"
  std::string note;  // "European Union: check the current text"
  Sum sum;
};

// A file that a sheet was made with, beside recipe and rules: a table of the program's own, or a plugin.
struct UsedFile {
  std::string name;  // "substances.yaml", "sulfite"
  Sum sum;
};

// How the uncertainty of the figures was found.
struct UncertaintyStatement {
  std::size_t readings = 0;  // that carry an uncertainty; 0: nothing is uncertain
  std::size_t models = 0;    // that state one of their own, beside them
  std::size_t learned = 0;   // figures whose ± is how far such forecasts were off in this cellar
  std::string book{};        // JSON: what the book had of that, where the recipe asks for it
  std::size_t own = 0;       // steps with results that are uncertain of their own, such as by the scatter of repeats
  std::size_t draws = 0;     // 0: first order
  std::uint64_t seed = 0;
  std::size_t failed = 0;  // draws that gave no answer
  std::vector<std::string> notes;
};

// All additions on one list.
struct WeighOutLine {
  std::size_t step, addition;  // steps[step].outcome.additions[addition]
};
struct WeighOutTotal {
  Addition all;  // its dose says nothing
  std::size_t additions;
  const Substance* substance;
};
struct WeighOut {
  std::vector<WeighOutLine> lines;
  std::vector<WeighOutTotal> totals;
  std::vector<ApartPair> apart;
};

struct UsedLanguage {
  std::string code;  // "fr"
  std::string note;  // what stands in it
};

struct Worksheet {
  std::string title, demo;
  std::string date, by;  // empty: not said
  std::string recipe_name, recipe_form, recipe_text, recipe_sha256;
  std::vector<UsedRules> rules;
  std::vector<UsedLanguage> languages;  // of the law's words beside the English
  std::vector<UsedFile> tables, plugins;
  UncertaintyStatement uncertainty;
  std::vector<StepSheet> steps;
  std::vector<LotSheet> lots;
  WeighOut weigh_out;

  bool holds() const {
    return std::all_of(steps.begin(), steps.end(), [](const StepSheet& step) { return step.outcome.holds(); });
  }
};

}  // namespace vatwright
