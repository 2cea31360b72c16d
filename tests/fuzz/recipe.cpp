// The recipe reader: YAML within its limits, lots and steps checked against their keys.
#include "host/recipe/recipe.hpp"
#include "tests/fuzz/input.hpp"

using namespace vatwright;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  try {
    read_recipe(Document::read("recipe.yaml", fuzz::text_of(data, size)));
  } catch (const BadInput&) {
  }
  return 0;
}
