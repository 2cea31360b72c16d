// Whether somebody else may change a file that the program runs or believes.
#pragma once

#include <filesystem>
#include <string>

namespace vatwright {

// Empty when only its owner, who is this user or root, or this user's own group, may write to it; else what is wrong,
// in words with a remedy: "writable by everybody, refused; ...". Links are followed.
std::string written_by_others(const std::filesystem::path& path);

// The same of the folders above it: one that everybody may write to, and whose sticky bit does not keep what is theirs
// apart, is one where another file may be put in its place.
std::string replaceable_by_others(const std::filesystem::path& path);

}  // namespace vatwright
