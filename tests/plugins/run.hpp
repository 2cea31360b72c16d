// Recipes of one lot run as a user runs them, and what is read off the worksheet.
#pragma once

#include "tests/host/house.hpp"
#include "units/parse.hpp"

#include <gtest/gtest.h>

#include <initializer_list>
#include <stdexcept>
#include <string>
#include <string_view>

namespace vatwright::test {

// `lot` and each step as in a recipe: "pH: 3.40, free SO2: 28 mg/L", "sulfite.molecular: {pK1: 2.0}".
// `rules` as in a list: "EU, EU organic".
inline std::string recipe(const std::string& lot, std::initializer_list<std::string> steps,
                          const std::string& rules = {}) {
  std::string text =
      "recipe: test\n" + (rules.empty() ? "" : "rules: [" + rules + "]\n") + "lots: {T7: {" + lot + "}}\nsteps:\n";
  for (const auto& step : steps) text += "  - " + step + "\n";
  return text;
}

inline Worksheet run(const std::string& lot, std::initializer_list<std::string> steps, const std::string& rules = {}) {
  static TestHouse house;
  return house.run(recipe(lot, steps, rules));
}

// One step alone. The host's house outlives it, so that its substances stay good.
inline StepSheet run_step(const std::string& lot, const std::string& step, const std::string& rules = {}) {
  return run(lot, {step}, rules).steps.at(0);
}

// What the program says of a recipe that it refuses; empty when it runs.
inline std::string refusal(const std::string& lot, const std::string& step, const std::string& rules = {}) {
  try {
    run(lot, {step}, rules);
  } catch (const BadInput& error) {
    return error.what();
  }
  return {};
}

inline bool has(std::string_view text, std::string_view part) { return text.find(part) != std::string_view::npos; }

// A result in the unit in which it is shown.
inline double result(const StepSheet& step, std::string_view name) {
  for (const auto& value : step.outcome.results)
    if (value.info->name == name) return parse_unit(value.info->unit).number(value.number);
  throw std::out_of_range("no result '" + std::string(name) + "' in " + step.calculation);
}

inline double number(const Figure& figure) { return parse_unit(figure.unit).number(figure.number); }

// A value of the lot, after all steps, in `unit`.
inline double after(const Worksheet& sheet, std::string_view key, std::string_view unit) {
  return parse_unit(unit).number(sheet.lots.at(0).after.find(key)->second.number);
}

// The first whose name begins so; nullptr when there is none.
template <class Named>
const Named* named(const std::vector<Named>& list, std::string_view start) {
  for (const auto& one : list)
    if (std::string_view(one.name).starts_with(start)) return &one;
  return nullptr;
}
inline const Check* check(const StepSheet& step, std::string_view start) { return named(step.outcome.checks, start); }
inline const SecondOpinion* opinion(const StepSheet& step, std::string_view start) {
  return named(step.outcome.opinions, start);
}

inline bool noted(const StepSheet& step, std::string_view part) {
  for (const auto& note : step.outcome.notes)
    if (has(note, part)) return true;
  return false;
}

}  // namespace vatwright::test
