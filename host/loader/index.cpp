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
  std::vector<IndexEntry> entries;
  std::ifstream in(folder / index_name);
  const auto json = nlohmann::json::parse(in, nullptr, /*allow_exceptions=*/false);
  if (!json.is_array()) return entries;
  for (const auto& row : json) {
    const auto is = [&](const char* key, auto type) {
      return row.is_object() && row.contains(key) && (row[key].*type)();
    };
    using Json = nlohmann::json;
    if (!is("plugin", &Json::is_string) || !is("file", &Json::is_string) || !is("size", &Json::is_number_unsigned) ||
        !is("written", &Json::is_number_integer))
      continue;
    IndexEntry entry{row["plugin"], row["file"], row["size"], row["written"]};
    if (is("sha256", &Json::is_string)) entry.sha256 = row["sha256"];
    if (is("checksum", &Json::is_string)) entry.checksum = row["checksum"];
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
