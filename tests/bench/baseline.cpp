// The least that a process like ours must do: read the recipe with yaml-cpp and open one shared
// library. tests/bench/whole-process holds the whole program against it.
#include <dlfcn.h>
#include <yaml-cpp/yaml.h>

#include <cstdio>
#include <exception>

int main(int count, char** words) {
  if (count != 3) {
    std::fprintf(stderr, "usage: %s RECIPE LIBRARY\n", words[0]);
    return 2;
  }
  try {
    const YAML::Node recipe = YAML::LoadFile(words[1]);
    if (dlopen(words[2], RTLD_NOW | RTLD_LOCAL) == nullptr) {
      std::fprintf(stderr, "%s\n", dlerror());
      return 3;
    }
    std::printf("%zu\n", recipe.size());
  } catch (const std::exception& error) {
    std::fprintf(stderr, "%s\n", error.what());
    return 2;
  }
  return 0;
}
