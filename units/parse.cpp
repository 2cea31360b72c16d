#include "units/parse.hpp"

#include "units/figure.hpp"
#include "units/nearest.hpp"
#include "units/no_figure.hpp"
#include "units/spaces.hpp"
#include "units/unit_text.hpp"

#include <cmath>
#include <string>

namespace vatwright {
namespace {

// Reads a text from left to right and knows where it stands, for the column of an error.
class Reader {
 public:
  explicit Reader(std::string_view text, std::size_t at = 0) : text_(text), at_(at) {}

  bool take(std::string_view word) {
    skip();
    if (!text_.substr(at_).starts_with(word)) return false;
    at_ += word.size();
    return true;
  }

  double number() {
    skip();
    const std::size_t start = at_;
    const bool plus = take("+");
    const bool minus = !plus && take("−");
    const auto tail = text_.substr(at_);
    const bool two_signs = (plus || minus) && tail.starts_with('-');
    const FigureRead figure = two_signs ? FigureRead{} : read_figure(tail);
    if (figure.out_of_range)
      throw InputError("the number in " + in_quotes(text_) + " is too large or too small", "check the figure", start);
    if (figure.length == 0) refuse_no_number(text_, start);
    at_ += figure.length;
    if (at_ + 1 < text_.size() && text_[at_] == ',' && is_digit(text_[at_ + 1]))
      throw InputError("a decimal comma in " + in_quotes(text_),
                       "write a decimal point, as in 48.5, and thousands without a mark, as in 1000", at_);
    return minus ? -figure.value : figure.value;
  }

  std::string_view rest() {
    skip();
    return text_.substr(at_);
  }
  std::size_t at() {
    skip();
    return at_;
  }

 private:
  void skip() {
    while (at_ < text_.size() && text_[at_] == ' ') ++at_;
  }
  std::string_view text_;
  std::size_t at_ = 0;
};

bool take_coverage(Reader& in, double& k) {
  if (!in.take("(k")) return false;
  const std::size_t at = in.at();
  if (!in.take("="))
    throw InputError("expected '(k=2)' for an expanded uncertainty", "write such as '14 ± 4 (k=2) mg/L'", at);
  k = in.number();
  if (!in.take(")") || !(k > 0))
    throw InputError("expected '(k=2)' for an expanded uncertainty", "write such as '14 ± 4 (k=2) mg/L'", at);
  return true;
}

// A quantity's text, taken apart: number, standard uncertainty in the same unit, unit.
struct Parts {
  double number = 0, spread = 0;
  std::string_view unit{};
  std::size_t unit_at = 0;
};

Parts parts_of(std::string_view text) {
  if (text.size() > longest_quantity)
    throw InputError("a text of " + std::to_string(text.size()) + " bytes where a quantity is due",
                     "write a number and its unit, such as '30 mg/L'");
  Parts parts;
  Reader in(text);
  parts.number = in.number();
  refuse_range(parts.number, in.rest(), text);
  double k = 1;
  bool expanded = false;
  if (in.take("±") || in.take("+-") || in.take("+/-")) {
    const std::size_t at = in.at();
    parts.spread = in.number();
    if (!(parts.spread > 0))
      throw InputError("an uncertainty that is not above zero", "leave it out if it is not known", at);
    expanded = take_coverage(in, k);
  }
  parts.unit = without_outer_spaces(in.rest());
  parts.unit_at = static_cast<std::size_t>(parts.unit.data() - text.data());
  if (parts.spread > 0 && !expanded) {
    if (const auto bracket = parts.unit.find("(k"); bracket != std::string_view::npos) {
      Reader tail(text, parts.unit_at + bracket);
      take_coverage(tail, k);
      if (!tail.rest().empty())
        throw InputError("unexpected " + in_quotes(tail.rest()) + " after the uncertainty",
                         "write such as '14 ± 4 (k=2) mg/L'", tail.at());
      parts.unit = without_outer_spaces(parts.unit.substr(0, bracket));
    }
  }
  parts.spread /= k;
  return parts;
}

}  // namespace

Unit parse_unit(std::string_view text) {
  if (has_other_space(text)) return parse_unit(with_plain_spaces(text));
  return read_unit(without_outer_spaces(text), 0);
}

std::string_view unit_of(std::string_view quantity) {
  if (!has_other_space(quantity)) return parts_of(quantity).unit;
  // The unit is what the text ends with, in either spelling of the spaces.
  const std::string plain = with_plain_spaces(quantity);
  const std::string unit(parts_of(plain).unit);
  for (std::size_t from = quantity.size(); from > 0; --from)
    if (without_outer_spaces(with_plain_spaces(quantity.substr(from - 1))) == unit && quantity[from - 1] != ' ' &&
        (quantity[from - 1] & 0xC0) != 0x80)
      return quantity.substr(from - 1);
  return {};
}

Measured parse(std::string_view text) {
  if (has_other_space(text)) return parse(with_plain_spaces(text));
  const auto [number, spread, unit_text, unit_at] = parts_of(text);
  // "12 100 L" is a slip for 12100 L, not twelve times 100 L.
  if (!unit_text.empty() && is_digit(unit_text.front())) unknown_unit(unit_text, unit_at);
  Measured m;
  m.bare = unit_text.empty();
  const Unit unit = m.bare ? Unit{} : read_unit(unit_text, unit_at);
  m.value = unit.coherent(number);
  m.uncertainty = spread * std::abs(unit.slope(number));
  m.dimension = unit.dimension;
  m.counted = unit.counted;
  m.interval = unit.scale == Scale::linear ? number * unit.factor : 0;
  if (!std::isfinite(m.value) || !std::isfinite(m.uncertainty))
    throw InputError("the number in " + in_quotes(text) + " is too large", "check the figure");
  return m;
}

}  // namespace vatwright
