// YAML text -> a tree in which every node knows its line and column, within strict limits.
// Recipes and data files are read through here, and nowhere else.
#pragma once

#include "host/problem/problem.hpp"
#include "units/error.hpp"

#include <cstddef>
#include <filesystem>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace vatwright {

// A line (from 1) and a byte in it (from 0).
struct Mark {
  int line = 0;
  int byte = 0;
};

struct Node;

struct Entry;

struct Node {
  enum class Kind : unsigned char { nothing, text, list, map };
  Kind kind = Kind::nothing;
  Mark mark;
  std::string text;
  bool quoted = false;
  std::vector<Node> items;
  std::vector<Entry> entries;

  const Node* find(std::string_view key) const;  // nullptr when there is none
};

struct Entry {
  std::string key;
  Mark mark;
  Node value;
};

struct ReadLimits {
  std::size_t bytes = 1 << 20;
  int depth = 32;
  int nodes = 50'000;  // a thousand lots, each with a step, take half of it
};

class Document {
 public:
  // Throws BadInput: unreadable, empty, too large, too deep, too many nodes, an alias that holds
  // itself, a key twice, a key that is no word, more than one document, or not YAML.
  static Document open(const std::filesystem::path& file, const ReadLimits& limits = {});
  // `name` stands for the file in messages; `first_line` is the number of the text's first line.
  static Document read(std::string name, std::string text, const ReadLimits& limits = {}, int first_line = 1);

  // A tree that was not read here, such as one of the arguments of a command.
  static Document of(std::string name, std::string text, Node root, int first_line = 1);

  const Node& root() const { return root_; }
  const std::string& name() const { return name_; }
  const std::string& text() const { return text_; }

  Problem problem(Mark mark, const std::string& what, const std::string& hint) const;
  [[noreturn]] void fail(Mark mark, const std::string& what, const std::string& hint) const;
  // An error inside the text of a node, at its own offset.
  [[noreturn]] void fail(const Node& node, const InputError& error, std::string_view prefix = {}) const;

 private:
  Document(std::string name, std::string text, int first_line)
      : name_(std::move(name)), text_(std::move(text)), first_line_(first_line) {}
  // Of a byte of the text; without the line, which may hold what no terminal should be given.
  Place place_of(std::size_t byte) const;

  std::string name_, text_;
  int first_line_;
  Node root_;
};

// The whole of a file, at most `most` bytes. Throws BadInput.
std::string read_file(const std::filesystem::path& file, std::size_t most);

// Where the text stops being UTF-8, in bytes; npos: nowhere.
std::size_t not_utf8(std::string_view text);

}  // namespace vatwright
