// Elements of HTML and SVG, escaped and closed by construction.
#pragma once

#include <initializer_list>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace vatwright {

class Markup {
 public:
  // One without a name is left out: {chosen ? "checked" : "", "checked"}.
  using Attributes = std::initializer_list<std::pair<std::string_view, std::string_view>>;

  void open(std::string_view tag, Attributes attributes = {});
  void close();  // the element that was opened last
  // A number and its unit are held together.
  void text(std::string_view s);
  void element(std::string_view tag, std::string_view s, Attributes attributes = {});
  // One that holds nothing: <meta />, <path />.
  void leaf(std::string_view tag, Attributes attributes = {});
  // Text of our own that is markup already, such as the style sheet.
  void own(std::string_view s) { html_ += s; }

  // What was written. Bytes that are no UTF-8 are replaced: a lot may be named in any.
  std::string document() const;

 private:
  void start(std::string_view tag, Attributes attributes);

  std::string html_;
  std::vector<std::string> open_;
};

// Nothing is loaded from anywhere, and no script runs, whatever a recipe's words may hold.
inline constexpr std::string_view page_policy = "default-src 'none'; style-src 'unsafe-inline'; img-src data:";

// Text that a page can hold: & < > " ' escaped; control characters, and the marks that turn the
// direction of writing (they could make a dose read otherwise), replaced.
std::string escaped(std::string_view s);

// The same within the quotes of a style sheet's string.
std::string in_css(std::string_view s);

}  // namespace vatwright
