#include "units/print.hpp"

#include "units/constants.hpp"
#include "units/measures.hpp"
#include "units/parse.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <stdexcept>

namespace vatwright {
namespace {

// Decimals that leave `digits` significant digits of `number`.
int decimals_for(double number, int digits) {
  if (number == 0 || !std::isfinite(number)) return digits - 1;
  return digits - 1 - static_cast<int>(std::floor(std::log10(std::abs(number))));
}

double rounded_to(double value, double step) { return std::round(value / step) * step; }

// The same once it is rounded: 9.996 to three digits is 10.0, not 10.00.
int decimals_once_rounded(double number, int digits) {
  return decimals_for(rounded_to(number, std::pow(10.0, -decimals_for(number, digits))), digits);
}

// A wrong unit is no bad input, but a fault in the program or a plugin.
Unit unit_for(const Dimension& dimension, std::string_view text) {
  try {
    const Unit unit = parse_unit(text);
    if (measures(unit, dimension)) return unit;
  } catch (const InputError&) {
    throw std::logic_error(fmt::format("'{}' is no unit to print {} in", text, describe(dimension)));
  }
  throw std::logic_error(fmt::format("{} does not go into '{}'", describe(dimension), text));
}

template <class Quantity, std::size_t N>
Shown readable_in(Quantity q, const std::array<std::pair<Quantity, std::string_view>, N>& ladder) {
  const auto* pick = &ladder.front();
  for (const auto& rung : ladder)
    // Just below 1 of the next unit still reads as 1 once it is rounded.
    if (std::abs(q.value()) >= 0.99995 * rung.first.value()) pick = &rung;
  return {q.value() / pick->first.value(), std::string(pick->second)};
}

}  // namespace

std::string with_unit(std::string number, std::string_view unit) {
  if (unit != "1" && unit != "pH") number.append(" ").append(unit);
  return number;
}

std::string print_number(double number, int decimals) {
  if (decimals < 0) {
    const double step = std::pow(10.0, -decimals);
    return print_number(rounded_to(number, step), 0);
  }
  std::string text = fmt::format("{:.{}f}", number, decimals);
  if (text.front() == '-' && text.find_first_not_of("-0.") == std::string::npos) text.erase(0, 1);
  return text;
}

std::string print_significant(double number, int digits) {
  return print_number(number, decimals_once_rounded(number, digits));
}

std::string print_spread(double standard, int decimals) {
  constexpr int most_digits = 2;
  return print_number(standard, std::min(decimals, decimals_once_rounded(standard, most_digits)));
}

std::string print_coherent(double coherent, const Dimension& dimension, std::string_view unit, int decimals) {
  return with_unit(print_number(unit_for(dimension, unit).number(coherent), decimals), unit);
}

std::string print_coherent(double coherent, double uncertainty, const Dimension& dimension, std::string_view unit,
                           int decimals) {
  const Unit u = unit_for(dimension, unit);
  if (!(uncertainty > 0)) return with_unit(print_number(u.number(coherent), decimals), unit);
  const double number = u.number(coherent);
  const double spread = u.spread(uncertainty, coherent);
  const int places = decimals_once_rounded(spread, 2);
  return with_unit(fmt::format("{} ± {}", print_number(number, places), print_number(spread, places)), unit);
}

Shown readable(Mass mass) {
  static constexpr std::array<std::pair<Mass, std::string_view>, 3> ladder{
      {{1e-3 * gram, "mg"}, {gram, "g"}, {kilogram, "kg"}}};
  return readable_in(mass, ladder);
}

Shown readable(Volume volume) {
  static constexpr std::array<std::pair<Volume, std::string_view>, 3> ladder{
      {{millilitre, "mL"}, {litre, "L"}, {10.0 * hectolitre, "hL"}}};
  Shown shown = readable_in(volume, ladder);
  if (shown.unit == "hL") shown.number = volume.value() / hectolitre.value();
  return shown;
}

Mass to_balance(Mass mass) {
  struct Step {
    double below, step;  // g
  };
  static constexpr std::array steps{Step{20, 0.01}, Step{200, 0.1}, Step{2000, 1}, Step{30000, 10}};
  const double grams = mass.value() / gram.value();
  double step = 100;
  for (const auto& s : steps) {
    if (grams >= s.below) continue;
    step = s.step;
    break;
  }
  return rounded_to(grams, step) * gram;
}

Volume to_measure(Volume volume) {
  const double millilitres = volume.value() / millilitre.value();
  if (millilitres == 0) return volume;
  return rounded_to(millilitres, std::pow(10.0, -decimals_for(millilitres, 3))) * millilitre;
}

}  // namespace vatwright
