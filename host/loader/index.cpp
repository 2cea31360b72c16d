#include "host/loader/index.hpp"

#include "host/files/checksum.hpp"
#include "host/files/hash.hpp"
#include "host/loader/plugin_file.hpp"

#include <sys/stat.h>

#include <nlohmann/json.hpp>

#include <algorithm>
#include <fstream>
#include <optional>

namespace vatwright {

namespace fs = std::filesystem;

namespace {
struct Stamp {
  std::uintmax_t size = 0;
  std::int64_t written = 0;
};

// Asked of every plugin at each run, so both at once.
std::optional<Stamp> stamp_of(const fs::path& file) {
  struct stat facts {};
  if (::stat(file.c_str(), &facts) != 0) return std::nullopt;
  return Stamp{static_cast<std::uintmax_t>(facts.st_size), facts.st_mtim.tv_sec};
}
}  // namespace

std::vector<fs::path> plugin_files(const fs::path& folder) {
  std::vector<fs::path> files;
  std::error_code ec;
  for (const auto& entry : fs::directory_iterator(folder, ec))
    if (entry.is_regular_file(ec) && entry.path().extension() == ".so") files.push_back(entry.path());
  std::sort(files.begin(), files.end());
  return files;
}

std::vector<IndexEntry> read_index(const fs::path& folder) {
  using Json = nlohmann::json;
  std::vector<IndexEntry> entries;
  const OpenFile file(folder / index_name);
  const auto json = Json::parse(file.part(0, file.size()), nullptr, /*allow_exceptions=*/false);
  if (!json.is_array()) return entries;
  for (const auto& row : json) {
    const auto take = [&](const char* key, auto is, auto& into) {
      if (!row.is_object()) return false;
      const auto at = row.find(key);
      if (at == row.end() || !((*at).*is)()) return false;
      at->get_to(into);
      return true;
    };
    IndexEntry entry;
    if (!take("plugin", &Json::is_string, entry.plugin) || !take("file", &Json::is_string, entry.file) ||
        !take("size", &Json::is_number_unsigned, entry.size) ||
        !take("written", &Json::is_number_integer, entry.written))
      continue;
    take("sha256", &Json::is_string, entry.sha256);
    take("checksum", &Json::is_string, entry.checksum);
    // A file name only: an index never points outside its folder.
    if (!entry.plugin.empty() && fs::path(entry.file).filename() == entry.file) entries.push_back(std::move(entry));
  }
  return entries;
}

bool unchanged(const fs::path& file, const IndexEntry& entry) {
  const auto stamp = stamp_of(file);
  return stamp && stamp->size == entry.size && stamp->written == entry.written;
}

std::vector<std::string> write_index(const fs::path& folder) {
  std::vector<std::string> refusals;
  auto json = nlohmann::ordered_json::array();
  for (const auto& file : plugin_files(folder)) {
    try {
      const std::string name(open_plugin(file).name);
      const Stamp stamp = stamp_of(file).value();
      json.push_back({{"plugin", name},
                      {"file", file.filename().string()},
                      {"size", stamp.size},
                      {"written", stamp.written},
                      {"sha256", sha256_of_file(file)},
                      {"checksum", checksum_of_file(file)}});
    } catch (const PluginError& error) {
      refusals.emplace_back(error.what());
    }
  }
  std::ofstream out(folder / index_name);
  out << json.dump(1) << '\n';
  out.close();
  if (!out) refusals.push_back((folder / index_name).string() + ": cannot be written");
  return refusals;
}

}  // namespace vatwright
