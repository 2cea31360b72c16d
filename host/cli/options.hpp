// What a command line may say, and how a run of the program ends.
#pragma once

#include "host/bench/bench.hpp"
#include "host/cli/book_commands.hpp"

#include <filesystem>
#include <string>
#include <vector>

namespace vatwright {

// fine: all checks hold; check_fails: computed, but one does not; bad_input: nothing computed; plugin_trouble: one is
// missing, refused or failed.
enum Status : int { fine = 0, check_fails = 1, bad_input = 2, plugin_trouble = 3 };

struct Options {
  std::vector<std::filesystem::path> plugins;
  std::string file, format = "text", out, name, lots, quantity, unit, by;
  std::vector<std::string> arguments, rules, carry, languages;
  Draws draws;
  unsigned short port = 8330;  // fixed, so that the browser finds again what it kept
  bool keep = false, brief = false;
  BookOptions book;
};

}  // namespace vatwright
