// Runs with the fixture of published measurement models among the plugins, and the standard uncertainties of their
// results.
#pragma once

#include "host/bench/bench.hpp"
#include "host/loader/registry.hpp"
#include "host/recipe/recipe.hpp"
#include "host/substances/catalogue.hpp"
#include "tests/host/program.hpp"
#include "units/parse.hpp"

#include <cmath>
#include <stdexcept>
#include <string>
#include <string_view>

namespace vatwright::test {

inline Worksheet reckoned(const std::string& text, const Draws& draws = {}) {
  static Catalogue catalogue{build_dir / "share/vatwright/substances.yaml"};
  static Registry registry{{plugin_dir, fs::path(VATWRIGHT_FIXTURES) / "budget"}};
  return Bench(registry, catalogue, rules_dir).run(read_recipe(Document::read("recipe.yaml", text)), draws);
}

inline std::size_t index_of(const StepSheet& step, std::string_view name) {
  for (std::size_t i = 0; i < step.outcome.results.size(); ++i)
    if (step.outcome.results[i].info->name == name) return i;
  throw std::out_of_range(std::string(name));
}

// Standard uncertainty of a result, in its unit.
inline double spread(const StepSheet& step, std::string_view name) {
  const std::size_t i = index_of(step, name);
  const auto& result = step.outcome.results[i];
  const Unit unit = parse_unit(result.info->unit);
  return step.result_spreads.at(i).standard / std::abs(unit.slope(unit.number(result.number)));
}

}  // namespace vatwright::test
