#include "host/recipe/thousands.hpp"

#include "host/recipe/allowed.hpp"
#include "units/error.hpp"
#include "units/nearest.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <string>

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

// How to write "2.000" or "24.125" as either.
std::string either_way(std::string_view figure) {
  std::string all(figure), few = all;
  std::erase(all, '.');
  // Any other count of decimals than three is read in one way only.
  const auto last = few.find_last_not_of('0');
  few = last + 1 == few.size() ? few + "0" : few.substr(0, few[last] == '.' ? last : last + 1);
  return fmt::format("write {} where the point is a decimal point, {} where it marks thousands", few, all);
}

}  // namespace

void refuse_doubtful_thousands(const Input& input, double coherent, std::string_view text) {
  const std::size_t length = grouped(text);
  constexpr double thousand = 1000;
  if (length == 0 || !can_be(input, thousand * coherent)) return;
  throw InputError(in_quotes(text) + " can be read in two ways", either_way(text.substr(0, length)));
}

}  // namespace vatwright
