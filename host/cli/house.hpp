// Where the program finds its plugins and data: beside itself, in the build tree and installed.
#pragma once

#include "host/bench/bench.hpp"
#include "host/loader/registry.hpp"
#include "host/substances/catalogue.hpp"

#include <filesystem>
#include <vector>

namespace vatwright {

struct House {
  // PREFIX/bin/vatwright -> PREFIX/lib/vatwright/plugins and PREFIX/share/vatwright; further plugin
  // folders come after the program's own.
  explicit House(const std::vector<std::filesystem::path>& further_plugins);

  std::filesystem::path rules_folder;
  std::vector<std::filesystem::path> plugin_folders;
  Catalogue catalogue;
  Registry registry;

  // Its data, and what stands in the folders of plugins: all that a run may read beside the recipe.
  std::vector<std::filesystem::path> files() const;

  Bench bench() { return {registry, catalogue, rules_folder}; }
};

}  // namespace vatwright
