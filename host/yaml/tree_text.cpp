#include "host/yaml/tree_text.hpp"

#include <algorithm>
#include <charconv>
#include <cstddef>
#include <system_error>
#include <utility>

namespace vatwright {
namespace {

constexpr char bare = '\'', in_quotes_of_yaml = '"', nothing = '~', list = '[', map = '{';
constexpr int deepest = ReadLimits{}.depth;

void append_head(char kind, Mark mark, std::size_t count, std::string& out) {
  out += kind + std::to_string(mark.line) + ' ' + std::to_string(mark.byte) + ' ' + std::to_string(count) + ':';
}

void append_node(const Node& node, std::string& out) {
  switch (node.kind) {
    case Node::Kind::nothing:
      return append_head(nothing, node.mark, 0, out);
    case Node::Kind::text:
      append_head(node.quoted ? in_quotes_of_yaml : bare, node.mark, node.text.size(), out);
      out += node.text;
      return;
    case Node::Kind::list:
      append_head(list, node.mark, node.items.size(), out);
      for (const auto& item : node.items) append_node(item, out);
      return;
    case Node::Kind::map:
      append_head(map, node.mark, node.entries.size(), out);
      for (const auto& entry : node.entries) {
        append_head(bare, entry.mark, entry.key.size(), out);
        out += entry.key;
        append_node(entry.value, out);
      }
      return;
  }
}

// Of a file that may be anything: each of these is false for what does not fit.
class TreeReader {
 public:
  TreeReader(std::string_view text, int first_line) : rest_(text), first_line_(first_line) {}

  bool read(Node& node, int depth) {
    char kind = 0;
    std::size_t count = 0;
    if (depth > deepest || !head(kind, node.mark, count)) return false;
    switch (kind) {
      case nothing:
        return count == 0;
      case bare:
      case in_quotes_of_yaml:
        node.kind = Node::Kind::text;
        node.quoted = kind == in_quotes_of_yaml;
        return words(node.text, count);
      case list:
        node.kind = Node::Kind::list;
        return items(node, count, depth);
      case map:
        node.kind = Node::Kind::map;
        return entries(node, count, depth);
      default:
        return false;
    }
  }
  bool at_end() const { return rest_.empty(); }

 private:
  template <class Number>
  bool number(Number& out, char then) {
    const auto [end, error] = std::from_chars(rest_.data(), rest_.data() + rest_.size(), out);
    const auto taken = static_cast<std::size_t>(end - rest_.data());
    if (error != std::errc{} || taken >= rest_.size() || rest_[taken] != then) return false;
    rest_.remove_prefix(taken + 1);
    return true;
  }

  // Whatever it counts, each takes a byte at least.
  bool head(char& kind, Mark& mark, std::size_t& count) {
    if (rest_.empty()) return false;
    kind = rest_.front();
    rest_.remove_prefix(1);
    if (!number(mark.line, ' ') || !number(mark.byte, ' ') || !number(count, ':')) return false;
    if (mark.line < 1 || mark.byte < 0 || mark.line > most_lines || count > rest_.size()) return false;
    mark.line += first_line_ - 1;
    return true;
  }

  bool words(std::string& out, std::size_t count) {
    out = rest_.substr(0, count);
    rest_.remove_prefix(count);
    return true;
  }

  bool items(Node& node, std::size_t count, int depth) {
    node.items.reserve(std::min(count, usual));
    for (std::size_t i = 0; i < count; ++i)
      if (!read(node.items.emplace_back(), depth + 1)) return false;
    return true;
  }

  bool entries(Node& node, std::size_t count, int depth) {
    node.entries.reserve(std::min(count, usual));
    for (std::size_t i = 0; i < count; ++i) {
      Entry& entry = node.entries.emplace_back();
      char kind = 0;
      std::size_t length = 0;
      if (!head(kind, entry.mark, length) || kind != bare || !words(entry.key, length)) return false;
      if (!read(entry.value, depth + 1)) return false;
    }
    return true;
  }

  static constexpr int most_lines = 1 << 24;
  static constexpr std::size_t usual = 32;  // not what the file says: it may be anything
  std::string_view rest_;
  int first_line_;
};

}  // namespace

std::string text_of_tree(const Node& root) {
  std::string out;
  append_node(root, out);
  return out;
}

std::optional<Node> tree_of_text(std::string_view text, int first_line) {
  TreeReader reader(text, first_line);
  Node root;
  if (!reader.read(root, 0) || !reader.at_end()) return std::nullopt;
  return root;
}

}  // namespace vatwright
