// All plugins of the plugin folders, opened when they are asked for.
#pragma once

#include "host/loader/index.hpp"
#include "host/loader/plugin_file.hpp"

#include <filesystem>
#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace vatwright {

class Registry {
 public:
  // Folders in order; of two plugins with one name the first stands and the second is refused.
  explicit Registry(std::vector<std::filesystem::path> folders);

  struct Found {
    const Manifest* plugin;
    const Calculation* calculation;
  };
  // "sulfite.addition". Throws PluginError when its plugin is refused; returns nullptrs, and the
  // nearest known name in `close`, when there is none of that name.
  Found find(std::string_view id, std::string& close);

  // How to mend an id that find() does not know: `close`, or what there is of that plugin or that name; empty
  // where nothing is like it.
  std::string hint(std::string_view id, const std::string& close);

  // SHA-256 of the file of a plugin that find() gave, as its index has it; empty when it cannot be read.
  std::string sha256_of(std::string_view plugin);

  // Opens everything. Refused plugins are left out and told in refusals().
  std::vector<const Manifest*> all();

  const std::vector<std::string>& refusals() const { return refusals_; }

 private:
  struct Place {
    std::filesystem::path file;
    const Manifest* opened = nullptr;
    std::string sha256{};    // empty: not reckoned yet
    std::string checksum{};  // as the index has it
  };
  void enrol(std::string name, Place place);
  void refuse(std::string why);

  std::map<std::string, Place, std::less<>> plugins_;
  std::vector<std::string> refusals_;
};

}  // namespace vatwright
