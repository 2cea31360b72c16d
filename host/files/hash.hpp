// SHA-256 (FIPS 180-4) of a text, in hexadecimal.
#pragma once

#include <string>
#include <string_view>

namespace vatwright {

std::string sha256_of(std::string_view text);

}  // namespace vatwright
