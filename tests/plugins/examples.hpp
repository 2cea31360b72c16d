// Every calculation of every plugin of this tree, and the example that each carries.
#pragma once

#include "host/cli/compute.hpp"
#include "tests/plugins/run.hpp"

namespace vatwright::test {

inline TestHouse& house() {
  static TestHouse one;
  return one;
}

template <class Look>
void each_calculation(Look look) {
  const auto plugins = house().registry.all();
  ASSERT_FALSE(plugins.empty());
  EXPECT_TRUE(house().registry.refusals().empty());
  for (const Manifest* plugin : plugins)
    for (const auto& calculation : plugin->calculations) {
      const std::string id = std::string(plugin->name) + "." + std::string(calculation.name);
      SCOPED_TRACE(id);
      look(id, calculation);
    }
}

// An example is one step, or a whole recipe whose last step is the calculation's own.
inline Recipe recipe_of_example(const std::string& id, const Calculation& calculation) {
  if (!calculation.example_recipe.empty())
    return read_recipe(Document::read("recipe.yaml", std::string(calculation.example_recipe)));
  return recipe_of_arguments(id, {calculation.example.begin(), calculation.example.end()}, {"EU"});
}
inline Worksheet run_example(const std::string& id, const Calculation& calculation) {
  return house().bench().run(recipe_of_example(id, calculation));
}

}  // namespace vatwright::test
