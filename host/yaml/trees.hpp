// The entries of a table as trees, read from YAML when the table was installed: that takes longer than all the rest of
// a run. They stand in a file beside the table, `substances.trees`, after its contents: where in the table each entry
// stands. The contents have the sum of the table's bytes: where somebody has changed it since, or the file is damaged
// or not there, the table is read as YAML. A sum over the bytes of an entry and of its tree tells whether they belong
// together.
#pragma once

#include "host/files/open_file.hpp"
#include "host/yaml/document.hpp"

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace vatwright {

// An entry: where it stands in the text of its table, and its tree in the file of trees.
struct Slice {
  std::string name{};
  std::size_t begin = 0, end = 0;
  int line = 1;
  struct {
    std::size_t begin = 0, length = 0;  // without bytes: there is none
    std::uint64_t sum = 0;
  } tree{};
};

class Trees {
 public:
  // None where there is no file beside the table.
  explicit Trees(const std::filesystem::path& table);

  explicit operator bool() const { return static_cast<bool>(*file_); }
  // All entries of the table that has that sum; none of another.
  std::vector<Slice> slices(std::uint64_t sum_of_table) const;
  // Of that entry, as it is written.
  std::optional<Node> find(const Slice& slice, std::string_view entry) const;

 private:
  std::unique_ptr<const OpenFile> file_;
};

std::filesystem::path trees_of(const std::filesystem::path& table);

// The file, entry by entry.
class TreesWriter {
 public:
  // The lines of the tree count from 1; of an entry that is not in order there is none.
  void add(const Slice& slice, std::string_view entry, const Node* tree);
  std::string text(std::uint64_t sum_of_table) const;

 private:
  std::string contents_, trees_;
};

}  // namespace vatwright
