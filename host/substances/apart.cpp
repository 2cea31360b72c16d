#include "host/substances/apart.hpp"

#include <algorithm>
#include <set>

namespace vatwright {
namespace {

const Node& due(const Document& doc, const Node& rule, std::string_view key, Node::Kind kind) {
  const Node* node = rule.find(key);
  if (node == nullptr || node->kind != kind)
    doc.fail(node == nullptr ? rule.mark : node->mark, "expected '" + std::string(key) + "' of what must be kept apart",
             "'one' and 'other' are lists of substances, 'because' and 'source' are sentences");
  return *node;
}

std::vector<std::string> words(const Node& list) {
  std::vector<std::string> out;
  for (const auto& item : list.items) out.push_back(item.text);
  return out;
}

bool holds(const std::vector<std::string>& list, const std::string& id) {
  return std::find(list.begin(), list.end(), id) != list.end();
}

}  // namespace

void Apart::read(const Sections& sections, std::string_view name) {
  const auto doc = sections.find(name);
  const Node& rule = *doc->root().find(name);
  rules_.push_back({std::string(name), words(due(*doc, rule, "one", Node::Kind::list)),
                    words(due(*doc, rule, "other", Node::Kind::list)),
                    due(*doc, rule, "because", Node::Kind::text).text,
                    due(*doc, rule, "source", Node::Kind::text).text});
}

Apart::Apart(const std::filesystem::path& table) {
  const Sections sections(table);
  for (const auto name : sections.names()) read(sections, name);
}

Apart::Apart(const std::filesystem::path& table, const std::vector<const Substance*>& among) {
  std::set<std::string> each;
  for (const Substance* substance : among) each.insert(substance->facts.id);
  if (each.size() < 2) return;
  const Sections sections(table);
  for (const auto name : sections.names())
    if (sections.may_name(name, each) > 1) read(sections, name);
}

std::vector<ApartPair> Apart::among(const std::vector<const Substance*>& substances) const {
  std::vector<ApartPair> out;
  for (const auto& rule : rules_)
    for (const auto* a : substances)
      for (const auto* b : substances)
        if (holds(rule.one, a->facts.id) && holds(rule.other, b->facts.id))
          out.push_back({a, b, rule.because, rule.source});
  return out;
}

}  // namespace vatwright
