#include "host/yaml/nodes.hpp"

#include <utility>

namespace vatwright {

Node text_node_of(std::string_view text, Mark mark) {
  Node node;
  node.kind = Node::Kind::text;
  node.text = text;
  node.mark = mark;
  return node;
}

Node map_node_of(std::vector<Entry> entries, Mark mark) {
  Node node;
  node.kind = Node::Kind::map;
  node.entries = std::move(entries);
  node.mark = mark;
  return node;
}

Node list_node_of(std::vector<Node> items, Mark mark) {
  Node node;
  node.kind = Node::Kind::list;
  node.items = std::move(items);
  node.mark = mark;
  return node;
}

}  // namespace vatwright
