#include "host/bench/thousands.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <string_view>

namespace vatwright {
namespace {

// How many bytes of the text are one to three digits, a point and just three more: "2.000" in
// "2.000 L". Nobody groups a number that begins with 0. Nothing: 0.
std::size_t grouped(std::string_view text) {
  const auto digits_from = [&](std::size_t at) {
    return std::min(text.find_first_not_of("0123456789", at), text.size()) - at;
  };
  const std::size_t point = digits_from(0);
  if (point < 1 || point > 3 || text[0] == '0' || text.substr(point, 1) != ".") return 0;
  return digits_from(point + 1) == 3 ? point + 4 : 0;
}

void look(const Input& input, const Value& value, std::vector<std::string>& notes) {
  for (const auto& row : value.rows)
    for (const auto& [key, own] : row.own) look(*key, own, notes);
  if (input.kind != Kind::quantity || input.dimension != dimension_of<Volume>()) return;
  const std::size_t length = grouped(value.written);
  if (length == 0) return;
  const std::string number = value.written.substr(0, length), rest = value.written.substr(length);
  std::string all = number;
  std::erase(all, '.');
  notes.push_back(fmt::format("{} is read as {:g}{}; if {}{} was meant, write {}{}", value.written, std::stod(number),
                              rest, all, rest, all, rest));
}

}  // namespace

bool may_be_grouped(std::string_view text) { return grouped(text) > 0; }

std::vector<std::string> doubtful_thousands(const std::vector<UsedInput>& inputs) {
  std::vector<std::string> notes;
  for (const auto& used : inputs)
    if (used.from != "default") look(*used.input, used.value, notes);
  return notes;
}

}  // namespace vatwright
