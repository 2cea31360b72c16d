// vatwright-index FOLDER: writes the index of a plugin folder, after an installation or a copy.
#include "host/loader/index.hpp"

#include <exception>
#include <iostream>

int main(int argc, char** argv) try {
  if (argc != 2) {
    std::cerr << "usage: vatwright-index FOLDER\n";
    return 2;
  }
  const auto refusals = vatwright::write_index(argv[1]);
  for (const auto& why : refusals) std::cerr << "refused: " << why << '\n';
  return refusals.empty() ? 0 : 3;
} catch (const std::exception& error) {
  std::cerr << "vatwright-index: " << error.what() << '\n';
  return 3;
}
