// Runs the built program as a person would and keeps what it said.
#pragma once

#include <sys/wait.h>

#include <cstdio>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <stdexcept>
#include <string>
#include <vector>

#include "host/plugin/toolchain.hpp"
#include "tests/folder.hpp"

namespace vatwright::test {

inline const fs::path build_dir = VATWRIGHT_BUILD_DIR;
inline const fs::path source_dir = VATWRIGHT_SOURCE_DIR;
inline const fs::path plugin_dir = build_dir / "lib/vatwright/plugins";
inline const fs::path rules_dir = build_dir / "share/vatwright/rules";

// Under a sanitizer a process takes ten times as long: there, what is repeated is repeated a tenth as often, and no
// test is left out.
inline constexpr int fewer = sanitized ? 10 : 1;

inline std::string contents(const fs::path& file) {
  std::ifstream in(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

struct Said {
  int status;
  std::string out, err;
};

// Nothing was computed: standard output is empty, or tells in JSON what was wrong and no more.
inline bool shows_nothing(const Said& said) {
  return said.out.empty() ||
         (said.out.starts_with("{\n  \"status\": ") && said.out.find("\"problems\": [") != std::string::npos &&
          said.out.find("\"steps\"") == std::string::npos);
}

inline std::string quoted(const std::string& word) {
  std::string out = "'";
  for (const char c : word) out += c == '\'' ? std::string("'\\''") : std::string(1, c);
  return out + "'";
}

// `before` stands in front of the command: "cd FOLDER &&", "NAME=VALUE".
inline Said run_program(const fs::path& program, const std::vector<std::string>& arguments,
                        const std::string& before = {}) {
  const Folder scratch;
  const fs::path errors = scratch.path() / "err";
  std::string command = before + " " + quoted(program.string());
  for (const auto& argument : arguments) command += " " + quoted(argument);
  command += " 2>" + quoted(errors.string());
  FILE* pipe = ::popen(command.c_str(), "r");
  if (pipe == nullptr) throw std::runtime_error("popen failed");
  Said said{};
  char block[4096];
  for (std::size_t n; (n = std::fread(block, 1, sizeof block, pipe)) > 0;) said.out.append(block, n);
  const int status = ::pclose(pipe);
  said.status = WIFEXITED(status) ? WEXITSTATUS(status) : 128;
  said.err = contents(errors);
  return said;
}

inline Said call(const std::vector<std::string>& arguments, const std::string& before = {}) {
  return run_program(build_dir / "bin/vatwright", arguments, before);
}

}  // namespace vatwright::test
