// A page of plain text: rules, headings, wrapped paragraphs, aligned rows.
#pragma once

#include "host/sheet/writers.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace vatwright {

class Page {
 public:
  explicit Page(const TextStyle& style) : style_(style) {}

  const std::string& text() const { return text_; }

  void line(std::string_view s);
  void blank() { text_ += '\n'; }
  void rule(char c);
  void heading(std::string_view s);
  // A paragraph, its lines after the first indented by `indent`.
  void wrapped(std::string_view s, std::size_t indent);
  // "  label   text", the text wrapped under itself.
  void pair(std::string_view label, std::string_view s, std::size_t width);
  // "  - text", wrapped; `width` is that of the mark as it is seen.
  void bullet(std::string_view mark, std::string_view s, std::size_t width = 0);
  // A table, its columns as wide as they need be; numbers to the right, words and the first column to the left. On a
  // page too narrow for that, words are wrapped within their column, figures stay on the first line of their row; on
  // one too narrow even then, a row becomes a list of its own.
  struct Head {
    std::string name;
    bool words = false;
  };
  void columns(const std::vector<Head>& heads, const std::vector<std::vector<std::string>>& rows);
  // Three columns: name, value, remark; on a narrow page the remark stands below.
  void row(std::string_view name, std::string_view value, std::string_view remark);

  std::string strong(std::string_view s) const;
  std::string alarm(std::string_view s) const;

 private:
  void put(std::string_view s);
  void fill(std::size_t at, std::size_t indent, std::string_view s);
  void records(const std::vector<Head>& heads, const std::vector<std::vector<std::string>>& rows);
  TextStyle style_;
  std::string text_;
};

}  // namespace vatwright
