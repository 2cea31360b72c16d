// Runs another program and reads what it prints.
#pragma once

#include <sys/wait.h>

#include <array>
#include <cstdio>
#include <stdexcept>
#include <string>

namespace vatwright::published {

// One word of a shell command, whatever it holds.
inline std::string shell_word(const std::string& text) {
  std::string word = "'";
  for (const char c : text) word += c == '\'' ? "'\\''" : std::string(1, c);
  return word + "'";
}

// Throws std::runtime_error, with what was printed, when the program is missing or fails.
inline std::string output_of(const std::string& command) {
  std::FILE* pipe = popen((command + " 2>&1").c_str(), "r");
  if (pipe == nullptr) throw std::runtime_error("cannot run " + command);
  std::string text;
  std::array<char, 4096> part;
  while (const std::size_t n = std::fread(part.data(), 1, part.size(), pipe)) text.append(part.data(), n);
  const int status = pclose(pipe);
  if (!WIFEXITED(status) || WEXITSTATUS(status) != 0)
    throw std::runtime_error(command + " failed: " + (text.empty() ? "no output" : text));
  return text;
}

}  // namespace vatwright::published
