#include "host/sheet/writers.hpp"
#include "units/parse.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

namespace vatwright {
namespace {

constexpr int computed_digits = 3;
constexpr int input_digits = 6;  // what was written, without the last bits of a conversion

std::string plain(double number) { return fmt::format("{:.{}g}", number, input_digits); }

std::string quantity(const Input& input, const Value& value) {
  if (!value.written.empty()) return value.written;
  // A default, or a figure that an earlier step predicts: known to three digits at most.
  const double number = parse_unit(input.unit).number(value.number);
  return with_unit(print_significant(number, computed_digits), input.unit);
}

std::string series(const Input& input, const Series& series) {
  const Unit x = parse_unit(input.x_unit), y = parse_unit(input.unit);
  std::string text;
  for (const auto& [at, reading] : series.points)
    text += fmt::format("{}{} {}: {} {}", text.empty() ? "" : ", ", plain(x.number(at)), input.x_unit,
                        plain(y.number(reading)), input.unit);
  if (series.path) text += fmt::format(" (path {} mm)", plain(*series.path * 1e3));
  return text;
}

std::string bounds(const std::vector<KeyBounds>& all) {
  std::string text;
  for (const auto& b : all) {
    const auto at = [&](double number) { return with_unit(plain(parse_unit(b.on->unit).number(number)), b.on->unit); };
    text += fmt::format("{}{} ", text.empty() ? "" : ", ", b.on->name);
    if (b.low && b.high)
      text += *b.low == *b.high ? at(*b.low) : at(*b.low) + " to " + at(*b.high);
    else
      text += b.low ? "at least " + at(*b.low) : "at most " + at(*b.high);
  }
  return text;
}

std::string rows(const std::vector<Row>& all) {
  std::string text;
  for (const auto& row : all) {
    std::string one = row.name;
    for (const auto& [key, value] : row.own)
      one += fmt::format("{}{} {}", one.empty() ? "" : one == row.name ? ": " : ", ", key->name, shown(*key, value));
    text += (text.empty() ? "" : "; ") + one;
  }
  return text;
}

}  // namespace

std::string shown(const Input& input, const Value& value) {
  switch (input.kind) {
    case Kind::quantity:
      return quantity(input, value);
    case Kind::choice:
    case Kind::substance:
      return value.word;
    case Kind::series:
      return series(input, value.series);
    case Kind::shares: {
      std::string text;
      for (const auto& [name, share] : value.shares)
        text += fmt::format("{}{} {} %", text.empty() ? "" : ", ", name, plain(100 * share));
      return text;
    }
    case Kind::name:
    case Kind::new_lot:
      return value.word;
    case Kind::date:
      return value.written;
    case Kind::bounds:
      return bounds(value.bounds);
    case Kind::lots:
    case Kind::rows:
      return rows(value.rows);
  }
  return {};
}

std::string shown(const Figure& figure) { return print(figure.number, figure.unit, figure.decimals); }

std::string shown_amount(const Addition& addition) {
  const Shown amount = addition.mass ? readable(*addition.mass) : readable(*addition.volume);
  return fmt::format("{:.6g} {}", amount.number, amount.unit);
}

}  // namespace vatwright
