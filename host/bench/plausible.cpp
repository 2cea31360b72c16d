#include "host/bench/plausible.hpp"

#include "host/plugin/law.hpp"
#include "units/constants.hpp"
#include "units/parse.hpp"
#include "units/print.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>
#include <cmath>

namespace vatwright {
namespace {

constexpr double hair = 1e-9;
constexpr double few = 5;  // of the last figure shown: what a balance or a pH meter may be off

double last_figure(int decimals) { return std::pow(10.0, -decimals); }

std::string shown_in(const Figure& figure) {
  return print_coherent(figure.number, figure.dimension, figure.unit, figure.decimals + 3);
}

// Both in the unit of the limit, as a reader compares them.
struct Compared {
  double value, limit, step;
  double nothing_is_dosed_for = 0;  // of a target: what the rounding of an earlier dose leaves

  double slack() const { return std::max(0.51 * step + hair * std::abs(limit), nothing_is_dosed_for); }
  bool at_most() const { return value <= limit + slack(); }
  bool at_least() const { return value >= limit - slack(); }
  bool equal() const {
    constexpr double share = 0.1;
    return std::abs(value - limit) <= std::max(few * step, share * std::abs(limit)) * (1 + hair);
  }
  bool same() const { return at_most() && at_least(); }
};

bool agrees(const Check& check, const Compared& both) {
  if (check.relation == "equals") return !check.holds || both.equal();
  const bool within = is_ceiling(check.relation) ? both.at_most() : both.at_least();
  return check.holds ? within : !within || both.same();
}

// The largest that a lot may take: its own mass, if it were water, of what is weighed; many times its
// volume of what is poured, since a weak spirit or must may be added without end.
constexpr double most_poured = 100;
// Where nobody knows the volume: more than any cellar holds.
constexpr Mass most_mass = coherent<Mass>(1e7);
constexpr Volume most_volume = coherent<Volume>(1e5);

bool too_much(const Addition& addition, const std::vector<Volume>& volumes) {
  Volume largest{};
  for (const Volume& volume : volumes) largest = std::max(largest, volume);
  if (addition.mass)
    return *addition.mass > (largest > Volume{} ? largest * coherent<Density>(water_density_20) : most_mass);
  return *addition.volume > (largest > Volume{} ? largest * most_poured : most_volume);
}

bool is_dose_of(double amount, const Figure& dose, Volume volume) {
  const double dosed = amount / volume.value();
  const Unit unit = parse_unit(dose.unit);
  constexpr double share = 1e-3;
  return std::abs(unit.number(dosed) - unit.number(dose.number)) <=
         std::max(last_figure(dose.decimals), share * std::abs(unit.number(dosed)));
}

}  // namespace

std::string fault_in(const Check& check) {
  if (!check.value || !check.limit) return {};
  if (check.value->dimension != check.limit->dimension)
    return fmt::format("'{}' holds {} against {}", check.name, describe(check.value->dimension),
                       describe(check.limit->dimension));
  constexpr std::array<std::string_view, 4> relations{"at most", "at least", "below", "equals"};
  if (std::find(std::begin(relations), std::end(relations), check.relation) == std::end(relations))
    return fmt::format("'{}' holds its figures together by '{}', not by one of: {}", check.name, check.relation,
                       fmt::join(relations, ", "));
  const Unit unit = parse_unit(check.limit->unit);
  Compared both{unit.number(check.value->number), unit.number(check.limit->number),
                std::max(last_figure(check.limit->decimals), last_figure(check.value->decimals))};
  if (check.source == as_asked_for) both.nothing_is_dosed_for = std::max(few * both.step, 0.01 * std::abs(both.limit));
  if (agrees(check, both)) return {};
  const auto relation = check.relation == "equals" ? std::string_view("equal to") : check.relation;
  return fmt::format("'{}' is said {}, and {} is {}{} {}", check.name, check.holds ? "to hold" : "to fail",
                     shown_in(*check.value), check.holds ? "not " : "", relation, shown_in(*check.limit));
}

std::string fault_in(const Addition& addition, std::vector<Volume> volumes) {
  const Dimension per_volume = addition.mass ? dimension_of<MassConcentration>() : dimension_of<Fraction>();
  if (addition.dose.dimension != per_volume)
    return fmt::format("a dose of '{}' that is {}, where {} per volume is due", addition.substance,
                       describe(addition.dose.dimension), addition.mass ? "a mass" : "a volume");
  if (addition.part) volumes.push_back(*addition.part);
  std::erase_if(volumes, [](Volume volume) { return !(volume > Volume{}); });
  const Shown amount = addition.mass ? readable(*addition.mass) : readable(*addition.volume);
  const auto said = with_unit(fmt::format("{:.4g}", amount.number), amount.unit);
  if (too_much(addition, volumes))
    return fmt::format("{} of '{}', more than the lot can take", said, addition.substance);
  const double number = addition.mass ? addition.mass->value() : addition.volume->value();
  if (volumes.empty() || std::any_of(volumes.begin(), volumes.end(),
                                     [&](Volume volume) { return is_dose_of(number, addition.dose, volume); }))
    return {};
  return fmt::format("{} of '{}', which is no dose of {} in the volume of the lot", said, addition.substance,
                     shown_in(addition.dose));
}

}  // namespace vatwright
