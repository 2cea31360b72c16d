#include "units/figure.hpp"

#include <fast_float/fast_float.h>

#include <algorithm>
#include <cmath>

namespace vatwright {
namespace {

bool begins_a_figure(std::string_view text) {
  if (text.starts_with('-')) text.remove_prefix(1);
  return !text.empty() && ((text.front() >= '0' && text.front() <= '9') || text.front() == '.');
}

// "0.00e5" is, "0.01e-400" is not.
bool is_written_as_zero(std::string_view figure) {
  const auto mantissa = figure.substr(0, figure.find_first_of("eE"));
  return std::none_of(mantissa.begin(), mantissa.end(), [](char c) { return c >= '1' && c <= '9'; });
}

}  // namespace

FigureRead read_figure(std::string_view text) {
  FigureRead read;
  if (!begins_a_figure(text)) return read;
  double value = 0;
  const auto [end, error] = fast_float::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc() && error != std::errc::result_out_of_range) return read;
  read.length = static_cast<std::size_t>(end - text.data());
  // Debian's fast_float reads 1e-400 as zero and 1e400 as infinite, and calls both fine.
  read.out_of_range =
      error != std::errc() || !std::isfinite(value) || (value == 0 && !is_written_as_zero(text.substr(0, read.length)));
  if (!read.out_of_range) read.value = value;
  return read;
}

}  // namespace vatwright
