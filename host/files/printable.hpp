// What may stand in a name or in words. A control character moves the cursor, rings a bell, or hides what stands before
// it; a mark of direction shows letters in another order than they are read.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace vatwright {

// How many bytes at the start of the text are a character that is not printed: U+0000 to U+001F, U+007F to U+009F, and
// the marks of direction of the Unicode Bidirectional Algorithm (UAX 9): U+061C, U+200E, U+200F, U+202A to U+202E,
// U+2066 to U+2069. 0: it begins with another.
constexpr std::size_t unprinted(std::string_view text) {
  const auto byte = [text](std::size_t i) -> unsigned {
    return i < text.size() ? static_cast<unsigned char>(text[i]) : 0;
  };
  const auto within = [](unsigned b, unsigned first, unsigned last) { return b >= first && b <= last; };
  if (text.empty() || within(byte(0), 0x20, 0x7E)) return 0;  // nearly always
  if (byte(0) <= 0x7F) return 1;
  if (byte(0) == 0xC2 && within(byte(1), 0x80, 0x9F)) return 2;
  if (byte(0) == 0xD8 && byte(1) == 0x9C) return 2;
  if (byte(0) != 0xE2) return 0;
  if (byte(1) == 0x80 && (within(byte(2), 0x8E, 0x8F) || within(byte(2), 0xAA, 0xAE))) return 3;
  return byte(1) == 0x81 && within(byte(2), 0xA6, 0xA9) ? 3 : 0;
}

// `laid_out`: tabs and line ends may stand there, since a person's own words may be quoted.
constexpr bool is_printable(std::string_view text, bool laid_out = false) {
  for (std::size_t i = 0; i < text.size(); ++i)
    if (unprinted(text.substr(i)) > 0 && !(laid_out && (text[i] == '\t' || text[i] == '\n'))) return false;
  return true;
}

// The same words with a U+FFFD for each character that is not printed; tabs and line ends stay. For a terminal.
inline std::string printable(std::string_view text) {
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const bool stays = text[i] == '\t' || text[i] == '\n';
    const std::size_t bytes = stays ? 0 : unprinted(text.substr(i));
    if (bytes == 0)
      out += text[i];
    else
      out += "\uFFFD", i += bytes - 1;
  }
  return out;
}

}  // namespace vatwright
