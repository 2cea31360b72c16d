#include "host/files/checksum.hpp"

#define XXH_INLINE_ALL  // of its header alone: nothing to link
#include <fmt/format.h>
#include <xxhash.h>

#include <array>

namespace vatwright {

std::uint64_t checksum_of(std::string_view text, std::uint64_t of_before) {
  return XXH3_64bits_withSeed(text.data(), text.size(), of_before);
}

std::uint64_t checksum_of(const OpenFile& file) {
  std::array<char, 1 << 14> part;
  XXH3_state_t state;
  XXH3_64bits_reset(&state);
  for (std::size_t at = 0, more = part.size(); more == part.size(); at += more) {
    more = file.read(at, part);
    XXH3_64bits_update(&state, part.data(), more);
  }
  return XXH3_64bits_digest(&state);
}

std::string in_hexadecimal(std::uint64_t sum) { return fmt::format("{:016x}", sum); }

std::string checksum_of_file(const std::filesystem::path& file) { return in_hexadecimal(checksum_of(OpenFile(file))); }

}  // namespace vatwright
