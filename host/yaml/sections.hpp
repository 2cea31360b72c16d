// Data files hold one entry at each line that begins in column 0. Only the entries that are asked
// for are parsed: reading a whole table for one substance would cost more than all the rest.
#pragma once

#include "host/yaml/document.hpp"

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace vatwright {

class Sections {
 public:
  // Throws BadInput when the file cannot be read.
  explicit Sections(const std::filesystem::path& file);

  std::vector<std::string_view> names() const;
  // The entry of that name, parsed; its root is the entry's value under the one key.
  std::optional<Document> find(std::string_view name) const;
  const std::string& file() const { return name_; }
  const std::string& text() const { return text_; }

 private:
  struct Slice {
    std::string name;
    std::size_t begin, end;
    int line;
  };
  void refuse_twin() const;
  std::string name_, text_;
  std::vector<Slice> slices_;
};

}  // namespace vatwright
