// Recipes of several lots, and what is read off the blend.
#pragma once

#include "tests/plugins/run.hpp"

namespace vatwright::test {

// `lots` as in a recipe: "{A: {...}, B: {...}}"; `step` the inputs of blend.mix.
inline std::string blend_recipe(const std::string& lots, const std::string& step, const std::string& rules = {}) {
  return "recipe: test\n" + (rules.empty() ? "" : "rules: [" + rules + "]\n") +
         "acid basis: tartaric acid\nlots: " + lots + "\nsteps:\n  - blend.mix: " + step + "\n";
}

inline Worksheet blend(const std::string& lots, const std::string& step, const std::string& rules = {}) {
  static TestHouse house;
  return house.run(blend_recipe(lots, step, rules));
}

inline std::string blend_refusal(const std::string& lots, const std::string& step, const std::string& rules = {}) {
  try {
    blend(lots, step, rules);
  } catch (const BadInput& error) {
    return error.what();
  }
  return {};
}

// A value of the last lot of the sheet, which is the blend; nullptr when it is unknown.
inline const Value* of_blend(const Worksheet& sheet, std::string_view key) {
  const auto& lot = sheet.lots.back().after;
  const auto at = lot.find(key);
  return at == lot.end() ? nullptr : &at->second;
}

inline double of_blend(const Worksheet& sheet, std::string_view key, std::string_view unit) {
  const Value* value = of_blend(sheet, key);
  if (value == nullptr) throw std::out_of_range("the blend has no '" + std::string(key) + "'");
  return parse_unit(unit).number(value->number);
}

}  // namespace vatwright::test
