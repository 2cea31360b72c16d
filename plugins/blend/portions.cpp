#include "plugins/blend/portions.hpp"

#include "plugins/blend/keys.hpp"
#include "units/nearest.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace vatwright::blend {
namespace {

constexpr double rounding = 0.005;  // of shares written to a per cent, as elsewhere in a recipe

std::string hectolitres(Volume volume) { return print(volume, "hL", 3); }

// A volume that can be promised: never more than there is.
Volume down(Volume volume) { return std::floor(volume / litre + hair) * litre; }

std::optional<Volume> stock(const Row& lot) { return lot.get(lot::volume); }

void need_stock(const Row& lot) {
  if (!stock(lot))
    throw InputError(fmt::format("the volume of lot {} is not known", in_quotes(lot.name)),
                     "give the lot its volume, or all lots by shares without a volume");
}

Portions by_share(const std::vector<Row>& lots, std::optional<Volume> total, bool check_stock) {
  Fraction sum{};
  for (const auto& lot : lots) sum += lot[share];
  if (std::abs(sum.value() - 1) > rounding)
    throw InputError(fmt::format("the shares make {} %, expected 100 %", print_number(100 * sum.value(), 1)),
                     "correct the shares of the lots");
  Portions out{.list = {}, .drawn = total.has_value()};
  std::optional<Volume> most;
  for (const auto& lot : lots) {
    const Fraction part = lot[share] / sum;
    out.list.push_back({&lot, part * total.value_or(litre)});
    if (!total) continue;
    need_stock(lot);
    const Volume possible = *stock(lot) / part;
    most = std::min(most.value_or(possible), possible);
  }
  if (check_stock && total && *total > *most * (1 + hair))
    throw InputError(fmt::format("there is not wine enough for {} of this blend", hectolitres(*total)),
                     fmt::format("ask for less: these shares make {} at most", hectolitres(down(*most))));
  return out;
}

Portions by_volume(const std::vector<Row>& lots, bool check_stock) {
  Portions out;
  for (const auto& lot : lots) {
    need_stock(lot);
    const Volume wanted = lot.get(taken).value_or(*stock(lot));
    if (check_stock && wanted > *stock(lot) * (1 + hair))
      throw InputError(fmt::format("{} of lot {} is more than it has", hectolitres(wanted), in_quotes(lot.name)),
                       fmt::format("take less: there are {}", hectolitres(*stock(lot))));
    out.list.push_back({&lot, wanted});
  }
  return out;
}

}  // namespace

std::string pump(std::span<const Portion> portions, std::string_view where) {
  std::string all;
  for (std::size_t i = 0; i < portions.size(); ++i) {
    const Volume volume = portions[i].volume;
    const bool large = volume >= 1.0 * hectolitre;
    all += fmt::format("{}{} of lot {}",
                       i == 0                    ? ""
                       : i + 1 < portions.size() ? ", "
                                                 : " and ",
                       print(volume, large ? "hL" : "L", large ? 2 : 1), portions[i].lot->name);
  }
  return fmt::format("pump {} into {}, and mix", all, where);
}

Portions portions_of(const std::vector<Row>& lots, std::optional<Volume> total, bool check_stock) {
  const auto count = [&](const Input& key) {
    return std::count_if(lots.begin(), lots.end(), [&](const Row& lot) { return lot.has(key); });
  };
  const auto shares = count(share), volumes = count(taken), all = std::ssize(lots);
  if ((shares > 0 && volumes > 0) || (shares + volumes > 0 && shares + volumes < all))
    throw InputError("a blend takes shares of all its lots, or volumes of all",
                     "write {T7: 60 %, T8: 40 %} or {T7: 12 hL, T8: 8 hL}");
  if (shares > 0) return by_share(lots, total, check_stock);
  if (total)
    throw InputError("the volume of a blend goes with the shares of its lots",
                     "leave 'volume' out, or give each lot a share");
  return by_volume(lots, check_stock);
}

}  // namespace vatwright::blend
