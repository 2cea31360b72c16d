#include "host/files/hash.hpp"

#include <sys/types.h>

#include <sha256.h>

#include <array>

namespace vatwright {

std::string sha256_of(std::string_view text) {
  std::array<char, SHA256_DIGEST_STRING_LENGTH> hex{};
  ::SHA256Data(reinterpret_cast<const std::uint8_t*>(text.data()), text.size(), hex.data());
  return hex.data();
}

std::string sha256_of_file(const std::filesystem::path& file) {
  std::array<char, SHA256_DIGEST_STRING_LENGTH> hex{};
  return ::SHA256File(file.c_str(), hex.data()) == nullptr ? "" : hex.data();
}

}  // namespace vatwright
