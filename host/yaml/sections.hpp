// Data files are maps of entries. Only the entries that are asked for are parsed where each begins in column 0, as in
// our own tables: reading a whole table for one substance would cost more than all the rest. Where these stand is told
// by the file of trees, if it is of this table; else it is looked for. A file in another style, of somebody else, is
// read whole.
#pragma once

#include "host/files/hash.hpp"
#include "host/yaml/document.hpp"
#include "host/yaml/late_text.hpp"
#include "host/yaml/trees.hpp"

#include <cstddef>
#include <filesystem>
#include <memory>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace vatwright {

class Sections {
 public:
  // Throws BadInput when the file cannot be read, or holds no map.
  explicit Sections(const std::filesystem::path& file);

  std::vector<std::string_view> names() const;
  // The entry of that name, parsed; its root is the entry's value under the one key.
  std::optional<Document> find(std::string_view name) const;
  const std::string& file() const { return name_; }
  const std::string& text() const { return text_->whole(); }
  Sum sum() const {
    return Sum([text = text_] { return sha256_of(text->whole()); });
  }
  // How many of the words stand in what is written of the entry; all, where that cannot be told.
  std::size_t may_name(std::string_view entry, const std::set<std::string>& words) const;
  // Its entries, read from YAML, into the file beside it that the next reader finds. Throws BadInput.
  void write_trees() const;

 private:
  bool cut();  // false: not every entry begins in column 0
  void refuse_twin() const;
  Document whole() const;
  std::string written(const Slice& slice) const { return text_->part(slice.begin, slice.end); }
  const Slice* slice(std::string_view name) const;
  static std::optional<Document> entry_of(const Document& whole, std::string_view name);

  std::string name_;
  Trees trees_;
  std::shared_ptr<const LateText> text_;
  std::vector<Slice> slices_;              // when the file was cut
  std::shared_ptr<const Document> whole_;  // when it was not
};

}  // namespace vatwright
