#include "plugins/ferment/course.hpp"

#include "plugins/chemistry/extraction.hpp"
#include "plugins/chemistry/sparkling.hpp"
#include "plugins/ferment/tank.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace vatwright::ferment::course {
namespace {

using chemistry::day;

std::string densities(Density density) { return print(density, "kg/m³", 1); }

// An ideal gas at 20 °C and the pressure of the air.
constexpr auto gas_volume = 24.06 * litre / (44.01 * gram);

constexpr std::string_view when_it_slows =
    "look at the temperature, at nitrogen and volatile acidity, and under a microscope at the yeast; rouse it, keep "
    "the "
    "temperature from falling, and have yeast for a restart at hand";

// What results are uncertain by, whatever the readings.
constexpr std::string_view of_musts = "what musts hold beside sugar, and make of it", of_heat = "sugar to heat";

std::vector<const Row*> rows_of(const Inputs& in) {
  std::vector<const Row*> rows;
  for (const auto& row : in[readings]) rows.push_back(&row);
  return rows;
}

// --- figures

void write_state(const Tank& tank, Outcome& out) {
  const Strength so_far = chemistry::alcohol_at(tank.must(), tank.sugar());
  const auto doubt = tank.doubt();
  out.result(sugar, tank.sugar(), doubt.sugar.value(), of_musts);
  out.result(ethanol, so_far, doubt.ethanol.value(), of_musts);
  out.change(lot::density, tank.density());
  out.change(lot::sugar, tank.sugar());
  out.change(lot::ethanol, so_far);
  if (const auto t = tank.temperature()) out.change(lot::temperature, *t);
  out.forget(lot::soluble_solids);  // a refractometer does not read sugar beside alcohol
}

void write_day(const Inputs& in, const Tank& tank, Outcome& out) {
  if (!tank.fit()) return;
  const MassConcentration fermented = *tank.sugar_of_a_day();
  out.result(fall, *tank.fall_of_a_day());
  out.result(sugar_a_day, fermented);
  out.result(end, tank.fit()->course.end);
  const auto volume = in.get(lot::volume);
  if (!volume) return;
  const Energy warmth = chemistry::fermentation_heat * fermented * *volume;
  constexpr double heat_doubt = lab::sugar_to_heat.standard / 100;  // %
  const Power power = warmth / day;
  out.result(heat, warmth, heat_doubt * warmth.value(), of_heat);
  out.result(cooling, power, heat_doubt * power.value(), of_heat);
  out.result(gas, Volume(chemistry::carbon_dioxide_of(fermented) * *volume * gas_volume));
}

Density nutrient_density_of(const Inputs& in, const Tank& tank) {
  return chemistry::density_at(tank.must(), tank.must().sugar * (1.0 - in[nutrient_at].value()));
}

void write_dry(const Tank& tank, Outcome& out) {
  const auto then = tank.forecast();
  if (!then) return;
  out.result(dry_after, then->dry);
  out.result(dry_uncertainty, then->uncertainty);
  out.result(earliest, then->earliest);
  out.result(latest, then->latest);
}

// --- checks

void check_course(const Tank& tank, Outcome& out) {
  const auto last = tank.departure();
  if (!last || tank.dry()) return;
  out.checks.push_back({.name = "the last reading lies on the course of those before it",
                        .holds = !last->slower(),
                        .value = figure(last->found, "kg/m³", 1),
                        .limit = figure(last->most, "kg/m³", 1),
                        .relation = "at most",
                        .source = "95 % interval of the fitted course",
                        .remedy = last->slower()
                                      ? "it slows down more than its own readings scatter: read again today; " +
                                            std::string(when_it_slows)
                                      : std::string()});
}

void check_pace(const Tank& tank, Outcome& out) {
  const auto found = tank.last_fall();
  const bool begun = tank.original() - tank.density() > 5.0 * kilogram_per_cubic_metre;
  if (!found || tank.dry() || !begun) return;
  const bool moves = *found >= stands_still;
  out.checks.push_back({.name = "the density falls in a day",
                        .holds = moves,
                        .value = figure(*found, "kg/m³", 1),
                        .limit = figure(stands_still, "kg/m³", 1),
                        .relation = "at least",
                        .source = std::string(still_source.title) + " (" + std::string(still_source.standing) + ")",
                        .remedy = moves ? std::string()
                                        : fmt::format("it has stopped with {} of sugar left: {}",
                                                      print(tank.sugar(), "g/L", 0), when_it_slows)});
}

// Sugar by density is good to 6 g/L, and the fitted end to its own interval.
void check_end(const Tank& tank, Outcome& out) {
  if (!tank.fit() || !tank.fit()->end_fitted) return;
  const auto& fit = *tank.fit();
  const Density allowed = tank.dry_density() + (chemistry::density_at(tank.must(), by_density) -
                                                chemistry::density_at(tank.must(), MassConcentration{}));
  const Density surely = fit.course.end - fit.end_uncertainty() * chemistry::coverage_95(fit.freedom);
  const bool ends_dry = surely <= allowed;
  out.checks.push_back({.name = "the course ends dry, as far as its readings tell",
                        .holds = ends_dry,
                        .value = figure(surely, "kg/m³", 1),
                        .limit = figure(allowed, "kg/m³", 1),
                        .relation = "at most",
                        .source = "lower end of the 95 % interval of the fitted end; density when dry and 6 g/L",
                        .remedy = ends_dry ? std::string()
                                           : "the course levels out with sugar left: it is about to stick; " +
                                                 std::string(when_it_slows)});
}

// --- words

void give_course_tasks(const Inputs& in, const Tank& tank, Outcome& out) {
  out.task("read density and temperature again on " + tank.day_of(tank.now() + day) + ", and fit anew");
  const Density due = nutrient_density_of(in, tank);
  if (tank.density() > due)
    out.task(fmt::format("if nutrient is given in portions: the next one at {}, when {} of the sugar is gone",
                         densities(due), print(in[nutrient_at], "%", 0)));
}

void say_forecast(const Tank& tank, Outcome& out) {
  if (tank.dry())
    out.note("the density is that of a dry wine: have the sugar measured before you call it so");
  else if (const auto then = tank.forecast())
    out.note(fmt::format("dry on {} by the course, between {} and {} (95 %)", tank.day_of(then->dry),
                         tank.day_of(std::max(then->earliest, tank.now())), tank.day_of(then->latest)));
  else if (tank.fit())
    out.note("no day of dry is given before the middle of the fermentation: until then the course tells too little");
  else
    out.note("no course is fitted: " + tank.no_fit());
}

void say_fit(const Tank& tank, Outcome& out) {
  if (!tank.fit()) return;
  const auto& fit = *tank.fit();
  out.note(fmt::format(
      "logistic course on {} readings, all counting alike, which scatter by {} about it; its end, {}, was {}",
      tank.readings().size(), densities(fit.scatter), densities(fit.course.end),
      fit.end_fitted ? "fitted, ± " + densities(fit.end_uncertainty())
                     : "held at the density when dry, which the readings do not tell yet"));
  out.note(
      "the interval is that of the readings' scatter; it holds only while temperature, yeast and nitrogen stay as "
      "they were, and a fermentation may slow down more than a logistic course does: late sugar is the last to go");
}

void say_what_it_rests_on(const Inputs& in, const Tank& tank, Outcome& out) {
  if (!tank.original_given())
    out.note("the original density was not given: the highest reading, " + densities(tank.original()) + ", was taken");
  if (!in.has(instrument))
    out.note("nothing says what read the densities: they are taken to be for 20 °C ('instrument')");
  out.note("sugar from a density is good to ± 6 g/L: measure it before you call the wine dry");
  if (in.has(lot::volume) && tank.fit())
    out.note(
        "carbon dioxide lies in low places unseen and kills: fans on before anybody goes in, and a meter. The cooling "
        "power is the mean of a day, without what the cellar warms or cools, and for the whole lot");
}

Table course_table(const Tank& tank) {
  Table table{.name = "readings",
              .columns = {{"day"}, {"density", "kg/m³", 1}, {"by the course", "kg/m³", 1}, {"sugar", "g/L", 0}},
              .rows = {}};
  for (const auto& [t, d] : tank.readings())
    table.rows.push_back({tank.day_of(t), d.value(), tank.fit() ? Cell(tank.fit()->course.at(t).value()) : Cell(),
                          tank.sugar_at(d).value()});
  return table;
}

Chart course_chart(const Tank& tank) {
  Chart chart{.name = "density of the fermentation",
              .x = {"days after " + tank.day_of(Time{}), "d", 0},
              .y = {"density at 20 °C", "kg/m³", 0},
              .traces = {{.name = "readings", .dots = true, .points = {}}},
              .band = std::nullopt,
              .band_name = ""};
  for (const auto& [t, d] : tank.readings()) chart.traces[0].points.emplace_back(t.value(), d.value());
  if (!tank.fit()) return chart;
  const auto then = tank.forecast();
  const Time last = std::max(tank.now() + 2.0 * day, then ? then->dry + day : Time{});
  Trace line{.name = "course", .points = {}};
  constexpr int pieces = 60;
  for (int i = 0; i <= pieces; ++i) {
    const Time t = last * (static_cast<double>(i) / pieces);
    line.points.emplace_back(t.value(), tank.fit()->course.at(t).value());
  }
  chart.traces.push_back(std::move(line));
  return chart;
}

}  // namespace

Outcome run(const Inputs& in) {
  const Tank tank(rows_of(in), in.get(original_density), in.get(dry_density), reckoning_of(in));
  Outcome out;
  write_state(tank, out);
  if (tank.sugar() <= in[dry_at]) lab::leave_must(in, out);
  write_day(in, tank, out);
  write_dry(tank, out);
  out.result(nutrient_density, nutrient_density_of(in, tank));
  check_course(tank, out);
  check_pace(tank, out);
  check_end(tank, out);
  if (in.has(lot::volume) && tank.fit()) out.reagents.emplace_back(reagents[0]);
  if (in.figures_only()) return out;
  give_course_tasks(in, tank, out);
  say_forecast(tank, out);
  say_fit(tank, out);
  say_what_it_rests_on(in, tank, out);
  out.tables.push_back(course_table(tank));
  out.charts.push_back(course_chart(tank));
  return out;
}

}  // namespace vatwright::ferment::course
