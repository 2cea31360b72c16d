#include "host/page/request.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace vatwright {
namespace {

int hex_digit(char c) {
  if (c >= '0' && c <= '9') return c - '0';
  if (c >= 'a' && c <= 'f') return c - 'a' + 10;
  if (c >= 'A' && c <= 'F') return c - 'A' + 10;
  return -1;
}

std::string from_address(std::string_view text) {
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] == '+') {
      out += ' ';
    } else if (text[i] == '%' && i + 2 < text.size() && hex_digit(text[i + 1]) >= 0 && hex_digit(text[i + 2]) >= 0) {
      out += static_cast<char>(16 * hex_digit(text[i + 1]) + hex_digit(text[i + 2]));
      i += 2;
    } else {
      out += text[i];
    }
  }
  return out;
}

void read_pairs(std::string_view text, Fields& fields) {
  while (!text.empty() && fields.all().size() < most_fields) {
    const auto pair = text.substr(0, text.find('&'));
    text.remove_prefix(std::min(text.size(), pair.size() + 1));
    const auto equals = pair.find('=');
    if (pair.empty() || equals == 0) continue;
    fields.add(from_address(pair.substr(0, equals)),
               equals == std::string_view::npos ? std::string() : from_address(pair.substr(equals + 1)));
  }
}

std::string_view between(std::string_view text, std::string_view before, std::string_view after) {
  const auto at = text.find(before);
  if (at == std::string_view::npos) return {};
  text.remove_prefix(at + before.size());
  return text.substr(0, text.find(after));
}

// RFC 7578; of a file, what is in it.
void read_parts(std::string_view text, std::string_view boundary, Fields& fields) {
  const std::string line = fmt::format("--{}", boundary);
  auto at = text.find(line);
  while (at != std::string_view::npos && fields.all().size() < most_fields) {
    text.remove_prefix(at + line.size());
    const auto end = text.find("\r\n" + line);
    const auto head = text.find("\r\n\r\n");
    if (end == std::string_view::npos || head == std::string_view::npos || head > end) return;
    const auto name = between(text.substr(0, head), " name=\"", "\"");
    if (!name.empty()) fields.add(std::string(name), std::string(text.substr(head + 4, end - head - 4)));
    at = end + 2;
  }
}

}  // namespace

void Fields::set(std::string_view name, std::string text) {
  std::erase_if(all_, [&](const auto& field) { return field.first == name; });
  add(std::string(name), std::move(text));
}

std::string Fields::get(std::string_view name) const {
  for (auto field = all_.rbegin(); field != all_.rend(); ++field)
    if (field->first == name) return std::string(trimmed(field->second));
  return {};
}

bool Fields::has(std::string_view name) const {
  return std::any_of(all_.begin(), all_.end(), [&](const auto& field) { return field.first == name; });
}

bool Fields::any_under(std::string_view beginning) const {
  return std::any_of(all_.begin(), all_.end(), [&](const auto& field) { return field.first.starts_with(beginning); });
}

std::vector<std::string> Fields::each(std::string_view name) const {
  std::vector<std::string> out;
  for (const auto& [known, text] : all_)
    if (known == name) out.push_back(text);
  return out;
}

Request read_request(std::string_view method, std::string_view target, std::string_view type, std::string_view body) {
  const auto query = target.find('?');
  Request request{std::string(method), from_address(target.substr(0, query)), {}};
  if (query != std::string_view::npos) read_pairs(target.substr(query + 1), request.fields);
  if (type.starts_with("application/x-www-form-urlencoded")) read_pairs(body, request.fields);
  if (type.starts_with("multipart/form-data"))
    if (const auto boundary = between(type, "boundary=", ";"); !boundary.empty())
      read_parts(body, boundary, request.fields);
  return request;
}

std::string in_address(std::string_view text) {
  std::string out;
  for (const char c : text) {
    const bool plain =
        (c >= '0' && c <= '9') || (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '-' || c == '.' || c == '_';
    out += plain ? std::string(1, c) : fmt::format("%{:02X}", static_cast<unsigned char>(c));
  }
  return out;
}

std::string_view trimmed(std::string_view text) {
  constexpr std::string_view blanks = " \t\r\n";
  const auto first = text.find_first_not_of(blanks);
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(blanks) - first + 1);
}

}  // namespace vatwright
