// SHA-256 (FIPS 180-4), in hexadecimal.
#pragma once

#include <filesystem>
#include <string>
#include <string_view>

namespace vatwright {

std::string sha256_of(std::string_view text);

// Of a file, read in parts; empty when it cannot be read.
std::string sha256_of_file(const std::filesystem::path& file);

}  // namespace vatwright
