// A plugin file tried out where it can do no harm.
#pragma once

#include <filesystem>

namespace vatwright {

// Whether opening it, tried in a process of its own, neither crashes nor ends that process: damage that a whole library
// may have all the same. For a program of one thread.
bool opens_without_harm(const std::filesystem::path& file);

}  // namespace vatwright
