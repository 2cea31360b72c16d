#include "host/yaml/sections.hpp"

#include <utility>

namespace vatwright {

namespace {
constexpr std::size_t largest_table = 4 << 20;  // bytes; our own tables are some tens of kilobytes

std::string unquoted(std::string_view key) {
  const bool quoted = key.size() > 1 && (key.front() == '"' || key.front() == '\'') && key.back() == key.front();
  return std::string(quoted ? key.substr(1, key.size() - 2) : key);
}
}  // namespace

void Sections::refuse_twin() const {
  const auto& last = slices_.back();
  for (const auto& slice : slices_)
    if (&slice != &last && slice.name == last.name)
      throw BadInput(
          pointed(name_, last.name, last.line, 0,
                  "'" + last.name + "' stands here a second time (first in line " + std::to_string(slice.line) + ")",
                  "keep one of the two"));
}

Sections::Sections(const std::filesystem::path& file) : name_(file.string()), text_(read_file(file, largest_table)) {
  int line = 1;
  for (std::size_t at = 0; at < text_.size(); ++line) {
    const std::size_t stop = std::min(text_.find('\n', at), text_.size());
    const std::string_view row(text_.data() + at, stop - at);
    const bool entry =
        !row.empty() && row.front() != ' ' && row.front() != '#' && row.front() != '-' && row.front() != '\r';
    if (entry) {
      if (!slices_.empty()) slices_.back().end = at;
      const auto key = row.substr(0, row.find(": "));
      slices_.push_back({unquoted(key.substr(0, key.find_last_not_of(": \r") + 1)), at, text_.size(), line});
      refuse_twin();
    }
    at = stop + 1;
  }
}

std::vector<std::string_view> Sections::names() const {
  std::vector<std::string_view> out;
  for (const auto& slice : slices_) out.push_back(slice.name);
  return out;
}

std::optional<Document> Sections::find(std::string_view name) const {
  for (const auto& slice : slices_)
    if (slice.name == name)
      return Document::read(name_, text_.substr(slice.begin, slice.end - slice.begin), {}, slice.line);
  return std::nullopt;
}

}  // namespace vatwright
