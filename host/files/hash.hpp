// SHA-256 (FIPS 180-4), in hexadecimal.
#pragma once

#include <filesystem>
#include <functional>
#include <string>
#include <string_view>
#include <utility>

namespace vatwright {

std::string sha256_of(std::string_view text);

// A sum, reckoned where it is asked for: most sheets do not show it, and of our tables it would take a
// sixth of a run.
class Sum {
 public:
  Sum() = default;
  explicit Sum(std::function<std::string()> reckon) : reckon_(std::move(reckon)) {}
  explicit Sum(std::string known) : known_(std::move(known)) {}

  std::string sha256() const { return reckon_ ? reckon_() : known_; }

 private:
  std::function<std::string()> reckon_;
  std::string known_;
};

// Of a file, read in parts; empty when it cannot be read.
std::string sha256_of_file(const std::filesystem::path& file);

}  // namespace vatwright
