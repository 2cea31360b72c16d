#include "host/sheet/page.hpp"

#include <algorithm>

namespace vatwright {
namespace {

// Characters as they are seen: UTF-8 continuation bytes and colour codes take no room.
std::size_t seen(std::string_view s) {
  std::size_t n = 0;
  for (std::size_t i = 0; i < s.size(); ++i) {
    if (s[i] == '\033') {
      i = std::min(s.find('m', i), s.size());
      continue;
    }
    if ((s[i] & 0xC0) != 0x80) ++n;
  }
  return n;
}

std::string padded(std::string_view s, std::size_t width) {
  std::string out(s);
  for (std::size_t n = seen(s); n < width; ++n) out += ' ';
  return out;
}

}  // namespace

void Page::line(std::string_view s) {
  text_ += s;
  while (text_.ends_with(' ')) text_.pop_back();
  text_ += '\n';
}

void Page::rule(char c) { text_.append(style_.width, c) += '\n'; }

void Page::heading(std::string_view s) { line("\n" + strong(s)); }

// Puts words from column `at` on; later lines begin at `indent`.
void Page::fill(std::size_t at, std::size_t indent, std::string_view s) {
  bool first = true;
  while (!s.empty()) {
    const auto stop = std::min(s.find(' '), s.size());
    const auto word = s.substr(0, stop);
    const auto width = seen(word);
    if (!first && at + 1 + width > style_.width) {
      text_ += "\n" + std::string(indent, ' ');
      at = indent;
      first = true;
    }
    if (!first) text_ += ' ', ++at;
    text_ += word;
    at += width;
    first = false;
    s.remove_prefix(std::min(stop + 1, s.size()));
  }
  text_ += '\n';
}

void Page::wrapped(std::string_view s, std::size_t indent) { fill(0, indent, s); }

void Page::pair(std::string_view label, std::string_view s, std::size_t width) {
  text_ += padded(label, width);
  fill(width, width, s);
}

void Page::bullet(std::string_view mark, std::string_view s, std::size_t width) {
  const std::size_t indent = 2 + (width != 0 ? width : seen(mark));
  text_ += "  " + padded(mark, indent - 2);
  fill(indent, indent, s);
}

void Page::columns(const std::vector<Head>& heads, const std::vector<std::vector<std::string>>& rows) {
  std::vector<std::size_t> widths;
  std::vector<std::string> names;
  for (const auto& head : heads) {
    names.push_back(head.name);
    widths.push_back(seen(head.name));
  }
  for (const auto& row : rows)
    for (std::size_t i = 0; i < row.size() && i < widths.size(); ++i) widths[i] = std::max(widths[i], seen(row[i]));
  constexpr std::size_t least_words = 24;  // a narrower column is not wrapped
  const auto put = [&](const std::vector<std::string>& row) {
    std::string text = "  ";
    for (std::size_t i = 0; i < row.size(); ++i) {
      if (i > 0) text += "   ";
      if (i > 0 && i + 1 == row.size() && heads[i].words && seen(text) + least_words < style_.width) {
        text_ += text;
        return fill(seen(text), seen(text), row[i]);
      }
      text +=
          i == 0 || heads[i].words ? padded(row[i], widths[i]) : std::string(widths[i] - seen(row[i]), ' ') + row[i];
    }
    line(text);
  };
  put(names);
  for (const auto& row : rows) put(row);
}

void Page::row(std::string_view name, std::string_view value, std::string_view remark) {
  constexpr std::size_t name_width = 26, value_width = 30;
  constexpr std::size_t indent = 2 + name_width;
  std::string start = "  " + padded(name, name_width);
  if (!start.ends_with(' ')) start += ' ';
  if (seen(value) >= value_width) {
    text_ += start;
    return fill(seen(start), indent, std::string(value) + (remark.empty() ? "" : " " + std::string(remark)));
  }
  start += padded(value, value_width);
  if (remark.empty()) return line(start);
  text_ += start;
  fill(seen(start), indent + value_width, remark);
}

std::string Page::strong(std::string_view s) const {
  return style_.colour ? "\033[1m" + std::string(s) + "\033[0m" : std::string(s);
}

std::string Page::alarm(std::string_view s) const {
  return style_.colour ? "\033[1;31m" + std::string(s) + "\033[0m" : std::string(s);
}

}  // namespace vatwright
