#include "units/no_figure.hpp"

#include "units/error.hpp"
#include "units/figure.hpp"
#include "units/nearest.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <cmath>
#include <optional>
#include <string>

namespace vatwright {
namespace {

constexpr std::string_view all_digits = "0123456789";

bool take(std::string_view& text, std::string_view mark) {
  if (!text.starts_with(mark)) return false;
  text.remove_prefix(mark.size());
  return true;
}

// A figure at the start of the text, which is then what follows it; nothing when that is no unit.
std::optional<double> take_figure(std::string_view& text) {
  while (take(text, " ")) {
  }
  const FigureRead figure = read_figure(text);
  if (!figure.fits()) return {};
  text.remove_prefix(figure.length);
  while (take(text, " ")) {
  }
  if (!text.empty() && (all_digits.find(text.front()) != std::string_view::npos || text.find_first_of("±,.-+") == 0))
    return {};
  return figure.value;
}

// Anywhere between the two, no place likelier than another: the middle, and the width over √12 (JCGM 100,
// 4.3.7, from memory).
std::string anywhere(double low, double high, std::string_view unit) {
  const std::string figure = print_coherent((low + high) / 2, (high - low) / std::sqrt(12.0), Dimension{}, "1", 0);
  return in_quotes(unit.empty() ? figure : figure + " " + std::string(unit));
}

[[noreturn]] void refuse_bound(std::string_view read, std::size_t at) {
  std::string hint = "write the figure to reckon with, or leave it out";
  std::string_view rest = read;
  if (take(rest, "<=") || take(rest, "<") || take(rest, "≤"))
    if (const auto limit = take_figure(rest); limit && *limit > 0)
      hint = "write half of it, with all that is left open: " + anywhere(0, *limit, rest) +
             " (common practice, no source), or leave it out";
  throw InputError(in_quotes(read) + " is a bound, not a figure", hint, at);
}

}  // namespace

void refuse_no_number(std::string_view text, std::size_t at) {
  const auto read = text.substr(at);
  for (const std::string_view mark : {"<", ">", "≤", "≥"})
    if (read.starts_with(mark)) refuse_bound(read, at);
  std::string hint = "write a number and its unit, such as '30 mg/L'";
  if (!read.empty() && read.find_first_of(all_digits) == std::string_view::npos)
    hint += "; leave out what was not measured, and " + std::string(below_detection);
  throw InputError("no number at the start of " + in_quotes(read), hint, at);
}

void refuse_range(double low, std::string_view rest, std::string_view text) {
  if (!take(rest, "-") && !take(rest, "–")) return;
  const auto high = take_figure(rest);
  if (!high || *high <= low) return;
  throw InputError(in_quotes(text) + " is a span, not a figure",
                   fmt::format("write its middle, with what is left open: {}; as a bound it is '{:.9g} to {:.9g}{}{}'",
                               anywhere(low, *high, rest), low, *high, rest.empty() ? "" : " ", rest));
}

}  // namespace vatwright
