#include "host/loader/registry.hpp"

#include "host/files/checksum.hpp"
#include "host/files/hash.hpp"
#include "host/loader/trial.hpp"
#include "units/nearest.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace vatwright {

namespace fs = std::filesystem;

namespace {

std::string damaged(const fs::path& file) {
  return file.string() + ": damaged, refused: it is not the file that was put there; copy or build it again";
}

// Size and time stamp are those of the index; its bytes may be damaged all the same, and opening them ends the process.
// An index that was written before it had the quick sum has the hash alone.
const Manifest& open_indexed(const fs::path& file, const std::string& checksum, const std::string& sha256) {
  if (checksum.empty() && sha256.empty()) return open_plugin(file);
  const bool whole = checksum.empty() ? sha256_of_file(file) == sha256 : checksum_of_file(file) == checksum;
  if (!whole) throw PluginError(damaged(file));
  return open_known_plugin(file);
}

}  // namespace

Registry::Registry(std::vector<fs::path> folders) {
  for (const auto& folder : folders) {
    const auto index = read_index(folder);
    for (const auto& file : plugin_files(folder)) {
      const auto name = file.filename().string();
      const auto entry = std::find_if(index.begin(), index.end(), [&](const auto& e) { return e.file == name; });
      if (entry != index.end() && unchanged(file, *entry)) {
        enrol(entry->plugin, {file, nullptr, entry->sha256, entry->checksum});
        continue;
      }
      // New or changed since the index was written: its own manifest says what it is, if it can be opened at all.
      try {
        if (!opens_without_harm(file)) throw PluginError(damaged(file));
        const Manifest& manifest = open_plugin(file);
        enrol(std::string(manifest.name), {file, &manifest});
      } catch (const PluginError& error) {
        refuse(error.what());
      }
    }
  }
}

void Registry::refuse(std::string why) { refusals_.push_back(std::move(why)); }

void Registry::enrol(std::string name, Place place) {
  const auto known = plugins_.find(name);
  if (known == plugins_.end()) {
    plugins_.emplace(std::move(name), std::move(place));
    return;
  }
  refuse(place.file.string() + ": a plugin '" + name + "' is already there, from " + known->second.file.string());
}

Registry::Found Registry::find(std::string_view id, std::string& close) {
  const auto point = id.find('.');
  const auto at = plugins_.find(id.substr(0, point));
  if (at == plugins_.end() || point == std::string_view::npos) {
    std::vector<std::string> known;
    for (const Manifest* plugin : all())
      for (const auto& c : plugin->calculations) known.push_back(std::string(plugin->name) + "." + std::string(c.name));
    const std::vector<std::string_view> views(known.begin(), known.end());
    close = nearest(id, views);
    return {nullptr, nullptr};
  }
  Place& place = at->second;
  if (place.opened == nullptr) {
    const Manifest& manifest = open_indexed(place.file, place.checksum, place.sha256);
    if (manifest.name != at->first)
      throw PluginError(place.file.string() + ": holds plugin '" + std::string(manifest.name) + "', the index says '" +
                        at->first + "'; write the index anew with 'vatwright-index " +
                        place.file.parent_path().string() + "'");
    place.opened = &manifest;
  }
  const auto name = id.substr(point + 1);
  std::vector<std::string_view> known;
  for (const auto& calculation : place.opened->calculations) {
    if (calculation.name == name) return {place.opened, &calculation};
    known.push_back(calculation.name);
  }
  if (const auto near = nearest(name, known); !near.empty()) close = at->first + "." + std::string(near);
  return {nullptr, nullptr};
}

std::string Registry::hint(std::string_view id, const std::string& close) {
  if (!close.empty()) return "the nearest known one is " + in_quotes(close);
  const bool whole = id.find('.') != std::string_view::npos;
  const auto plugin = id.substr(0, id.find('.'));
  std::string out;
  for (const Manifest* known : all())
    for (const auto& calculation : known->calculations)
      if (known->name == plugin || (!whole && calculation.name == id))
        out += fmt::format("{}{}.{}", out.empty() ? "there are: " : ", ", known->name, calculation.name);
  return out;
}

std::string Registry::sha256_of(std::string_view plugin) {
  const auto at = plugins_.find(plugin);
  if (at == plugins_.end()) return {};
  if (at->second.sha256.empty()) at->second.sha256 = sha256_of_file(at->second.file);
  return at->second.sha256;
}

std::vector<const Manifest*> Registry::all() {
  std::vector<const Manifest*> out;
  for (auto at = plugins_.begin(); at != plugins_.end();) {
    try {
      if (at->second.opened == nullptr)
        at->second.opened = &open_indexed(at->second.file, at->second.checksum, at->second.sha256);
      out.push_back(at->second.opened);
      ++at;
    } catch (const PluginError& error) {
      refuse(error.what());
      at = plugins_.erase(at);
    }
  }
  return out;
}

}  // namespace vatwright
