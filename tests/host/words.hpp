// Looking for words in what a sheet says.
#pragma once

#include <string>
#include <string_view>

namespace vatwright::test {

inline std::size_t count(const std::string& text, std::string_view part) {
  std::size_t n = 0;
  for (auto at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) ++n;
  return n;
}

// A list wraps its lines.
inline std::string on_one_line(const std::string& text) {
  std::string out;
  for (const char c : text) {
    const char plain = c == '\n' ? ' ' : c;
    if (plain != ' ' || !out.ends_with(' ')) out += plain;
  }
  return out;
}

}  // namespace vatwright::test
