#include "host/yaml/tree.hpp"

#include "host/files/printable.hpp"

#include <fmt/format.h>
#include <yaml-cpp/eventhandler.h>
#include <yaml-cpp/mark.h>
#include <yaml-cpp/parser.h>

#include <algorithm>
#include <map>
#include <sstream>

namespace vatwright {
namespace {

// Events are checked as they come, so that a hostile file is refused before it is held in memory.
class Builder final : public YAML::EventHandler {
 public:
  Builder(const std::string& text, const ReadLimits& limits, int first_line)
      : text_(text), limits_(limits), first_line_(first_line) {
    root_.mark.line = first_line;  // of a text that holds nothing, not even a document
  }

  Node root() { return std::move(root_); }

  void OnDocumentStart(const YAML::Mark& mark) override {
    if (++documents_ > 1) throw TreeError(at(mark), "a second document begins here", "keep one document in a file");
  }
  void OnDocumentEnd() override {}

  void OnNull(const YAML::Mark& mark, YAML::anchor_t anchor) override { add(leaf(mark), anchor); }

  void OnScalar(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                const std::string& value) override {
    // An escape in a title would reach the terminal of whoever reads the worksheet.
    if (!is_printable(value, true))
      throw TreeError(at(mark), "a control character or a mark of direction in a text",
                      "write the words anew: something in them that cannot be seen was copied along");
    Node node = leaf(mark);
    node.kind = Node::Kind::text;
    node.text = value;
    node.quoted = tag == "!";
    if (node.quoted) refuse_open_quote(mark);
    add(std::move(node), anchor);
  }

  void OnAlias(const YAML::Mark& mark, YAML::anchor_t anchor) override {
    const auto found = anchored_.find(anchor);
    if (found == anchored_.end())
      throw TreeError(at(mark), "an alias that stands inside what it repeats", "write the values out");
    Node copy = found->second;
    count(mark, size(copy));
    if (static_cast<int>(open_.size()) + depth(copy) > limits_.depth) too_deep(at(mark));
    repeated_ += letters(copy);
    if (repeated_ > limits_.bytes)
      throw TreeError(at(mark), "aliases repeat more text than a whole file may hold", "write the values out");
    copy.mark = at(mark);
    add(std::move(copy), 0);
  }

  void OnSequenceStart(const YAML::Mark& mark, const std::string&, YAML::anchor_t anchor,
                       YAML::EmitterStyle::value) override {
    begin(mark, anchor, Node::Kind::list);
  }
  void OnSequenceEnd() override { end(); }

  void OnMapStart(const YAML::Mark& mark, const std::string&, YAML::anchor_t anchor,
                  YAML::EmitterStyle::value) override {
    begin(mark, anchor, Node::Kind::map);
  }
  void OnMapEnd() override {
    refuse_twins(open_.back().node);
    end();
  }

 private:
  struct Open {
    Node node;
    YAML::anchor_t anchor;
    bool key_due;  // of a map: the next scalar is a key
  };

  Mark at(const YAML::Mark& mark) const { return {mark.line + first_line_, mark.column}; }

  void count(const YAML::Mark& mark, int more) {
    nodes_ += more;
    if (nodes_ > limits_.nodes)
      throw TreeError(at(mark), fmt::format("more than {} values, which no recipe needs", limits_.nodes),
                      "split the recipe");
  }

  static int size(const Node& node) {
    int sum = 1;
    for (const auto& item : node.items) sum += size(item);
    for (const auto& entry : node.entries) sum += size(entry.value);
    return sum;
  }

  static std::size_t letters(const Node& node) {
    std::size_t sum = node.text.size();
    for (const auto& item : node.items) sum += letters(item);
    for (const auto& entry : node.entries) sum += entry.key.size() + letters(entry.value);
    return sum;
  }

  static int depth(const Node& node) {
    if (node.kind != Node::Kind::list && node.kind != Node::Kind::map) return 0;
    int most = 0;
    for (const auto& item : node.items) most = std::max(most, depth(item));
    for (const auto& entry : node.entries) most = std::max(most, depth(entry.value));
    return most + 1;
  }

  [[noreturn]] void too_deep(Mark mark) const {
    throw TreeError(mark, fmt::format("nested more than {} deep, which no recipe needs", limits_.depth),
                    "look at the indentation and the brackets above this place");
  }

  Node leaf(const YAML::Mark& mark) {
    count(mark, 1);
    Node node;
    node.mark = at(mark);
    return node;
  }

  void begin(const YAML::Mark& mark, YAML::anchor_t anchor, Node::Kind kind) {
    Node node = leaf(mark);
    node.kind = kind;
    if (!open_.empty() && open_.back().key_due) bad_key(node.mark);
    if (static_cast<int>(open_.size()) >= limits_.depth) too_deep(node.mark);
    open_.push_back({std::move(node), anchor, kind == Node::Kind::map});
  }

  void end() {
    Open done = std::move(open_.back());
    open_.pop_back();
    add(std::move(done.node), done.anchor);
  }

  void add(Node node, YAML::anchor_t anchor) {
    if (anchor != 0) anchored_[anchor] = node;
    if (open_.empty()) {
      root_ = std::move(node);
      return;
    }
    Open& parent = open_.back();
    if (parent.node.kind == Node::Kind::list) {
      parent.node.items.push_back(std::move(node));
    } else if (parent.key_due) {
      if (node.kind != Node::Kind::text) bad_key(node.mark);
      parent.node.entries.push_back({std::move(node.text), node.mark, {}});
      parent.key_due = false;
    } else {
      // The parser sees that nothing stands there when it meets what comes next, lines further down.
      if (node.kind == Node::Kind::nothing) node.mark = parent.node.entries.back().mark;
      parent.node.entries.back().value = std::move(node);
      parent.key_due = true;
    }
  }

  // yaml-cpp takes the end of the file for the quote that is missing, and all that stands before it for text.
  void refuse_open_quote(const YAML::Mark& mark) const {
    const std::size_t mark_of_order = text_.starts_with("\xEF\xBB\xBF") ? 3 : 0;  // which yaml-cpp does not count
    const std::size_t begin = text_.find_first_of("\"'", static_cast<std::size_t>(mark.pos) + mark_of_order);
    if (begin == std::string::npos) return;
    const char quote = text_[begin];
    for (std::size_t i = begin + 1; i < text_.size(); ++i) {
      const bool twice = quote == '\'' && text_.compare(i, 2, "''") == 0;
      if (twice || (quote == '"' && text_[i] == '\\'))
        ++i;  // stands for itself
      else if (text_[i] == quote)
        return;
    }
    throw TreeError(at(mark), "a quote that is not closed", "close it, or take it away");
  }

  [[noreturn]] static void bad_key(Mark mark) {
    throw TreeError(mark, "a key that is not a word", "write 'name: value', and close every bracket");
  }

  // yaml-cpp takes a key twice without a word; in a recipe it is always a slip.
  static void refuse_twins(const Node& map) {
    std::vector<const Entry*> sorted;
    sorted.reserve(map.entries.size());
    for (const auto& entry : map.entries) sorted.push_back(&entry);
    std::stable_sort(sorted.begin(), sorted.end(), [](auto* a, auto* b) { return a->key < b->key; });
    const auto twin =
        std::adjacent_find(sorted.begin(), sorted.end(), [](auto* a, auto* b) { return a->key == b->key; });
    if (twin == sorted.end()) return;
    const Entry& second = **(twin + 1);
    throw TreeError(second.mark,
                    fmt::format("'{}' stands here a second time (first in line {})", second.key, (*twin)->mark.line),
                    "keep one of the two");
  }

  const std::string& text_;
  ReadLimits limits_;
  int first_line_;
  int documents_ = 0;
  int nodes_ = 0;
  std::size_t repeated_ = 0;  // bytes that aliases stand for
  std::vector<Open> open_;
  std::map<YAML::anchor_t, Node> anchored_;
  Node root_;
};

}  // namespace

Node read_tree(const std::string& text, const ReadLimits& limits, int first_line) {
  std::istringstream in(text);
  YAML::Parser parser(in);
  Builder builder(text, limits, first_line);
  while (parser.HandleNextDocument(builder)) {
  }
  return builder.root();
}

}  // namespace vatwright
