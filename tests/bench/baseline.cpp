// The least that a process like ours can be: it links yaml-cpp and opens one shared library.
// tests/bench/whole-process holds the whole program against it.
#include <dlfcn.h>
#include <yaml-cpp/yaml.h>

#include <cstdio>

int main(int count, char** words) {
  const YAML::Node nothing = YAML::Load("");  // a linker drops a library that is not called
  if (count != 2 || !nothing.IsNull()) {
    std::fprintf(stderr, "usage: %s LIBRARY\n", words[0]);
    return 2;
  }
  if (dlopen(words[1], RTLD_NOW | RTLD_LOCAL) == nullptr) {
    std::fprintf(stderr, "%s\n", dlerror());
    return 3;
  }
  return 0;
}
