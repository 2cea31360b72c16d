#include "host/loader/plugin_file.hpp"

#include "host/files/trusted.hpp"
#include "host/loader/manifest.hpp"
#include "host/loader/running.hpp"
#include "host/plugin/plugin.hpp"

#include <boost/dll/library_info.hpp>
#include <boost/dll/shared_library.hpp>

#include <dlfcn.h>

#include <algorithm>
#include <vector>

namespace vatwright {
namespace {

namespace fs = std::filesystem;

// Whoever can write a plugin can run code as whoever computes with it.
void refuse_distrusted(const fs::path& file) {
  for (const auto& why :
       {written_by_others(file), written_by_others(file.parent_path()), replaceable_by_others(file.parent_path())})
    if (!why.empty()) throw PluginError(why);
}

// Reads the file without running it: opening a half-copied library would kill the process.
void refuse_half_a_library(const std::string& path) {
  std::vector<std::string> exported;
  try {
    exported = boost::dll::library_info(path).symbols();
  } catch (const std::exception&) {
    throw PluginError(path + ": not a whole shared library; copy or build it again");
  }
  if (std::find(exported.begin(), exported.end(), manifest_symbol) == exported.end())
    throw PluginError(path + ": not a plugin: it does not export '" + manifest_symbol + "'");
}

// An absolute path: a bare name would be searched for in the working directory.
fs::path trusted(const fs::path& file) {
  std::error_code ec;
  if (fs::is_symlink(fs::symlink_status(file, ec)))
    throw PluginError(file.string() + ": a symbolic link, refused; copy the plugin itself into the folder");
  fs::path whole = fs::canonical(file, ec);
  if (ec) throw PluginError(file.string() + ": " + ec.message());
  if (!fs::is_regular_file(whole)) throw PluginError(whole.string() + ": not a file");
  refuse_distrusted(whole);
  return whole;
}

const Manifest& load(const fs::path& whole) {
  namespace dll = boost::dll;
  std::error_code ec;
  const std::string path = whole.string();
  static auto& opened = *new std::vector<dll::shared_library>;
  dll::shared_library library;
  const Running opening(path);
  library.load(whole, dll::load_mode::rtld_now | dll::load_mode::rtld_local, ec);
  if (ec) {
    const char* why = ::dlerror();  // Boost.DLL keeps only an error code
    throw PluginError(path + ": " + (why != nullptr ? why : ec.message()));
  }
  const auto& manifest = library.get<const Manifest>(manifest_symbol);
  opened.push_back(std::move(library));
  check_manifest(path, manifest);
  return manifest;
}

}  // namespace

const Manifest& open_plugin(const fs::path& file) {
  const fs::path whole = trusted(file);
  refuse_half_a_library(whole.string());
  return load(whole);
}

const Manifest& open_known_plugin(const fs::path& file) { return load(trusted(file)); }

}  // namespace vatwright
