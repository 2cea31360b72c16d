// Whether a file's bytes are still those that were there. For damage, not for deceit: who may write a plugin is asked
// elsewhere (host/files/trusted.hpp).
#pragma once

#include <filesystem>
#include <string>

namespace vatwright {

// XXH3, 64 bits, in hexadecimal; empty when the file cannot be read.
std::string checksum_of_file(const std::filesystem::path& file);

}  // namespace vatwright
