#include "host/page/draft.hpp"

#include "host/page/request.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace vatwright {
namespace {

bool is_plain_letter(char c) {
  return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c & 0x80) != 0;
}

// Whether YAML reads the text as it stands: more is put in quotes than need be, never less.
bool stands_plain(std::string_view text) {
  constexpr std::string_view within = " .%/()-+±°·*=^_";
  if (text.empty() || !is_plain_letter(text.front()) || text.back() == ' ' || text == "null" || text == "Null" ||
      text == "NULL")
    return false;
  return std::all_of(text.begin(), text.end(),
                     [&](char c) { return is_plain_letter(c) || within.find(c) != std::string_view::npos; });
}

std::string scalar(std::string_view text) {
  if (stands_plain(text)) return std::string(text);
  std::string out = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\')
      out.append("\\").append(1, c);
    else if (c == '\n')
      out += "\\n";
    else if (c == '\t')
      out += "\\t";
    else if (c >= 0 && c < ' ')
      out += fmt::format("\\x{:02x}", static_cast<int>(c));
    else
      out += c;
  }
  return out + "\"";
}

[[noreturn]] void no_recipe(const Document& doc, Mark mark, const std::string& what) {
  doc.fail(mark, what, "open the file that was saved as a recipe (.yaml)");
}

std::vector<DraftPart> read_draft_lots(const Document& doc, const Node& node) {
  std::vector<DraftPart> out;
  if (node.kind == Node::Kind::nothing) return out;
  if (node.kind != Node::Kind::map) no_recipe(doc, node.mark, "expected lots by their names");
  for (const auto& entry : node.entries) out.push_back({entry.key, {}, entry.value.entries});
  return out;
}

std::vector<DraftPart> read_draft_steps(const Document& doc, const Node& node) {
  std::vector<DraftPart> out;
  for (const auto& item : node.items) {
    if (item.kind == Node::Kind::text) {
      out.push_back({item.text});
      continue;
    }
    if (item.kind != Node::Kind::map || item.entries.size() != 1)
      no_recipe(doc, item.mark, "expected one calculation in a step");
    DraftPart step{item.entries.front().key, {}, item.entries.front().value.entries};
    if (const Node* lot = step.find("lot"); lot != nullptr && lot->kind == Node::Kind::text) step.lot = lot->text;
    step.erase("lot");
    out.push_back(std::move(step));
  }
  return out;
}

class DraftWriter {
 public:
  DraftText write(const Draft& draft) {
    for (const auto& entry : draft.head) line(fmt::format("{}: {}", scalar(entry.key), in_one_line(entry.value)));
    if (!draft.lots.empty()) line("lots:");
    for (const auto& lot : draft.lots) {
      line(fmt::format("  {}:{}", scalar(lot.name), lot.says.empty() ? " {}" : ""));
      for (const auto& entry : lot.says) value("    ", entry, {DraftText::no_step, lot.name, entry.key});
    }
    if (!draft.steps.empty()) line("steps:");
    for (std::size_t i = 0; i < draft.steps.size(); ++i) step(draft.steps[i], i);
    return std::move(out_);
  }

 private:
  void step(const DraftPart& step, std::size_t number) {
    const bool bare = step.says.empty() && step.lot.empty();
    out_.lines[next_] = {number, {}, {}};
    line(fmt::format("  - {}:{}", scalar(step.name), bare ? " {}" : ""));
    if (!step.lot.empty()) value("      ", {"lot", {}, text_node_of(step.lot)}, {number, {}, {}});
    for (const auto& entry : step.says) value("      ", entry, {number, {}, entry.key});
  }

  void value(std::string_view indent, const Entry& entry, DraftText::Place place) {
    out_.lines[next_] = std::move(place);
    line(fmt::format("{}{}: {}", indent, scalar(entry.key), in_one_line(entry.value)));
  }

  void line(const std::string& text) {
    out_.text += text + "\n";
    ++next_;
  }

  DraftText out_;
  int next_ = 1;
};

}  // namespace

const Node* DraftPart::find(std::string_view key) const {
  for (const auto& entry : says)
    if (entry.key == key) return &entry.value;
  return nullptr;
}

void DraftPart::set(std::string_view key, Node value) {
  for (auto& entry : says)
    if (entry.key == key) {
      entry.value = std::move(value);
      return;
    }
  says.push_back({std::string(key), {}, std::move(value)});
}

void DraftPart::erase(std::string_view key) {
  std::erase_if(says, [&](const Entry& entry) { return entry.key == key; });
}

const DraftPart* Draft::lot(std::string_view name) const {
  const auto at = std::find_if(lots.begin(), lots.end(), [&](const DraftPart& part) { return part.name == name; });
  return at == lots.end() ? nullptr : &*at;
}

DraftPart* Draft::lot(std::string_view name) { return const_cast<DraftPart*>(std::as_const(*this).lot(name)); }

std::vector<std::string> Draft::rules() const {
  std::vector<std::string> out;
  for (const auto& entry : head) {
    if (entry.key != "rules") continue;
    if (entry.value.kind == Node::Kind::text) out.push_back(entry.value.text);
    for (const auto& item : entry.value.items) out.push_back(item.text);
  }
  return out;
}

void Draft::set_rules(const std::vector<std::string>& names) {
  DraftPart part{{}, {}, std::move(head)};
  Node list = list_node_of({});
  for (const auto& name : names) list.items.push_back(text_node_of(name));
  if (names.empty())
    part.erase("rules");
  else
    part.set("rules", std::move(list));
  head = std::move(part.says);
}

std::string Draft::word(std::string_view key) const {
  for (const auto& entry : head)
    if (entry.key == key) return entry.value.text;
  return {};
}

void Draft::set_word(std::string_view key, std::string_view text) {
  DraftPart part{{}, {}, std::move(head)};
  part.set(key, text_node_of(text));
  head = std::move(part.says);
}

Draft read_draft(const std::string& text) {
  Draft draft;
  if (trimmed(text).empty()) return draft;
  const Document doc = Document::read(draft_file, text);
  if (doc.root().kind != Node::Kind::map) no_recipe(doc, doc.root().mark, "expected a recipe");
  for (const auto& entry : doc.root().entries) {
    if (entry.key == "lots")
      draft.lots = read_draft_lots(doc, entry.value);
    else if (entry.key == "steps")
      draft.steps = read_draft_steps(doc, entry.value);
    else
      draft.head.push_back(entry);
  }
  return draft;
}

DraftText text_of(const Draft& draft) { return DraftWriter().write(draft); }

std::string in_one_line(const Node& node) {
  std::string out;
  switch (node.kind) {
    case Node::Kind::nothing:
      return "~";
    case Node::Kind::text:
      return scalar(node.text);
    case Node::Kind::list:
      for (const auto& item : node.items) out.append(out.empty() ? "" : ", ").append(in_one_line(item));
      return "[" + out + "]";
    case Node::Kind::map:
      for (const auto& entry : node.entries)
        out.append(out.empty() ? "" : ", ").append(scalar(entry.key)).append(": ").append(in_one_line(entry.value));
      return "{" + out + "}";
  }
  return out;
}

}  // namespace vatwright
