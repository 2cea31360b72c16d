// What the fuzz targets share: the bytes as a text or a file, and the house with its real plugins.
#pragma once

#include "host/bench/bench.hpp"
#include "host/loader/registry.hpp"
#include "host/substances/catalogue.hpp"

#include <unistd.h>

#include <cstdint>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <string>

namespace vatwright::fuzz {

inline std::string text_of(const std::uint8_t* data, std::size_t size) {
  return {reinterpret_cast<const char*>(data), size};
}

// Each process has a file of its own, so that several may run at once.
inline const std::filesystem::path& file_of(const std::string& text) {
  static const auto file =
      std::filesystem::temp_directory_path() / ("vatwright-fuzz-" + std::to_string(::getpid()) + ".input");
  static const int gone = std::atexit([] {
    std::error_code ec;
    std::filesystem::remove(file, ec);
  });
  if (gone != 0) std::abort();
  std::ofstream(file, std::ios::binary) << text;
  return file;
}

inline const Bench& bench() {
  static const std::filesystem::path build = VATWRIGHT_BUILD_DIR;
  static const Catalogue catalogue(build / "share/vatwright/substances.yaml");
  static Registry registry({build / "lib/vatwright/plugins"});
  static const Bench bench(registry, catalogue, build / "share/vatwright/rules");
  return bench;
}

}  // namespace vatwright::fuzz
