#include "host/loader/checksum.hpp"

#define XXH_INLINE_ALL  // of its header alone: nothing to link
#include <fmt/format.h>
#include <xxhash.h>

#include <array>
#include <fstream>

namespace vatwright {

std::string checksum_of_file(const std::filesystem::path& file) {
  std::ifstream in(file, std::ios::binary);
  std::array<char, 1 << 14> part;
  XXH3_state_t state;
  XXH3_64bits_reset(&state);
  while (in.read(part.data(), part.size()) || in.gcount() > 0)
    XXH3_64bits_update(&state, part.data(), static_cast<std::size_t>(in.gcount()));
  return in.eof() ? fmt::format("{:016x}", XXH3_64bits_digest(&state)) : std::string();
}

}  // namespace vatwright
