// vatwright-index FOLDER: writes the index of a plugin folder, after an installation or a copy.
// vatwright-index TABLE.yaml: reads a table of data once for all that will ask for it (host/yaml/trees.hpp).
#include "host/loader/index.hpp"
#include "host/yaml/sections.hpp"

#include <exception>
#include <iostream>
#include <string_view>

int main(int argc, char** argv) try {
  if (argc != 2) {
    std::cerr << "usage: vatwright-index FOLDER, or vatwright-index TABLE.yaml\n";
    return 2;
  }
  if (std::string_view(argv[1]).ends_with(".yaml")) {
    vatwright::Sections(argv[1]).write_trees();
    return 0;
  }
  const auto refusals = vatwright::write_index(argv[1]);
  for (const auto& why : refusals) std::cerr << "refused: " << why << '\n';
  return refusals.empty() ? 0 : 3;
} catch (const std::exception& error) {
  std::cerr << "vatwright-index: " << error.what() << '\n';
  return 3;
}
