#include "host/book/entry.hpp"

#include "host/files/hash.hpp"
#include "host/yaml/document.hpp"
#include "units/nearest.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace vatwright::book {
namespace {

constexpr std::array kinds{kept, done, measured, signed_for, withdrawn};
constexpr std::size_t longest_text = 200, largest_payload = 16U << 20U;
constexpr std::string_view before_payload = ",\"payload\":";
constexpr char as_exported[] = "a line is one entry, as 'vatwright book export' writes it";

[[noreturn]] void no_export(const std::string& what) { throw InputError(what, as_exported); }

constexpr int deepest = 40;

Json parsed(std::string_view text) {
  int depth = 0;
  bool deep = false;
  const auto limit = [&](int now, Json::parse_event_t, Json&) {
    depth = std::max(depth, now);
    deep = deep || now > deepest;
    return !deep;
  };
  Json json = Json::parse(text.begin(), text.end(), limit, false);
  if (deep) no_export("JSON that is nested too deep");
  if (json.is_discarded() || !json.is_object()) no_export("what is no object in JSON");
  return json;
}

std::string text_of(const Json& json, const char* member) {
  if (!json.contains(member) || !json[member].is_string())
    no_export(fmt::format("an entry without a text '{}'", member));
  return json[member].get<std::string>();
}

std::string one_word(const std::string& text) { return Json(text).dump(); }

}  // namespace

std::string hash_of(const Entry& e) {
  return sha256_of(
      fmt::format("{}\n{}\n{}\n{}\n{}\n{}\n{}", e.previous, e.number, e.kind, e.at, e.entered, e.who, e.payload));
}

std::string export_line(const Entry& e) {
  return fmt::format(R"({{"entry":{},"kind":{},"at":{},"entered":{},"who":{},"previous":{},"hash":{}{}{}}})", e.number,
                     one_word(e.kind), one_word(e.at), one_word(e.entered), one_word(e.who), one_word(e.previous),
                     one_word(e.hash), before_payload, e.payload);
}

Entry entry_of(std::string_view line) {
  while (line.ends_with('\r') || line.ends_with(' ')) line.remove_suffix(1);
  // The payload is hashed as it stands, and so taken as it stands: it is last. Quotes within a text have a '\' before
  // them, so that these marks stand nowhere else before it.
  const auto at = line.find(before_payload);
  if (at == std::string_view::npos || !line.ends_with('}')) no_export("a line that is no entry");
  const Json head = parsed(std::string(line.substr(0, at)) + "}");
  const auto start = at + before_payload.size();
  Entry e;
  if (!head.contains("entry") || !head["entry"].is_number_unsigned()) no_export("an entry without a number");
  e.number = head["entry"].get<std::int64_t>();
  e.kind = text_of(head, "kind");
  e.at = text_of(head, "at");
  e.entered = text_of(head, "entered");
  e.who = text_of(head, "who");
  e.previous = text_of(head, "previous");
  e.hash = text_of(head, "hash");
  e.payload = std::string(line.substr(start, line.size() - 1 - start));
  return e;
}

Json vetted(const Entry& e) {
  if (std::find(kinds.begin(), kinds.end(), e.kind) == kinds.end())
    throw InputError("an entry of the kind " + in_quotes(e.kind.substr(0, longest_text)),
                     "a newer version of vatwright may know it");
  seconds_of(e.at);
  seconds_of(e.entered);
  check_text("who", e.who);
  if (e.payload.size() > largest_payload)
    throw InputError(fmt::format("a payload of {} bytes, the most is {}", e.payload.size(), largest_payload),
                     "no worksheet is so large");
  if (not_utf8(e.payload) != std::string::npos) no_export("a payload that is not UTF-8");
  return parsed(e.payload);
}

void check_text(std::string_view what, std::string_view text) {
  constexpr unsigned char last_control = 0x1F, del = 0x7F;
  if (text.size() > longest_text)
    throw InputError(fmt::format("'{}' has {} bytes, the most is {}", what, text.size(), longest_text),
                     "write it shorter");
  if (not_utf8(text) != std::string_view::npos)
    throw InputError(fmt::format("'{}' is not UTF-8", what), "write it in UTF-8");
  if (std::any_of(text.begin(), text.end(), [](unsigned char c) { return c <= last_control || c == del; }))
    throw InputError(fmt::format("'{}' has a line's end, a tab or another control character in it", what),
                     "write it on one line");
}

}  // namespace vatwright::book
