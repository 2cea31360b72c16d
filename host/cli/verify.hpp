// Recomputes a JSON worksheet from the recipe that it carries, and compares every figure and word.
#pragma once

#include "host/bench/bench.hpp"

#include <filesystem>
#include <string>
#include <vector>

namespace vatwright {

struct Verdict {
  std::vector<std::string> differences;  // in words, each with its place in the sheet
  std::size_t compared = 0;              // figures and words
  std::size_t checks = 0, failing = 0;   // of the sheet, when it was computed anew
  std::vector<std::string> about;        // which sheet it is: title, hash, rules, lots, doses
  std::vector<std::string> not_compared;
};

// Throws BadInput for a file that is no worksheet in JSON.
Verdict verify_sheet(const Bench& bench, const std::filesystem::path& file);

// The same of a text that came from elsewhere: the file of the recipe that it names is not looked at. `name` stands
// for the file in messages.
Verdict verify_text(const Bench& bench, const std::string& name, const std::string& text);

// The same of a sheet from the book, with the file of its recipe: `recipe`, or, where that is empty, the one that the
// sheet names, if it is here. Throws BadInput for a `recipe` that cannot be read.
Verdict verify_kept(const Bench& bench, const std::string& name, const std::string& text,
                    const std::filesystem::path& recipe);

}  // namespace vatwright
