// The parts of the host as the program joins them, for tests inside the process.
#pragma once

#include "host/bench/bench.hpp"
#include "host/loader/registry.hpp"
#include "host/recipe/recipe.hpp"
#include "host/substances/catalogue.hpp"
#include "tests/host/program.hpp"

#include <string>

namespace vatwright::test {

struct TestHouse {
  Catalogue catalogue{build_dir / "share/vatwright/substances.yaml"};
  Registry registry{{plugin_dir}};

  Bench bench() { return {registry, catalogue, rules_dir}; }
  Worksheet run(const std::string& text, const std::string& name = "recipe.yaml") {
    return bench().run(read_recipe(Document::read(name, text)));
  }
};

// What BadInput says of a recipe's text; empty when it is in order.
inline std::string complaint(const std::string& text, const std::string& name = "recipe.yaml") {
  TestHouse house;
  try {
    house.bench().check(read_recipe(Document::read(name, text)));
  } catch (const BadInput& error) {
    return error.what();
  }
  return {};
}

// A lot that sulfite.addition can work on; `more` are further lines of it, `steps` the steps.
inline std::string recipe_with(const std::string& more, const std::string& steps, const std::string& head = {}) {
  return head + "recipe: test\nlots:\n  T7:\n    volume: 48 hL\n    pH: 3.42\n    free SO2: 14 mg/L\n" +
         "    total SO2: 62 mg/L\n" + more + "steps:\n" + steps;
}

}  // namespace vatwright::test
