// SHA-256 (FIPS 180-4) of a text or a file, in hexadecimal.
#pragma once

#include <filesystem>
#include <string>
#include <string_view>

namespace vatwright {

std::string sha256_of(std::string_view text);
std::string sha256_of_file(const std::filesystem::path& file);  // empty when it cannot be read

}  // namespace vatwright
