#include "host/files/spreadsheet.hpp"

#include "units/figure.hpp"

#include <algorithm>
#include <array>

namespace vatwright {
namespace {

constexpr std::array<std::string_view, 8> signs{"=", "+", "-", "@", "\uFF1D", "\uFF0B", "\uFF0D", "\uFF20"};
constexpr std::string_view ends = ";\t\r\n";

bool is_number(std::string_view text) {
  const FigureRead figure = read_figure(text);
  return figure.fits() && figure.length == text.size();
}

bool is_formula(std::string_view cell) {
  return std::any_of(signs.begin(), signs.end(), [&](auto sign) { return cell.starts_with(sign); }) && !is_number(cell);
}

}  // namespace

std::string as_text(std::string_view words) {
  std::string out;
  for (std::size_t cell = 0;;) {
    // What a spreadsheet passes over before it looks for a sign.
    const auto begin = std::min(words.find_first_not_of(" \"", cell), words.size());
    const auto end = std::min(words.find_first_of(ends, begin), words.size());
    out += words.substr(cell, begin - cell);
    if (is_formula(words.substr(begin, end - begin))) out += '\'';
    out += words.substr(begin, end - begin);
    if (end == words.size()) return out;
    out += words[end];
    cell = end + 1;
  }
}

}  // namespace vatwright
