// The text of a table, read where it is asked for: parts of it, or all.
#pragma once

#include "host/files/open_file.hpp"

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <utility>

namespace vatwright {

inline constexpr std::size_t largest_table = 4 << 20;  // bytes; our own tables are some tens of kilobytes

class LateText {
 public:
  // Read in parts. Its bytes have that sum: where somebody writes into the file, the text has another.
  LateText(const std::filesystem::path& table, std::unique_ptr<const OpenFile> file, std::uint64_t sum)
      : table_(table), file_(std::move(file)), sum_(sum) {}
  // Read whole.
  explicit LateText(std::string text) : text_(std::move(text)) {}

  // Throws BadInput when it is no longer what it was. Any thread may ask.
  const std::string& whole() const;
  std::string part(std::size_t begin, std::size_t end) const;

 private:
  std::filesystem::path table_;
  std::unique_ptr<const OpenFile> file_;  // none where all was read
  std::uint64_t sum_ = 0;
  mutable std::mutex reading_;
  mutable std::optional<std::string> text_;
};

}  // namespace vatwright
