#include "host/recipe/allowed.hpp"

#include "host/recipe/thousands.hpp"
#include "units/error.hpp"
#include "units/nearest.hpp"
#include "units/parse.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace vatwright {

std::string choices_of(const Input& input) {
  std::string out;
  for (const auto choice : input.choices) out += (out.empty() ? "one of: " : ", ") + std::string(choice);
  return out;
}

bool can_be(const Input& input, double coherent) {
  if (!input.valid) return true;
  const double number = parse_unit(input.unit).number(coherent);
  const auto [low, high] = *input.valid;
  // Of the bound itself, so that a wide range does not swallow its own low end; and of the last bits
  // of the largest figure, for a bound of zero on a scale with another zero.
  const double last_bits = 1e-13 * std::max(std::abs(low), std::abs(high));
  const auto slack = [&](double bound) { return 1e-9 * std::abs(bound) + last_bits; };
  return number >= low - slack(low) && number <= high + slack(high);
}

std::string range_of(const Input& input) {
  constexpr auto in_full = "{:.9g}";  // 10000000, not 1e+07
  return fmt::format(in_full, input.valid->low) + " to " +
         with_unit(fmt::format(in_full, input.valid->high), input.unit);
}

void refuse_out_of_range(const Input& input, double coherent, std::string_view text) {
  if (can_be(input, coherent)) return refuse_doubtful_thousands(input, coherent, text);
  throw InputError(fmt::format("'{}' is outside what can be: {}", text, range_of(input)),
                   "check the figure and its unit");
}

Input first_column(const Input& series) {
  Input input;
  input.name = series.name;
  input.unit = series.x_unit;
  input.valid = series.x_valid;
  input.kind = Kind::quantity;
  input.dimension = series.x_dimension;
  return input;
}

void refuse_unknown_word(const Input& input, const std::string& word) {
  if (std::find(input.choices.begin(), input.choices.end(), word) != input.choices.end()) return;
  const auto close = nearest(word, input.choices);
  // A substance may be one that another calculation doses, as its help says: no slip of the pen.
  const std::string what = input.kind == Kind::substance ? std::string(input.help) + "; " : std::string();
  throw InputError("'" + word + "' is not known here",
                   what + (close.empty() ? "" : "the nearest is '" + std::string(close) + "'; ") + choices_of(input));
}

}  // namespace vatwright
