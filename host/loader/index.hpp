// The index of a plugin folder: which file holds which plugin, so that a run opens only the ones
// that its recipe names. It is written at build time. It only says where to look: whatever is
// opened is vetted, and its own manifest decides.
#pragma once

#include <cstdint>
#include <filesystem>
#include <string>
#include <vector>

namespace vatwright {

inline constexpr char index_name[] = "index.json";

struct IndexEntry {
  std::string plugin{};  // "sulfite"
  std::string file{};    // "sulfite.so", in the same folder
  std::uintmax_t size = 0;
  std::int64_t written = 0;  // the file's time stamp, in whole seconds since 1970: an installation keeps no more of it
  std::string sha256{};      // of the file
  std::string checksum{};    // the same, for damage alone; quick
};

// Empty when there is no index or it cannot be read.
std::vector<IndexEntry> read_index(const std::filesystem::path& folder);

// Whether the file is still the one that was indexed, by its size and time stamp.
bool unchanged(const std::filesystem::path& file, const IndexEntry& entry);

// Opens every plugin of the folder and writes the index. Returns the refusals, one line each.
std::vector<std::string> write_index(const std::filesystem::path& folder);

// The plugin files of a folder, sorted by name.
std::vector<std::filesystem::path> plugin_files(const std::filesystem::path& folder);

}  // namespace vatwright
