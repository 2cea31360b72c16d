#include "host/recipe/lot_name.hpp"

#include "host/files/printable.hpp"
#include "host/files/spreadsheet.hpp"
#include "units/error.hpp"
#include "units/nearest.hpp"

#include <boost/locale/utf.hpp>

#include <algorithm>
#include <array>
#include <cstdint>
#include <iterator>

namespace vatwright {
namespace {

namespace utf = boost::locale::utf;

struct Shape {
  std::uint32_t letter;
  char like;
};
// Letters of one shape with a Latin one, in order (Unicode Technical Standard 39, confusables; from memory).
constexpr std::array shapes = std::to_array<Shape>(
    {{0x391, 'a'}, {0x392, 'b'}, {0x395, 'e'}, {0x396, 'z'}, {0x397, 'h'}, {0x399, 'i'}, {0x39A, 'k'},
     {0x39C, 'm'}, {0x39D, 'n'}, {0x39F, 'o'}, {0x3A1, 'p'}, {0x3A4, 't'}, {0x3A5, 'y'}, {0x3A7, 'x'},
     {0x3B9, 'i'}, {0x3BA, 'k'}, {0x3BD, 'v'}, {0x3BF, 'o'}, {0x3C1, 'p'}, {0x405, 's'}, {0x406, 'i'},
     {0x408, 'j'}, {0x410, 'a'}, {0x412, 'b'}, {0x415, 'e'}, {0x41A, 'k'}, {0x41C, 'm'}, {0x41D, 'h'},
     {0x41E, 'o'}, {0x420, 'p'}, {0x421, 'c'}, {0x422, 't'}, {0x423, 'y'}, {0x425, 'x'}, {0x430, 'a'},
     {0x432, 'b'}, {0x435, 'e'}, {0x43A, 'k'}, {0x43C, 'm'}, {0x43D, 'h'}, {0x43E, 'o'}, {0x440, 'p'},
     {0x441, 'c'}, {0x442, 't'}, {0x443, 'y'}, {0x445, 'x'}, {0x455, 's'}, {0x456, 'i'}, {0x458, 'j'}});

constexpr std::uint32_t no_break_space = 0xA0, soft_hyphen = 0xAD, byte_order_mark = 0xFEFF;

bool within(std::uint32_t c, std::uint32_t first, std::uint32_t last) { return c >= first && c <= last; }

bool has_no_width(std::uint32_t c) {
  return c == soft_hyphen || within(c, 0x200B, 0x200D) || c == 0x2060 || c == byte_order_mark;
}

bool is_space(std::uint32_t c) {
  return c == ' ' || c == no_break_space || within(c, 0x2000, 0x200A) || c == 0x202F || c == 0x205F || c == 0x3000;
}

// Small letters for capitals, of ASCII and Latin-1, and what else has one shape with another.
std::uint32_t plain(std::uint32_t c) {
  constexpr std::uint32_t to_small = 'a' - 'A', full_width = 0xFF01 - '!';
  if (within(c, 0xFF01, 0xFF5E)) c -= full_width;
  if (within(c, 0x2010, 0x2015) || c == 0x2212) return '-';
  if (within(c, 'A', 'Z') || (within(c, 0xC0, 0xDE) && c != 0xD7)) return c + to_small;
  const auto at = std::lower_bound(shapes.begin(), shapes.end(), c,
                                   [](const Shape& shape, std::uint32_t letter) { return shape.letter < letter; });
  return at != shapes.end() && at->letter == c ? static_cast<unsigned char>(at->like) : c;
}

}  // namespace

void check_lot_name(std::string_view lot) {
  if (!is_printable(lot))
    throw InputError("a lot's name has a tab, a line's end or another control character in it",
                     "write the name on one line, with spaces");
  if (as_text(lot) != lot)
    throw InputError("a spreadsheet would run the lot's name " + in_quotes(lot) + " as a formula",
                     "begin the name with a letter or a digit, and write no ';' before a sign");
}

std::string likeness(std::string_view lot) {
  std::string out;
  for (auto at = lot.begin(); at != lot.end();) {
    const auto c = utf::utf_traits<char>::decode(at, lot.end());
    if (c == utf::illegal || c == utf::incomplete) return std::string(lot);
    if (has_no_width(c)) continue;
    if (!is_space(c))
      utf::utf_traits<char>::encode(plain(c), std::back_inserter(out));
    else if (!out.empty() && out.back() != ' ')
      out += ' ';
  }
  if (out.ends_with(' ')) out.pop_back();
  return out;
}

}  // namespace vatwright
