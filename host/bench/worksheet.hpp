// What a recipe came to: everything that the writers in host/sheet/ put on paper.
#pragma once

#include "host/plugin/description.hpp"
#include "host/plugin/outcome.hpp"
#include "host/substances/catalogue.hpp"

#include <string>
#include <vector>

namespace vatwright {

struct UsedInput {
  const Input* input = nullptr;
  Value value;
  std::string from;  // "step", "lot", "default", or "step 1" when an earlier step changed the lot
};

struct StepSheet {
  std::string calculation;  // "sulfite.addition"
  std::string plugin;       // "sulfite 0.1.0"
  std::string help;
  std::string lot;     // empty: the step is on no single lot
  std::string volume;  // of the lot, as shown; empty when it is not known
  std::vector<UsedInput> inputs;
  Outcome outcome;
  std::vector<const Substance*> added;     // beside outcome.additions, one each
  std::vector<const Substance*> reagents;  // handled without being added
};

struct LotSheet {
  std::string name;
  Analysis before, after;
  std::string made{};  // "step 2" when a step made it
};

struct Worksheet {
  std::string title, demo;
  std::string recipe_name, recipe_sha256;
  std::vector<std::string> rules;       // "EU"
  std::vector<std::string> rule_notes;  // "EU: check the current text"
  std::vector<StepSheet> steps;
  std::vector<LotSheet> lots;

  bool holds() const {
    for (const auto& step : steps)
      for (const auto& check : step.outcome.checks)
        if (!check.holds) return false;
    return true;
  }
};

}  // namespace vatwright
