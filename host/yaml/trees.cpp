#include "host/yaml/trees.hpp"

#include "host/yaml/tree_text.hpp"

#define XXH_INLINE_ALL  // of its header alone: nothing to link
#include <fmt/format.h>
#include <xxhash.h>

#include <charconv>
#include <cstddef>
#include <system_error>

namespace vatwright {
namespace {

constexpr std::size_t most_bytes = 16 << 20;

// "LENGTH SUM NAME\nTREE\n".
struct Record {
  std::string_view sum, name, tree;
};

// Against slips and worn disks: who may write a table is asked elsewhere (host/files/trusted.hpp).
std::string sum_of(std::string_view entry, std::string_view tree) {
  return fmt::format("{:016x}",
                     XXH3_64bits_withSeed(tree.data(), tree.size(), XXH3_64bits(entry.data(), entry.size())));
}

// Takes the first one away from what is left; nothing at the end, or where the file is not in order.
std::optional<Record> next_record(std::string_view& rest) {
  const auto row = rest.find('\n');
  if (row == std::string_view::npos) return std::nullopt;
  const std::string_view head = rest.substr(0, row);
  std::size_t length = 0;
  const auto [end, error] = std::from_chars(head.data(), head.data() + row, length);
  const auto before = static_cast<std::size_t>(end - head.data()), after = head.find(' ', before + 1);
  if (error != std::errc{} || after == std::string_view::npos || length > rest.size() - row - 1) return std::nullopt;
  const Record found{head.substr(before + 1, after - before - 1), head.substr(after + 1), rest.substr(row + 1, length)};
  rest.remove_prefix(row + 1 + length);
  if (!rest.empty()) rest.remove_prefix(1);
  return found;
}

}  // namespace

std::filesystem::path trees_of(const std::filesystem::path& table) {
  return std::filesystem::path(table).replace_extension(".trees");
}

std::string tree_record(std::string_view name, std::string_view entry, const Node& root) {
  const std::string tree = text_of_tree(root);
  std::string out = std::to_string(tree.size()) + ' ' + sum_of(entry, tree) + ' ';
  out += name;
  return out + '\n' + tree + '\n';
}

Trees::Trees(const std::filesystem::path& table) {
  const auto file = trees_of(table);
  std::error_code ec;
  if (!std::filesystem::is_regular_file(file, ec)) return;
  try {
    text_ = read_file(file, most_bytes);
  } catch (const BadInput&) {
    text_.clear();  // the table itself says all that it does
  }
}

std::optional<Node> Trees::find(std::string_view name, std::string_view entry, int line) const {
  std::string_view rest = text_;
  while (const auto record = next_record(rest)) {
    if (record->name != name) continue;
    if (record->sum != sum_of(entry, record->tree)) return std::nullopt;
    return tree_of_text(record->tree, line);
  }
  return std::nullopt;
}

}  // namespace vatwright
