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

std::string either_way(std::string_view figure) {
  const std::size_t length = grouped(figure);
  if (length == 0) return {};
  std::string all(figure.substr(0, length)), few = all;
  const std::string before = few.substr(0, few.find('.'));
  std::erase(all, '.');
  // Any other count of decimals than three is read in one way only.
  const auto last = few.find_last_not_of('0');
  few = last + 1 == few.size() ? few + "0" : few.substr(0, few[last] == '.' ? last : last + 1);
  return fmt::format("write {} where the point is a decimal point, {} where it marks thousands", few, all);
}

std::vector<std::string> doubtful_thousands(const std::vector<UsedInput>& inputs) {
  std::vector<std::string> notes;
  for (const auto& used : inputs)
    if (!used.from.is_fallback()) look(*used.input, used.value, notes);
  return notes;
}

}  // namespace vatwright
