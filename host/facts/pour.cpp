#include "host/facts/pour.hpp"

#include "host/facts/follow.hpp"
#include "host/plugin/lot.hpp"

#include <utility>

namespace vatwright::facts {
namespace {

// A figure that the step computed, with what stays of the value.
Value anew(const Value& known, double number) {
  Value value;
  value.number = number;
  value.silent = known.silent;
  return value;
}

Value less(const Value& known, double by) {
  Value value = anew(known, known.number * by);
  value.amounts = known.amounts;
  for (auto& [name, amount] : value.amounts) amount *= by;
  value.series.path = known.series.path;
  value.series.points = known.series.points;
  for (auto& [x, y] : value.series.points) y *= by;
  return value;
}

std::optional<Mass> mass_of(const Analysis& lot, Volume volume) {
  const auto density = lot.find(lot::density.name);
  if (density == lot.end()) return std::nullopt;
  return volume * Density::from_value(density->second.number);
}

}  // namespace

std::optional<Value> thinned(const Input& fact, const Value& known, const Analysis& lot, const Poured& poured) {
  switch (fact.behaves.thins) {
    case Thins::no:
      return known;
    case Thins::grows:
      return anew(known, poured.after.value());
    case Thins::yes:
      return less(known, poured.thinner().value());
    case Thins::buffered:
      if (poured.after <= (1 + little_poured_in) * poured.before) return known;
      return std::nullopt;
    case Thins::by_mass:
      if (const auto mass = mass_of(lot, poured.before); mass && poured.mass)
        return less(known, Fraction(*mass / (*mass + *poured.mass)).value());
      return std::nullopt;
    case Thins::to_mean_mass:
      if (!poured.mass) return std::nullopt;
      return anew(known,
                  Density((poured.before * Density::from_value(known.number) + *poured.mass) / poured.after).value());
    case Thins::unknown:
      return std::nullopt;
  }
  return std::nullopt;
}

void pour_in(const Analysis& lot, std::span<const Input* const> facts, Outcome& outcome) {
  if (!outcome.poured) return;
  for (const Input* fact : facts) {
    const auto known = lot.find(fact->name);
    if (fact->behaves.thins == Thins::no || known == lot.end() || is_settled(*fact, outcome)) continue;
    if (auto then = thinned(*fact, known->second, lot, *outcome.poured))
      outcome.changes.push_back({fact, std::move(*then)});
    else
      outcome.forget(*fact);
  }
}

}  // namespace vatwright::facts
