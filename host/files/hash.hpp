// SHA-256 (FIPS 180-4), in hexadecimal.
#pragma once

#include <filesystem>
#include <memory>
#include <string>
#include <string_view>
#include <utility>

namespace vatwright {

std::string sha256_of(std::string_view text);

// The sum of a text, reckoned where it is asked for: most sheets do not show it, and of our tables it would take a
// sixth of a run.
class Sum {
 public:
  Sum() = default;
  explicit Sum(std::shared_ptr<const std::string> text) : text_(std::move(text)) {}
  explicit Sum(std::string known) : known_(std::move(known)) {}

  std::string sha256() const { return text_ == nullptr ? known_ : sha256_of(*text_); }

 private:
  std::shared_ptr<const std::string> text_;
  std::string known_;
};

// Of a file, read in parts; empty when it cannot be read.
std::string sha256_of_file(const std::filesystem::path& file);

}  // namespace vatwright
