#include "host/yaml/trees.hpp"

#include "host/files/checksum.hpp"
#include "host/yaml/tree_text.hpp"

#include <fmt/format.h>

#include <charconv>
#include <system_error>

namespace vatwright {
namespace {

// The file begins with the sum of the table, that of the contents and how long they are, in as many bytes always.
constexpr std::size_t head_bytes = 16 + 1 + 16 + 1 + 8 + 1, most_bytes = 16 << 20;
constexpr std::size_t first_read = 8 << 10;  // the contents of our largest table are shorter

std::string head(std::uint64_t sum_of_table, std::string_view contents) {
  return fmt::format("{:016x} {:016x} {:08}\n", sum_of_table, checksum_of(contents, sum_of_table), contents.size());
}

std::uint64_t sum_of(std::string_view entry, std::string_view tree) { return checksum_of(tree, checksum_of(entry)); }

// Numbers, each with a byte behind it. False at what is none.
class Row {
 public:
  explicit Row(std::string_view& rest) : rest_(rest) {}

  template <class Number>
  bool take(Number& out, int base = 10) {
    const auto [end, error] = std::from_chars(rest_.data(), rest_.data() + rest_.size(), out, base);
    const auto taken = static_cast<std::size_t>(end - rest_.data());
    if (error != std::errc{} || taken >= rest_.size()) return false;
    rest_.remove_prefix(taken + 1);
    return true;
  }
  bool take(std::string& out) {
    const auto end = rest_.find('\n');
    if (end == std::string_view::npos) return false;
    out = rest_.substr(0, end);
    rest_.remove_prefix(end + 1);
    return true;
  }

 private:
  std::string_view& rest_;
};

}  // namespace

std::filesystem::path trees_of(const std::filesystem::path& table) {
  return std::filesystem::path(table).replace_extension(".trees");
}

Trees::Trees(const std::filesystem::path& table) : file_(std::make_unique<const OpenFile>(trees_of(table))) {}

std::vector<Slice> Trees::slices(std::uint64_t sum_of_table) const {
  std::string text = file_->part(0, first_read);
  std::size_t length = 0;
  if (text.size() < head_bytes) return {};
  std::from_chars(text.data() + head_bytes - 9, text.data() + head_bytes - 1, length);
  if (length > most_bytes) return {};
  if (head_bytes + length > text.size()) text += file_->part(text.size(), head_bytes + length - text.size());
  std::string_view rest = std::string_view(text).substr(head_bytes, length);
  if (text.compare(0, head_bytes, head(sum_of_table, rest)) != 0) return {};
  std::vector<Slice> out;
  for (std::size_t at = head_bytes + length; !rest.empty(); at += out.back().tree.length) {
    Slice& slice = out.emplace_back();
    Row row(rest);
    if (!row.take(slice.begin) || !row.take(slice.end) || !row.take(slice.line) || !row.take(slice.tree.length) ||
        !row.take(slice.tree.sum, 16) || !row.take(slice.name))
      return {};
    slice.tree.begin = at;
  }
  return out;
}

std::optional<Node> Trees::find(const Slice& slice, std::string_view entry) const {
  if (slice.tree.length == 0 || slice.tree.length > most_bytes) return std::nullopt;
  const std::string tree = file_->part(slice.tree.begin, slice.tree.length);
  if (slice.tree.sum != sum_of(entry, tree)) return std::nullopt;
  return tree_of_text(tree, slice.line);
}

void TreesWriter::add(const Slice& slice, std::string_view entry, const Node* tree) {
  const std::string text = tree == nullptr ? "" : text_of_tree(*tree);
  contents_ += fmt::format("{} {} {} {} {:016x} {}\n", slice.begin, slice.end, slice.line, text.size(),
                           sum_of(entry, text), slice.name);
  trees_ += text;
}

std::string TreesWriter::text(std::uint64_t sum_of_table) const {
  return head(sum_of_table, contents_) + contents_ + trees_;
}

}  // namespace vatwright
