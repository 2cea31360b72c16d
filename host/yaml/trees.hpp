// The entries of a table as trees, read from YAML when the table was installed: that takes longer than all the rest of
// a run. They stand in a file beside the table, `substances.trees`. A sum over the bytes of the entry and of its tree
// tells whether both are still what they were: where they are not, or there is no such file, the entry is read as YAML.
#pragma once

#include "host/yaml/document.hpp"

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>

namespace vatwright {

class Trees {
 public:
  // None where there is no file beside the table, or it cannot be read.
  explicit Trees(const std::filesystem::path& table);

  // Of the entry of that name, as it is written from that line of the table on.
  std::optional<Node> find(std::string_view name, std::string_view entry, int line) const;

 private:
  std::string text_;
};

std::filesystem::path trees_of(const std::filesystem::path& table);

// One entry's part of the file. The lines of the tree count from 1.
std::string tree_record(std::string_view name, std::string_view entry, const Node& root);

}  // namespace vatwright
