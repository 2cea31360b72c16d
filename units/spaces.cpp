#include "units/spaces.hpp"

#include <algorithm>
#include <iterator>

namespace vatwright {
namespace {

constexpr std::string_view other_spaces[] = {"\u00a0", "\u202f", "\u2009", "\u2007"};

}  // namespace

std::string_view without_outer_spaces(std::string_view text) {
  while (!text.empty() && text.front() == ' ') text.remove_prefix(1);
  while (!text.empty() && text.back() == ' ') text.remove_suffix(1);
  return text;
}

bool has_other_space(std::string_view text) {
  return std::any_of(std::begin(other_spaces), std::end(other_spaces),
                     [&](std::string_view space) { return text.find(space) != std::string_view::npos; });
}

std::string with_plain_spaces(std::string_view text) {
  std::string out(text);
  for (const auto space : other_spaces)
    for (auto at = out.find(space); at != std::string::npos; at = out.find(space, at + 1))
      out.replace(at, space.size(), " ");
  return out;
}

}  // namespace vatwright
