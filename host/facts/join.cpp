#include "host/facts/join.hpp"

#include "host/facts/account.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace vatwright::facts {
namespace {

using Parts = std::span<const Part>;

bool any_has(const Input& fact, Parts parts) {
  return std::any_of(parts.begin(), parts.end(), [&](const Part& part) { return part.lot->has(fact); });
}

// Over those that have it; each for so much of `by`.
template <class Weight>
Value mean(const Input& fact, Parts parts, const Weight& weight) {
  double all = 0;
  for (const auto& part : parts) all += weight(part);
  Value mean;
  Shares named;
  for (const auto& part : parts)
    if (const Value* value = part.lot->find(fact)) {
      const double of_all = weight(part) / all;
      mean.number += of_all * value->number;
      for (const auto& [name, amount] : value->amounts) named.emplace_back(name, of_all * amount);
      for (const auto& [name, share] : value->shares) mean.shares.emplace_back(name, of_all * share);
      add_silent(value->silent, mean.silent);
    }
  mean.amounts = each_once(named);
  mean.shares = each_once(mean.shares);
  return mean;
}

constexpr auto by_volume = [](const Part& part) { return part.share; };
constexpr auto by_mass = [](const Part& part) { return part.share * part.density.value(); };

std::optional<double> height_at(double x, double path, const Input& fact, Parts parts) {
  constexpr double same = 1e-11;  // metres; readings stand at whole nanometres
  double sum = 0;
  for (const auto& part : parts) {
    const Series& series = part.lot->find(fact)->series;
    const auto at = std::find_if(series.points.begin(), series.points.end(),
                                 [&](const auto& point) { return std::abs(point.first - x) < same; });
    if (at == series.points.end()) return std::nullopt;
    sum += part.share * at->second * (series.path ? path / *series.path : 1);
  }
  return sum;
}

// Beer and Lambert: at one path the absorbances add up, wherever all lots were read.
Joined series(const Input& fact, Parts parts, double shrunk_to) {
  const Series& first = parts.front().lot->find(fact)->series;
  Value value;
  value.series.path = first.path;
  for (const auto& point : first.points)
    if (const auto sum = height_at(point.first, first.path.value_or(1), fact, parts))
      value.series.points.emplace_back(point.first, *sum * shrunk_to);
  if (value.series.points.empty()) return {{}, "there is no wavelength that all lots were read at"};
  return {std::move(value), {}};
}

Value times(Value value, double by) {
  value.number *= by;
  for (auto& [name, amount] : value.amounts) amount *= by;
  return value;
}

Joined same_word(const Input& fact, Parts parts) {
  const Value& first = *parts.front().lot->find(fact);
  const bool all = std::all_of(parts.begin(), parts.end(),
                               [&](const Part& part) { return part.lot->find(fact)->word == first.word; });
  if (!all) return {{}, "the lots differ"};
  Value value;
  value.word = first.word;
  return {std::move(value), {}};
}

// A lot that says nothing was given none, as far as anyone stated.
Joined account(const Input& fact, Parts parts) {
  Value value = mean(fact, parts, by_volume);
  for (const auto& part : parts)
    if (!part.lot->has(fact)) add_silent({part.lot->name}, value.silent);
  return {std::move(value), {}};
}

}  // namespace

Joined join(const Input& fact, Parts parts, double shrunk_to) {
  if (fact.behaves.joins == Joins::by_balance || !any_has(fact, parts)) return {};
  if (fact.behaves.joins == Joins::unknown) return {{}, "does not add up by volume: measure it"};
  if (fact.behaves.account == Account::counted) return account(fact, parts);
  if (const auto names = lacking(fact, parts); !names.empty()) return {{}, "not known of " + names};
  switch (fact.behaves.joins) {
    case Joins::by_volume:
      if (fact.kind == Kind::series) return series(fact, parts, shrunk_to);
      return {times(mean(fact, parts, by_volume), shrunk_to), {}};
    case Joins::by_mass:
      return {mean(fact, parts, by_mass), {}};
    case Joins::as_mean:
    case Joins::as_shares:
      return {mean(fact, parts, by_volume), {}};
    case Joins::same_word:
      return same_word(fact, parts);
    case Joins::unknown:
    case Joins::by_balance:
      break;
  }
  return {};
}

std::string lacking(const Input& fact, Parts parts) {
  std::string names;
  for (const auto& part : parts)
    if (!part.lot->has(fact)) names += (names.empty() ? "" : ", ") + part.lot->name;
  return names;
}

Shares each_once(const Shares& shares) {
  Shares out;
  for (const auto& [name, share] : shares) add_to(out, name, share);
  std::stable_sort(out.begin(), out.end(), [](const auto& a, const auto& b) { return a.second > b.second; });
  return out;
}

}  // namespace vatwright::facts
