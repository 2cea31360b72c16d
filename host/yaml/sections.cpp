#include "host/yaml/sections.hpp"

#include "host/files/checksum.hpp"

#include <algorithm>
#include <cctype>
#include <fstream>
#include <utility>

namespace vatwright {

namespace {
constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";

std::string unquoted(std::string_view key) {
  const bool quoted = key.size() > 1 && (key.front() == '"' || key.front() == '\'') && key.back() == key.front();
  return std::string(quoted ? key.substr(1, key.size() - 2) : key);
}

// "total SO2:", "note: at the press", but no "{rules: ours}", "? a", "&x a: 1".
bool is_plain_entry(std::string_view row) {
  const auto first = static_cast<unsigned char>(row.front());
  if (std::isalnum(first) == 0 && first != '"' && first != '\'' && first < 0x80) return false;
  const auto last = row.find_last_not_of(" \r");
  return row.find(": ") != std::string_view::npos || row[last] == ':';
}
}  // namespace

void Sections::refuse_twin() const {
  const auto& last = slices_.back();
  for (const auto& slice : slices_)
    if (&slice != &last && slice.name == last.name)
      throw BadInput(
          Problem{{.file = name_, .line = last.line, .column = 1, .excerpt = last.name},
                  "'" + last.name + "' stands here a second time (first in line " + std::to_string(slice.line) + ")",
                  "keep one of the two"});
}

bool Sections::cut() {
  int line = 1;
  const std::string_view text = text_->whole();
  for (std::size_t at = text.starts_with(byte_order_mark) ? byte_order_mark.size() : 0; at < text.size(); ++line) {
    const std::size_t stop = std::min(text.find('\n', at), text.size());
    const std::string_view row = text.substr(at, stop - at);
    const bool entry =
        !row.empty() && row.front() != ' ' && row.front() != '#' && row.front() != '-' && row.front() != '\r';
    if (entry) {
      if (!is_plain_entry(row)) return false;
      if (!slices_.empty()) slices_.back().end = at;
      const auto key = row.substr(0, row.find(": "));
      slices_.push_back({.name = unquoted(key.substr(0, key.find_last_not_of(": \r") + 1)),
                         .begin = at,
                         .end = text.size(),
                         .line = line});
      refuse_twin();
    }
    at = stop + 1;
  }
  return !slices_.empty();
}

Sections::Sections(const std::filesystem::path& file) : name_(file.string()), trees_(file) {
  if (trees_) {
    auto table = std::make_unique<const OpenFile>(file);
    const auto sum = checksum_of(*table);
    text_ = std::make_shared<const LateText>(file, std::move(table), sum);
    slices_ = trees_.slices(sum);
    if (!slices_.empty()) return;
  }
  text_ = std::make_shared<const LateText>(read_file(file, largest_table));
  if (cut()) return;
  slices_.clear();
  whole_ = std::make_shared<const Document>(whole());
}

Document Sections::whole() const {
  constexpr int most_nodes = 100'000;
  Document doc = Document::read(name_, text(), {.bytes = largest_table, .nodes = most_nodes});
  if (doc.root().kind != Node::Kind::map)
    doc.fail(doc.root().mark, "expected a table of names, each with what is said of it",
             "look whether it is the right file");
  return doc;
}

std::vector<std::string_view> Sections::names() const {
  std::vector<std::string_view> out;
  for (const auto& slice : slices_) out.push_back(slice.name);
  if (whole_ != nullptr)
    for (const auto& entry : whole_->root().entries) out.push_back(entry.key);
  return out;
}

const Slice* Sections::slice(std::string_view name) const {
  const auto at = std::find_if(slices_.begin(), slices_.end(), [&](const Slice& one) { return one.name == name; });
  return at == slices_.end() ? nullptr : &*at;
}

std::size_t Sections::may_name(std::string_view entry, const std::set<std::string>& words) const {
  const Slice* found = slice(entry);
  if (found == nullptr) return words.size();
  const std::string said = written(*found);
  return static_cast<std::size_t>(std::count_if(
      words.begin(), words.end(), [&](const std::string& word) { return said.find(word) != std::string::npos; }));
}

void Sections::write_trees() const {
  TreesWriter trees;
  for (const auto& slice : slices_) {
    try {
      const Document doc = Document::read(name_, written(slice));
      trees.add(slice, written(slice), &doc.root());
    } catch (const BadInput&) {
      trees.add(slice, written(slice), nullptr);  // whoever asks for it is told
    }
  }
  const auto file = trees_of(name_);
  std::ofstream out(file, std::ios::binary);
  out << trees.text(checksum_of(text()));
  out.close();
  if (!out) throw BadInput(Problem{{.file = file.string()}, "cannot be written", "look who may write in its folder"});
}

std::optional<Document> Sections::entry_of(const Document& whole, std::string_view name) {
  for (const auto& entry : whole.root().entries)
    if (entry.key == name) {
      Node root;
      root.kind = Node::Kind::map;
      root.mark = entry.mark;
      root.entries.push_back(entry);
      return Document::of(whole.name(), whole.text(), std::move(root));
    }
  return std::nullopt;
}

std::optional<Document> Sections::find(std::string_view name) const {
  if (whole_ != nullptr) return entry_of(*whole_, name);
  const Slice* found = slice(name);
  if (found == nullptr) return std::nullopt;
  std::string entry = written(*found);
  if (auto root = trees_.find(*found, entry))
    return Document::of(name_, std::move(entry), std::move(*root), found->line);
  try {
    return Document::read(name_, text().substr(found->begin, found->end - found->begin), {}, found->line);
  } catch (const BadInput& alone) {
    // It may lean on another entry ("*alike"); what is wrong in the whole file too is told of this entry.
    try {
      return entry_of(whole(), name);
    } catch (const BadInput&) {
      throw alone;
    }
  }
}

}  // namespace vatwright
