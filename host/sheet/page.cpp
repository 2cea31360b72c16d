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

std::string to_right(std::string_view s, std::size_t width) {
  return std::string(width - std::min(width, seen(s)), ' ') + std::string(s);
}

// Where the first word ends: at a space, but not within "21.3 ± 2.9 mg/L" or "76 %".
std::size_t word_end(std::string_view s) {
  constexpr std::string_view spread = "±", share = "%";
  auto end = std::min(s.find(' '), s.size());
  while (end < s.size()) {
    const auto next = s.substr(end + 1);
    if (!next.starts_with(spread) && !next.starts_with(share) && !s.substr(0, end).ends_with(spread)) break;
    end = std::min(s.find(' ', end + 1), s.size());
  }
  return end;
}

std::size_t longest_word(std::string_view s) {
  std::size_t longest = 0;
  while (!s.empty()) {
    const auto end = word_end(s);
    longest = std::max(longest, seen(s.substr(0, end)));
    s.remove_prefix(std::min(end + 1, s.size()));
  }
  return longest;
}

// The lines of a cell; those after the first are indented.
std::vector<std::string> broken(std::string_view s, std::size_t width, std::size_t indent) {
  std::vector<std::string> lines{""};
  while (!s.empty()) {
    const auto word = s.substr(0, word_end(s));
    if (seen(lines.back()) > 0 && seen(lines.back()) + 1 + seen(word) > width) lines.emplace_back(indent, ' ');
    if (seen(lines.back()) > (lines.size() > 1 ? indent : 0)) lines.back() += ' ';
    lines.back() += word;
    s.remove_prefix(std::min(word.size() + 1, s.size()));
  }
  return lines;
}

constexpr std::size_t margin = 2, gap = 3, hanging = 2;  // of a table, between columns, of a name's second line

std::size_t table_width(const std::vector<std::size_t>& widths) {
  std::size_t sum = margin;
  for (const auto width : widths) sum += width + gap;
  return sum - gap;
}

// Room that is left is dealt out one by one, so that a small wish is granted before a large one. The last column,
// often a remark, is broken best: once a line of it can be read it takes what the others leave.
void widen(std::vector<std::size_t>& widths, const std::vector<std::size_t>& wanted, std::size_t room) {
  constexpr std::size_t readable = 24;
  const auto deal = [&](std::size_t first, std::size_t past, std::size_t most) {
    for (bool any = true; any;) {
      any = false;
      for (std::size_t i = first; i < past; ++i)
        if (widths[i] < std::min(wanted[i], most) && table_width(widths) < room) ++widths[i], any = true;
    }
  };
  const std::size_t last = widths.size() - 1;
  deal(last, last + 1, readable);
  deal(0, last, room);
  deal(last, last + 1, room);
}

}  // namespace

void Page::line(std::string_view s) {
  put(s);
  while (text_.ends_with(' ')) text_.pop_back();
  text_ += '\n';
}

void Page::rule(char c) { text_.append(style_.width, c) += '\n'; }

void Page::heading(std::string_view s) {
  blank();
  wrapped(strong(s), 0);
}

// What must not be parted by the end of a line is joined by these in what comes in; they are plain spaces on paper.
void Page::put(std::string_view s) {
  constexpr std::string_view joint = "\u00a0";
  for (auto at = s.find(joint); at != std::string_view::npos; at = s.find(joint)) {
    text_.append(s.substr(0, at)) += ' ';
    s.remove_prefix(at + joint.size());
  }
  text_ += s;
}

// Puts words from column `at` on; later lines begin at `indent`.
void Page::fill(std::size_t at, std::size_t indent, std::string_view s) {
  while (!s.empty()) {
    // As many words as the line has room for, and one in any case.
    std::size_t end = 0;
    for (std::size_t next = 0; next < s.size(); next = end + 1) {
      const auto word = s.substr(next, word_end(s.substr(next)));
      const auto past = at + (next == 0 ? 0 : 1) + seen(word);
      if (next != 0 && past > style_.width) break;
      at = past;
      end = next + word.size();
    }
    put(s.substr(0, end));
    s.remove_prefix(std::min(end + 1, s.size()));
    if (s.empty()) break;
    (text_ += '\n').append(indent, ' ');
    at = indent;
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
  if (heads.empty()) return;
  std::vector<std::size_t> wanted, widths;
  for (std::size_t i = 0; i < heads.size(); ++i) {
    wanted.push_back(seen(heads[i].name));
    widths.push_back(longest_word(heads[i].name) + (i == 0 ? hanging : 0));
    for (const auto& row : rows) {
      wanted[i] = std::max(wanted[i], seen(row[i]));
      widths[i] = std::max(widths[i], i == 0           ? longest_word(row[i]) + hanging
                                      : heads[i].words ? longest_word(row[i])
                                                       : seen(row[i]));
    }
    widths[i] = std::min(widths[i], wanted[i]);
  }
  if (table_width(widths) > style_.width) return records(heads, rows);
  widen(widths, wanted, style_.width);

  const auto row_of = [&](const std::vector<std::string>& cells, bool head) {
    std::vector<std::vector<std::string>> lines;
    std::size_t height = 1;
    for (std::size_t i = 0; i < cells.size(); ++i) {
      lines.push_back(i == 0 || heads[i].words || head ? broken(cells[i], widths[i], i == 0 && !head ? hanging : 0)
                                                       : std::vector<std::string>{cells[i]});
      height = std::max(height, lines[i].size());
    }
    for (std::size_t n = 0; n < height; ++n) {
      std::string text(margin, ' ');
      for (std::size_t i = 0; i < cells.size(); ++i) {
        if (i > 0) text.append(gap, ' ');
        // A heading ends just above its column.
        const std::size_t skipped = head ? height - lines[i].size() : 0;
        const std::string part = n >= skipped && n - skipped < lines[i].size() ? lines[i][n - skipped] : std::string();
        text += i == 0 || heads[i].words ? padded(part, widths[i]) : to_right(part, widths[i]);
      }
      line(text);
    }
  };
  std::vector<std::string> names;
  for (const auto& head : heads) names.push_back(head.name);
  row_of(names, true);
  for (const auto& row : rows) row_of(row, false);
}

void Page::records(const std::vector<Head>& heads, const std::vector<std::vector<std::string>>& rows) {
  for (const auto& row : rows) {
    text_.append(margin, ' ');
    fill(margin, margin + hanging, heads.front().name + (heads.front().name.empty() ? "" : ": ") + row.front());
    for (std::size_t i = 1; i < row.size(); ++i) {
      text_.append(2 * margin, ' ');
      fill(2 * margin, 2 * margin + hanging, heads[i].name + ": " + row[i]);
    }
  }
}

void Page::row(std::string_view name, std::string_view value, std::string_view remark) {
  constexpr std::size_t name_width = 26, value_width = 30, least_remark = 24, below = 6;
  const bool narrow = style_.width < margin + name_width + value_width + least_remark;
  const std::size_t indent = narrow ? below : margin + name_width;
  std::string start =
      std::string(margin, ' ') + padded(name, narrow ? std::min(name_width, style_.width / 3) : name_width);
  if (!start.ends_with(' ')) start += ' ';
  if (narrow) {
    if (seen(start) + seen(value) + gap + seen(remark) <= style_.width)
      return line(start + std::string(value) + std::string(gap, ' ') + std::string(remark));
    text_ += start;
    fill(seen(start), indent, value);
    if (remark.empty()) return;
    text_.append(indent, ' ');
    return fill(indent, indent, remark);
  }
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
