// One plugin file: vetted without running it, then opened and shaken hands with.
#pragma once

#include "host/plugin/description.hpp"
#include "host/problem/problem.hpp"

#include <filesystem>

namespace vatwright {

// Throws PluginError: not a regular file, a symbolic link, writable by others (it or a folder above
// it), not a whole shared library, no manifest, another interface version or toolchain, or a description that
// lacks what the host needs. The library stays open until the process ends: descriptions,
// exceptions and strings of a plugin point into it. One thread at a time.
const Manifest& open_plugin(const std::filesystem::path& file);

// The same of a file whose bytes are those that were opened once, as an index's sum shows: it is not read through
// again.
const Manifest& open_known_plugin(const std::filesystem::path& file);

}  // namespace vatwright
