// Worksheets made by hand: all that a page may have to show, in good and in bad faith.
#pragma once

#include "host/bench/worksheet.hpp"
#include "host/plugin/lot.hpp"
#include "tests/host/house.hpp"
#include "units/constants.hpp"

#include <cmath>
#include <limits>
#include <string>

namespace vatwright::test {

inline constexpr Result<MassConcentration> made_up_result{
    {.name = "dose", .help = "made up", .unit = "mg/L", .decimals = 1}};

inline Value written(const std::string& text, double number = 1) {
  Value value;
  value.written = text;
  value.number = number;
  return value;
}

inline Addition addition_of(const std::string& substance) {
  Addition a;
  a.substance = substance;
  a.mass = coherent<Mass>(0.184);
  a.dose = figure(coherent<MassConcentration>(0.0383), "g/hL", 2);
  return a;
}

// One step that adds each of `substances`.
inline StepSheet step_adding(const TestHouse& house, const std::vector<std::string_view>& substances) {
  StepSheet step;
  step.calculation = "made.up";
  step.plugin = "made 0.0.0";
  step.help = "made up";
  step.lot = "T7";
  step.volume = "48 hL";
  for (const auto id : substances) {
    step.outcome.additions.push_back(addition_of(std::string(id)));
    step.added.push_back(house.catalogue.find(id));
  }
  step.inputs.push_back({&lot::ph, written("3.42"), {}});
  step.outcome.results.push_back({&made_up_result, 0.0221});
  step.outcome.notes.emplace_back("mix well");
  return step;
}

inline Check check_of(const std::string& name, bool holds, const std::string& remedy = {}) {
  Check check;
  check.name = name;
  check.holds = holds;
  check.remedy = remedy;
  return check;
}

inline Worksheet sheet_of(std::vector<StepSheet> steps) {
  Worksheet sheet;
  sheet.title = "Made up";
  sheet.recipe_name = "made-up.yaml";
  sheet.recipe_sha256 = std::string(64, 'a');
  sheet.steps = std::move(steps);
  return sheet;
}

template <class Function>
Trace trace_of(const std::string& name, double from, double to, Function f, int intervals = 40) {
  Trace trace{.name = name, .points = {}};
  for (int i = 0; i <= intervals; ++i) {
    const double x = from + (to - from) * i / intervals;
    trace.points.emplace_back(x, f(x));
  }
  return trace;
}

// The kinds of chart that plugins draw, with invented figures.
inline std::vector<Chart> charts_of_all_kinds() {
  const auto titration = [](double x) { return 3.3 + 5 / (1 + std::exp(-(x - 0.009) * 2000)); };
  std::vector<Chart> charts;
  charts.push_back({.name = "Titration curve",
                    .x = {"titrant", "mL", 1},
                    .y = {"pH", "pH", 2},
                    .traces = {trace_of("predicted", 0, 1.5e-5, [&](double x) { return titration(x * 1000); }),
                               {.name = "end point", .dots = true, .points = {{9e-6, 5.8}}}}});
  charts.push_back(
      {.name = "Bitartrate saturation against temperature",
       .x = {"temperature", "°C", 0},
       .y = {"saturation ratio", "1", 2},
       .traces = {trace_of("this lot", 269.15, 293.15, [](double k) { return 2.4 - 0.06 * (k - 269.15); })},
       .band = {{0, 1}},
       .band_name = "stable"});
  charts.push_back(
      {.name = "Colour against contact time",
       .x = {"contact", "h", 1},
       .y = {"absorbance at 520 nm", "1", 3},
       .traces = {trace_of("fitted course", 0, 86400, [](double t) { return 0.9 * (1 - std::exp(-t / 3e4)); }),
                  {.name = "readings", .dots = true, .points = {{7200, .19}, {14400, .35}, {28800, .56}}},
                  {.name = "press here", .dots = true, .points = {{20000, .44}}}}});
  Chart many{.name = "Courses of six plots", .x = {"day", "1", 0}, .y = {"sugar", "g/L", 0}, .traces = {}};
  for (int plot = 0; plot < 6; ++plot)
    many.traces.push_back(
        trace_of("plot " + std::to_string(plot), 0, 30, [=](double d) { return 150 + plot + 2.0 * d; }));
  charts.push_back(std::move(many));
  charts.push_back({.name = "Large figures",
                    .x = {"count", "1", 0},
                    .y = {"count of others", "1", 0},
                    .traces = {trace_of("one", 1e6, 9e6, [](double x) { return 3 * x; })}});
  return charts;
}

inline constexpr std::string_view hostile =
    "<script>alert(1)</script><img src=x onerror=alert(1)>\"'&amp; {{x}} </style></title>";

// Every word that comes from a recipe or a plugin is an attack, or too long for its place.
inline Worksheet hostile_sheet(const TestHouse& house) {
  const std::string evil(hostile), endless(300, 'W');
  StepSheet step = step_adding(house, {"potassium metabisulfite"});
  step.lot = evil + endless;
  step.volume = step.help = step.calculation = step.plugin = evil;
  step.outcome.additions[0].strength = evil;
  step.outcome.additions[0].part = 2750.0 * litre;
  step.outcome.additions[0].when = evil + endless;
  step.outcome.work = {evil, endless};
  step.measure_first = MeasureFirst{0, true, {hostile}};
  step.inputs[0].value = written(evil + endless);
  step.outcome.checks.push_back(check_of(evil + endless, false, evil));
  step.outcome.checks[0].source = evil;
  step.outcome.opinions.push_back({.name = evil,
                                   .here = figure(coherent<Mass>(1), "g", 1),
                                   .there = figure(coherent<Mass>(2), "g", 1),
                                   .matters = true,
                                   .source = evil});
  step.outcome.notes = {evil, endless};
  step.outcome.tables.push_back(
      {evil, {{evil, "", 0}, {endless, "mg/L", 1}}, {{evil, 0.1}, {endless, std::monostate()}}});
  step.outcome.swatches.push_back({evil, 240, 190, 170});
  auto chart = charts_of_all_kinds()[2];
  chart.name = chart.traces[0].name = chart.traces[1].name = evil + endless;
  step.outcome.charts.push_back(chart);
  Worksheet sheet = sheet_of({step, step});
  sheet.title = sheet.demo = sheet.recipe_name = evil + endless;
  sheet.recipe_sha256 = "\"}</style><b>";
  sheet.rules = {{evil, evil, Sum(std::string(evil))}};
  LotSheet lot{.name = evil + endless, .before = {}, .after = {}};
  lot.after["pH"] = written(evil + endless);
  sheet.lots.push_back(std::move(lot));
  return sheet;
}

}  // namespace vatwright::test
