#include "host/cli/house.hpp"

#include "host/files/trusted.hpp"

#include <boost/dll/runtime_symbol_info.hpp>

namespace vatwright {
namespace {

namespace fs = std::filesystem;

const fs::path& prefix() {
  static const fs::path found = [] {
    std::error_code ec;
    const auto program = boost::dll::program_location(ec);
    if (ec) throw PluginError("the program cannot tell where it stands (is /proc there?): " + ec.message());
    return fs::path(program.string()).parent_path().parent_path();
  }();
  return found;
}

std::vector<fs::path> folders(const std::vector<fs::path>& further) {
  std::vector<fs::path> out{prefix() / "lib" / "vatwright" / "plugins"};
  for (const auto& folder : further) {
    std::error_code ec;
    if (!fs::is_directory(folder, ec))
      throw PluginError(folder.string() + ": no such plugin folder\n  look at the name after --plugins");
    out.push_back(fs::canonical(folder));
  }
  return out;
}

}  // namespace

namespace {

// Whoever can write to the tables can change a dose or a caution.
fs::path trusted_data() {
  const auto refuse = [](const std::string& why) {
    if (!why.empty()) throw PluginError(why);
  };
  fs::path data = prefix() / "share" / "vatwright";
  std::error_code ec;
  for (const auto& folder : {data, data / "rules"}) {
    if (!fs::exists(folder, ec)) continue;
    refuse(written_by_others(folder));
    for (const auto& entry : fs::directory_iterator(folder, ec))
      if (entry.is_regular_file(ec)) refuse(written_by_others(entry.path()));
  }
  refuse(replaceable_by_others(data));
  return data;
}

}  // namespace

House::House(const std::vector<fs::path>& further_plugins)
    : rules_folder(trusted_data() / "rules"),
      plugin_folders(folders(further_plugins)),
      catalogue(prefix() / "share" / "vatwright" / "substances.yaml"),
      registry(plugin_folders) {}

std::vector<fs::path> House::files() const {
  std::vector<fs::path> all;
  const auto add_those_of = [&](const fs::path& folder) {
    std::error_code ec;
    for (const auto& entry : fs::recursive_directory_iterator(folder, ec))
      if (entry.is_regular_file(ec)) all.push_back(entry.path());
  };
  add_those_of(rules_folder.parent_path());
  for (const auto& folder : plugin_folders) add_those_of(folder);
  return all;
}

}  // namespace vatwright
