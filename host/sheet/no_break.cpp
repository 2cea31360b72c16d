#include "host/sheet/no_break.hpp"

#include "units/catalogue.hpp"
#include "units/spaces.hpp"

#include <algorithm>

namespace vatwright {
namespace {

constexpr std::string_view no_break_space = "\u00a0", word_joiner = "\u2060", plus_minus = "±";

// Whether the '-' at this place is one of a date: 2026-08-29.
bool in_date(std::string_view text, std::size_t hyphen) {
  constexpr std::string_view pattern = "0000-00-00";
  for (const std::size_t before : {std::size_t{4}, std::size_t{7}}) {
    if (hyphen < before) continue;
    const auto date = text.substr(hyphen - before, pattern.size());
    if (std::equal(date.begin(), date.end(), pattern.begin(), pattern.end(),
                   [](char c, char like) { return like == '0' ? is_digit(c) : c == like; }))
      return true;
  }
  return false;
}

// The length of the unit at the start of a text: "g", "mg/L", "% vol"; 0: there is none.
std::size_t unit_length(std::string_view text) {
  constexpr std::string_view ends = " ,;:()[]\n";
  const auto ended = [&](std::size_t at) { return at >= text.size() || ends.find(text[at]) != std::string_view::npos; };
  for (const auto& symbol : symbols())
    if (symbol.text.find(' ') != std::string_view::npos && text.starts_with(symbol.text) && ended(symbol.text.size()))
      return symbol.text.size();
  auto word = text.substr(0, std::min(text.find_first_of(ends), text.size()));
  if (word.ends_with('.')) word.remove_suffix(1);  // of a sentence
  auto symbol = word.substr(0, word.find('/'));
  for (const std::string_view power : {"²", "³"})
    if (symbol.ends_with(power)) symbol.remove_suffix(power.size());
  double factor = 1;
  return find_symbol(symbol, factor) != nullptr ? word.size() : 0;
}

}  // namespace

std::string held_together(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  std::size_t unit_ends = 0;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] != ' ') {
      out += text[i];
      if (text[i] == '-' && in_date(text, i)) out += word_joiner;
      continue;
    }
    const auto before = text.substr(0, i), after = text.substr(i + 1);
    if (!before.empty() && is_digit(before.back()))
      if (const auto length = unit_length(after); length > 0) unit_ends = i + 1 + length;
    const bool holds = i < unit_ends || (before.ends_with(plus_minus) && !after.empty() && is_digit(after.front()));
    out += holds ? no_break_space : " ";
  }
  return out;
}

}  // namespace vatwright
