// A recipe made ready to be run, once or many times: bound, its rules read, its lots at the start.
#pragma once

#include "host/bench/given.hpp"
#include "host/bench/typical.hpp"
#include "host/substances/catalogue.hpp"

#include <memory>
#include <vector>

namespace vatwright {

struct Prepared {
  const Recipe& recipe;
  std::shared_ptr<const Rules> rules;
  std::shared_ptr<const Typical> typical;  // nullptr: the recipe does not ask for it
  std::vector<BoundStep> steps;
  std::vector<LotState> lots;
  std::vector<Language> languages{};      // that the recipe asks for, each once
  std::vector<std::string> rule_names{};  // of its rule sets
};

// Throws BadInput, with all of `slips` and whatever else is not in order, or PluginError.
Prepared prepare(const Recipe& recipe, Rules rules, std::shared_ptr<const Typical> typical, Registry& registry,
                 const Catalogue& catalogue, Slips& slips);

// Calls into the plugin; the only place that does. Throws BadInput for inputs that cannot be
// together, PluginError when the plugin fails.
Outcome call(const BoundStep& step, const GivenInputs& inputs, const Recipe& recipe);

// Completes what a step gave back by what it means for those facts of its lot that it says nothing of.
void let_follow(const BoundStep& step, const std::vector<LotState>& lots, Outcome& outcome);

}  // namespace vatwright
