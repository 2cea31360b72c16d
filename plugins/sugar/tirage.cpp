#include "plugins/sugar/tirage.hpp"

#include "plugins/sugar/enrichment.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <cmath>
#include <utility>

namespace vatwright::sugar::tirage {
namespace {

using chemistry::bar;
using chemistry::SweetMust;

// What a rule of 11 °C leaves out at 20 °C, and a little more (derived from the solubility).
constexpr Pressure usual_off_of_pressure = 1.5 * bar;
constexpr double slack = 1e-9;  // figures this near are equal

std::string bars(Pressure pressure) { return print(pressure, "bar", 1); }

bool is_of_tirage(std::string_view substance) { return substance == of_sucrose || substance == of_concentrate; }

// The rule is one of cool cellars, and is read as if it held anywhere.
void compare(const SweetMust& then, Pressure at_20, Outcome& out) {
  const MassConcentration for_a_bar = 4.0 * gram_per_litre;
  const Pressure rule = then.sugar / chemistry::sucrose_sweetener().hexose / for_a_bar * bar;
  out.opinions.push_back({.name = "overpressure by the rule of 4 g/L of sucrose for 1 bar, which is one of 11 °C",
                          .here = figure(at_20, "bar", 1),
                          .there = figure(rule, "bar", 1),
                          .matters = at_20 - rule > usual_off_of_pressure,
                          .source = "The Oxford Companion to Wine: 24 g/L for 5 to 6 atmospheres"});
}

}  // namespace

bool is_meant(const Inputs& in) {
  if (in.get(lot::wine_class) != "sparkling") return false;
  return in.has(lot::stage) ? in[lot::stage] == stage_wine : has_alcohol(in);
}

void require(const Inputs& in) {
  if (!is_meant(in)) {
    const auto hint = "say 'class: sparkling' and 'stage: wine' for a second fermentation, or leave it out";
    if (in.has(rated))
      throw InputError(
          "a rated pressure was given, but the lot is not said to be a cuvée before its second fermentation", hint);
    if (is_of_tirage(in[enrichment::substance].id))
      throw InputError("tirage liqueur is for sparkling wine, which the lot is not said to be", hint);
    return;
  }
  if (!in.has(lot::ethanol))
    throw InputError("the alcohol of the cuvée is not stated, and the target counts it", "give its 'ethanol'");
  if (!in.has(lot::sugar))
    throw InputError(
        "the sugar that is left in the cuvée is not stated, and makes pressure in the bottle with what is added",
        "have it measured by analysis, not by refractometer or density, and give it as 'sugar'");
}

Bottles::Bottles(const Inputs& in, chemistry::YieldFactor factor)
    : rated_(in.get(rated).value_or(guard)), stated_(in.has(rated)), factor_(factor) {}

// The wine is dry by then.
Pressure Bottles::pressure(const SweetMust& then) const {
  return chemistry::overpressure(chemistry::carbon_dioxide_of(then.sugar), chemistry::total_strength(then, factor_),
                                 MassConcentration{});
}

bool Bottles::stand(const SweetMust& then) const { return pressure(then) <= rated_ * (1 + slack); }

void Bottles::write(const SweetMust& then, Outcome& out) const {
  out.result(carbon_dioxide, chemistry::carbon_dioxide_of(then.sugar));
  out.result(overpressure, pressure(then));
}

void Bottles::hold(const SweetMust& then, std::string remedy, Outcome& out) const {
  const bool holds = stand(then);
  out.checks.push_back({.name = std::string(overpressure.name),
                        .holds = holds,
                        .value = figure(pressure(then), "bar", 1),
                        .limit = figure(rated_, "bar", 1),
                        .relation = "at most",
                        .source = stated_ ? "rated pressure of the bottles, as given"
                                          : fmt::format("{}; {}", usual_bottle.title, usual_bottle.standing),
                        .remedy = holds ? std::string() : std::move(remedy)});
}

void Bottles::ask_for(const SweetMust& then, Outcome& out) const {
  const Pressure up = std::ceil(pressure(then) / bar * 10 - slack) / 10 * bar;
  out.task(
      fmt::format("have bottles and closures that their makers rate for {} or more at 20 °C, all undamaged", bars(up)));
}

void Bottles::tabulate(const SweetMust& then, Outcome& out) const {
  Table table{"overpressure in the bottle", {{"temperature", "°C", 0}, {"overpressure", "bar", 1}}, {}};
  for (const double degrees : {10.0, 12.0, 15.0, 20.0, 25.0, 30.0})
    table.rows.push_back(
        {celsius(degrees).value(), chemistry::overpressure_at(celsius(degrees), pressure(then)).value()});
  out.tables.push_back(std::move(table));
}

void Bottles::say(const Inputs& in, const SweetMust& now, const SweetMust& then, Outcome& out) const {
  const Pressure at_20 = pressure(then);
  out.note(
      fmt::format("the pressure is that of all {} of sugar, {} of it left in the cuvée by what was stated: {} of "
                  "it is taken to become alcohol and carbon dioxide, and none of the gas to be lost. What "
                  "carbon dioxide the cuvée holds already comes on top",
                  print(then.sugar, "g/L", 1), print(now.sugar * (now.volume / then.volume), "g/L", 1),
                  print(chemistry::share_to_gas, "%", 0)));
  if (!stated_)
    out.note(
        fmt::format("the 'rated pressure' of the bottles was not given: {} was taken. Ask the maker of the "
                    "bottles and that of the closures, and give the lower figure",
                    bars(rated_)));
  if (const auto least = in[least_pressure]; least && !least->met_by(at_20))
    out.note(fmt::format("{} is less than sparkling wine must have, {} ({}: {})", bars(at_20), bars(least->value),
                         least->row.rules, least->row.source));
  compare(then, at_20, out);
}

}  // namespace vatwright::sugar::tirage
