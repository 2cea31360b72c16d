#include "host/sheet/writers.hpp"
#include "units/parse.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace vatwright {
namespace {

constexpr int computed_digits = 3, digits_from_a_thousand = 4;
constexpr int input_digits = 6;  // what was written, without the last bits of a conversion

// Of an account: what is known of it is not all.
std::string silence(const Value& value) {
  if (value.silent.empty()) return {};
  return fmt::format(" (and what {} {} not state)", fmt::join(value.silent, ", "),
                     value.silent.size() == 1 ? "does" : "do");
}

std::string plain(double number) { return fmt::format("{:.{}g}", number, input_digits); }

// A default, or a figure that an earlier step predicts: known to three digits at most.
int digits_of(const Input& input, const Value& value) {
  constexpr double thousand = 1000;
  return std::abs(parse_unit(input.unit).number(value.number)) >= thousand ? digits_from_a_thousand : computed_digits;
}

std::string computed(const Input& input, const Value& value, std::string_view unit) {
  return with_unit(print_significant(parse_unit(unit).number(value.number), digits_of(input, value)), unit) +
         silence(value);
}

std::string quantity(const Input& input, const Value& value) {
  if (value.written.empty()) return computed(input, value, input.unit);
  if (!value.typical) return value.written;
  const double standard = parse_unit(input.unit).spread(value.uncertainty, value.number);
  return fmt::format("{} (± {}, typical)", value.written, with_unit(print_significant(standard, 2), input.unit));
}

// The unit in which a person wrote the value; the input's own where none was written. Empty when what was written says
// too little by itself, as an acidity does that leaves its basis to the recipe.
std::string_view written_unit(const Input& input, const Value& value) {
  const auto text = unit_of(value.written);
  if (text.empty()) return input.unit;
  const Unit unit = parse_unit(text);
  return unit.dimension == input.dimension && unit.counted == input.counted ? text : std::string_view();
}

std::string series(const Input& input, const Series& series) {
  const Unit x = parse_unit(input.x_unit), y = parse_unit(input.unit);
  std::string text;
  for (std::size_t i = 0; i < series.points.size(); ++i) {
    const double reading = y.number(series.points[i].second);
    std::string uncertain;
    if (i < series.uncertainties.size() && series.uncertainties[i] > 0)
      uncertain = " ± " + print_significant(y.spread(series.uncertainties[i], series.points[i].second), 2);
    text += fmt::format("{}{} {}: {}{} {}", text.empty() ? "" : ", ", plain(x.number(series.points[i].first)),
                        input.x_unit, plain(reading), uncertain, input.unit);
  }
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
    case Kind::amounts: {
      std::string text;
      const Unit unit = parse_unit(input.unit);
      for (const auto& [name, amount] : value.amounts)
        text +=
            fmt::format("{}{} {}", text.empty() ? "" : ", ", name, with_unit(plain(unit.number(amount)), input.unit));
      return text + silence(value);
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

Figure no_finer_than_measured(Figure figure) {
  constexpr int most_figures = 4;
  if (figure.dimension != dimension_of<Mass>() && figure.dimension != dimension_of<Volume>()) return figure;
  const double number = std::abs(parse_unit(figure.unit).number(figure.number));
  if (number < 1 || !std::isfinite(number)) return figure;
  const int whole = static_cast<int>(std::floor(std::log10(number))) + 1;
  figure.decimals = std::clamp(most_figures - whole, 0, std::max(figure.decimals, 0));
  return figure;
}

std::string shown(const Figure& figure) {
  return print_coherent(figure.number, figure.dimension, figure.unit, figure.decimals);
}

BeforeAfter shown_change(const Input& input, const Value* before, const Value* after) {
  if (after != nullptr) return shown_change(input, before, *after);
  return {before == nullptr ? "not known" : shown(input, *before), "not known"};
}

BeforeAfter shown_change(const Input& input, const Value* before, const Value& after) {
  if (before == nullptr) return {"not known", shown(input, after)};
  if (input.kind != Kind::quantity || before->written.empty() || !after.written.empty())
    return {shown(input, *before), shown(input, after)};
  const auto unit = written_unit(input, *before);
  if (unit.empty()) return {computed(input, *before, input.unit), computed(input, after, input.unit)};
  return {quantity(input, *before), computed(input, after, unit)};
}

bool is_worth_showing(const ResultValue& result, const Spread& spread) {
  const double standard = parse_unit(result.info->unit).spread(spread.standard, result.number);
  return standard >= 0.5 * std::pow(10.0, -result.info->decimals - 1);
}

std::string shown(const ResultValue& result, const Spread& spread) {
  const ResultInfo& info = *result.info;
  const auto alone = [&] {
    return shown(no_finer_than_measured({info.unit, info.decimals, result.number, info.dimension}));
  };
  if (!(spread.standard > 0)) return alone();
  const Unit unit = parse_unit(info.unit);
  const double number = unit.number(result.number);
  const double standard = unit.spread(spread.standard, result.number);
  if (!is_worth_showing(result, spread)) return alone();
  const int decimals = info.decimals + (standard < 0.5 * std::pow(10.0, -info.decimals) ? 1 : 0);
  return with_unit(print_number(number, decimals) + " ± " + print_spread(standard, decimals), info.unit);
}

std::string shown_spread(const Addition& addition, double standard) {
  const Shown amount = addition.mass ? readable(*addition.mass) : readable(*addition.volume);
  const double whole = addition.mass ? addition.mass->value() : addition.volume->value();
  constexpr int digits = 2;
  return with_unit(print_significant(standard / whole * amount.number, digits), amount.unit);
}

std::string shown_chance(double probability) {
  constexpr double nearly = 0.9995;
  if (probability >= nearly) return "more than 99.9 %";
  if (probability <= 1 - nearly) return "less than 0.1 %";
  return fmt::format("{:.{}f} %", 100 * probability, probability > 0.985 || probability < 0.015 ? 1 : 0);
}

std::string shown_amount(const Addition& addition) {
  const Shown amount = addition.mass ? readable(*addition.mass) : readable(*addition.volume);
  return fmt::format("{:.6g} {}", amount.number, amount.unit);
}

}  // namespace vatwright
