#include "host/substances/language.hpp"

#include "host/yaml/document.hpp"
#include "host/yaml/known_keys.hpp"
#include "units/nearest.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>

namespace vatwright {
namespace {

constexpr std::array<std::string_view, 5> file_keys{"language", "name", "words", "hazard statements", "seen once"};

const Node& due(const Document& doc, std::string_view key, Node::Kind kind) {
  const Node* node = doc.root().find(key);
  if (node == nullptr || node->kind != kind)
    doc.fail(node == nullptr ? doc.root().mark : node->mark, "expected '" + std::string(key) + "' of a language",
             "another file in the same folder shows how it is written");
  return *node;
}

}  // namespace

Language::Language(const std::filesystem::path& file) {
  const Document doc = Document::open(file);
  refuse_unknown_keys(doc, doc.root(), "a language", file_keys);
  code_ = due(doc, "language", Node::Kind::text).text;
  name_ = due(doc, "name", Node::Kind::text).text;
  for (const auto section : {"words", "hazard statements"})
    for (const auto& entry : due(doc, section, Node::Kind::map).entries)
      words_.insert_or_assign(entry.key, entry.value.text);
  for (const auto& item : due(doc, "seen once", Node::Kind::list).items) {
    if (!words_.contains(item.text)) doc.fail(item.mark, in_quotes(item.text) + " is not among its wordings", "");
    ++seen_once_;
  }
}

Wording Language::say(std::string_view what) const {
  const auto at = words_.find(what);
  return {code_, at == words_.end() ? std::string() : at->second};
}

std::string Language::told_on_a_sheet() const {
  std::string out = fmt::format(
      "{} ({}): hazard statements, signal words, sulfites and allergens stand in the law's words "
      "beside the English, every other word is English",
      code_, name_);
  if (seen_once_ > 0)
    out += fmt::format("; {} of its {} wordings were found in one place only: check them before a label is printed",
                       seen_once_, words_.size());
  return out;
}

std::string in_words(const Wording& said) {
  return said.language + ": " + (said.text.empty() ? std::string(no_wording) : said.text);
}

std::vector<std::string> language_codes(const std::filesystem::path& folder) {
  std::vector<std::string> codes;
  std::error_code ec;
  for (const auto& entry : std::filesystem::directory_iterator(folder, ec))
    if (entry.path().extension() == ".yaml") codes.push_back(entry.path().stem().string());
  std::sort(codes.begin(), codes.end());
  return codes;
}

Language named_language(const std::filesystem::path& folder, std::string_view code) {
  const auto codes = language_codes(folder);
  if (std::find(codes.begin(), codes.end(), code) != codes.end())
    return Language(folder / (std::string(code) + ".yaml"));
  throw InputError("no language " + in_quotes(std::string(code)),
                   fmt::format("there are: {}; English stands on every sheet", fmt::join(codes, ", ")));
}

}  // namespace vatwright
