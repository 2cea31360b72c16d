#include "host/rules/row.hpp"

namespace vatwright {

const std::vector<Node>& rows_of(const Document& doc, std::string_view topic) {
  const Node* list = doc.root().find(topic);
  if (list == nullptr || list->kind != Node::Kind::list || list->items.empty())
    doc.fail(list == nullptr ? doc.root().mark : list->mark,
             "expected rows under '" + std::string(topic) + "', each beginning with '- '",
             "such as '- {..., source: ...}'; 'vatwright rules EU' shows a set");
  return list->items;
}

std::string text_of(const Node& row, std::string_view key) {
  const Node* node = row.find(key);
  return node == nullptr ? std::string() : node->text;
}

std::string cited(const Document& doc, const Node& row) {
  auto source = text_of(row, "source");
  if (const auto date = text_of(row, "text of"); !date.empty()) source += ", text of " + date;
  if (source.empty())
    doc.fail(row.mark, "a rule without a source",
             "add 'source: ...', for a rule of your own such as 'source: house rule'");
  if (const auto standing = text_of(row, "standing"); !standing.empty() && standing != "seen")
    source += " (" + standing + ")";
  return source;
}

std::string as_written(const Node* when) {
  std::string out;
  if (when == nullptr) return out;
  for (const auto& entry : when->entries) {
    out += (out.empty() ? "" : ", ") + entry.key + " ";
    if (entry.value.kind == Node::Kind::text) out += entry.value.text;
    for (std::size_t i = 0; i < entry.value.items.size(); ++i) out += (i > 0 ? " or " : "") + entry.value.items[i].text;
  }
  return out;
}

}  // namespace vatwright
