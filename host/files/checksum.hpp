// A sum against damage: of a file that was copied in half, or lies on a worn disk. Whoever means harm can make another
// with the same sum; who may write is asked elsewhere (trusted.hpp).
#pragma once

#include "host/files/open_file.hpp"

#include <cstdint>
#include <filesystem>
#include <string>
#include <string_view>

namespace vatwright {

// XXH3, of 64 bits. `of_before`: the sum of what stands before it.
std::uint64_t checksum_of(std::string_view text, std::uint64_t of_before = 0);
std::uint64_t checksum_of(const OpenFile& file);

// "0af3...", sixteen hexadecimal digits.
std::string in_hexadecimal(std::uint64_t sum);

std::string checksum_of_file(const std::filesystem::path& file);

}  // namespace vatwright
