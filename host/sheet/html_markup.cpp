#include "host/sheet/html_markup.hpp"

#include "host/files/printable.hpp"
#include "host/sheet/no_break.hpp"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <array>
#include <cctype>

namespace vatwright {
namespace {

constexpr std::string_view replacement = "\uFFFD";

// Of what begins with a character that is not printed; a page lays out tabs and line ends itself.
std::size_t bytes_unprinted(std::string_view s) { return s[0] == '\n' || s[0] == '\t' ? 0 : unprinted(s); }

// A line break after one of these would be read as a space.
bool within_a_line(std::string_view tag) {
  static constexpr std::array inline_tags{"a", "b", "small", "span", "strong"};
  return std::find(inline_tags.begin(), inline_tags.end(), tag) != inline_tags.end();
}

}  // namespace

std::string escaped(std::string_view s) {
  std::string out;
  out.reserve(s.size());
  for (std::size_t i = 0; i < s.size(); ++i) {
    const char c = s[i];
    if (c == '&')
      out += "&amp;";
    else if (c == '<')
      out += "&lt;";
    else if (c == '>')
      out += "&gt;";
    else if (c == '"')
      out += "&quot;";
    else if (c == '\'')
      out += "&#39;";
    else if (const auto bytes = bytes_unprinted(s.substr(i)); bytes > 0)
      out += replacement, i += bytes - 1;
    else
      out += c;
  }
  return out;
}

std::string in_css(std::string_view s) {
  std::string out;
  for (std::size_t i = 0; i < s.size(); ++i) {
    const auto c = static_cast<unsigned char>(s[i]);
    if (const auto bytes = unprinted(s.substr(i)); bytes == 1)
      out += ' ';
    else if (bytes > 1)
      out += replacement, i += bytes - 1;
    else if (c >= 0x80 || std::isalnum(c) != 0 || std::string_view(" .,:-").find(s[i]) != std::string_view::npos)
      out += s[i];
    else
      out += fmt::format("\\{:02x} ", c);
  }
  return out;
}

void Markup::start(std::string_view tag, Attributes attributes) {
  html_.append("<").append(tag);
  for (const auto& [name, value] : attributes)
    if (!name.empty()) html_.append(" ").append(name).append("=\"").append(escaped(value)).append("\"");
}

void Markup::open(std::string_view tag, Attributes attributes) {
  start(tag, attributes);
  html_ += '>';
  open_.emplace_back(tag);
}

void Markup::close() {
  html_.append("</").append(open_.back()).append(">");
  if (!within_a_line(open_.back())) html_ += '\n';
  open_.pop_back();
}

void Markup::text(std::string_view s) { html_ += escaped(held_together(s)); }

void Markup::element(std::string_view tag, std::string_view s, Attributes attributes) {
  open(tag, attributes);
  text(s);
  close();
}

void Markup::leaf(std::string_view tag, Attributes attributes) {
  start(tag, attributes);
  html_ += " />\n";
}

std::string Markup::document() const {
  using nlohmann::json;
  const auto valid = json(html_).dump(-1, ' ', false, json::error_handler_t::replace);
  return json::parse(valid).get<std::string>();
}

}  // namespace vatwright
