#include "plugins/control/chart.hpp"

#include "plugins/chemistry/statistics/chart.hpp"
#include "plugins/chemistry/statistics/samples.hpp"

#include <fmt/format.h>

#include <cmath>

namespace vatwright::control::chart {
namespace {

using statistics::Control;
using statistics::RuleSet;

std::vector<double> read_values(const Inputs& in) {
  std::vector<double> found;
  for (const Row& row : in[readings]) found.push_back(row[value].value());
  return found;
}

Control limits_of(const Inputs& in, const std::vector<double>& values) {
  const auto wanted = in.get(target), known = in.get(spread);
  if (wanted && known) return {wanted->value(), known->value()};
  const std::size_t all = values.size();
  std::size_t count = all > 2 ? all - 1 : all;
  if (const auto said = in.get(trial)) count = static_cast<std::size_t>(said->value());
  if (count > all || count < 2)
    throw InputError(fmt::format("a trial of {} readings, where {} are there", count, all),
                     "give 'target' and 'standard deviation', or more readings");
  Control found = statistics::of_singles(std::span(values).first(count));
  if (known) found.standard = known->value();
  if (wanted) found.centre = wanted->value();
  if (!(found.standard > 0))
    throw InputError("the readings of the trial are all the same",
                     "write them with one digit more, or give 'standard deviation'");
  return found;
}

// "reading 6" or its day.
std::string point_name(const Inputs& in, std::size_t i) {
  const Row& row = in[readings][i];
  if (!row.has(date)) return fmt::format("reading {}", i + 1);
  const std::chrono::year_month_day day(row[date]);
  return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(day.year()), static_cast<unsigned>(day.month()),
                     static_cast<unsigned>(day.day()));
}

void verdict(const Inputs& in, const std::vector<double>& values, const Control& control, Outcome& out) {
  const auto set = in[rule_set] == laboratory ? RuleSet::laboratory : RuleSet::shewhart;
  std::string today;
  Table table{.name = "Rules broken", .columns = {{"at"}, {"rule"}, {"so"}}, .rows = {}};
  for (const auto& broken : statistics::broken_rules(values, control, set)) {
    const bool last = broken.point + 1 == values.size();
    if (last && broken.stop) today += (today.empty() ? "" : "; ") + std::string(broken.rule);
    table.rows.push_back({point_name(in, broken.point), std::string(broken.rule),
                          std::string(!broken.stop ? "a warning"
                                      : last       ? "hold back today's results"
                                                   : "was out then")});
  }
  out.checks.push_back(
      {.name = "the laboratory is right today",
       .holds = today.empty(),
       .value = {},
       .limit = {},
       .relation = "",
       .source = std::string(in[rule_set] == laboratory ? short_rules.title : shewhart.title) + " (from memory)",
       .remedy = today.empty() ? ""
                               : "hold back the results since the last control that was right (" + today +
                                     "); find the reason, read the control anew, then the samples"});
  if (!table.rows.empty() && !in.figures_only()) out.tables.push_back(std::move(table));
}

void draw(const std::vector<double>& values, const Control& control, Outcome& out) {
  constexpr double limit = 3;
  Chart picture{.name = "control chart",
                .x = {"reading", "1", 0},
                .y = {"value", "1", 2},
                .traces = {{.name = "control sample", .dots = true, .points = {}}, {.name = "centre", .points = {}}},
                .band = std::pair{control.low(limit), control.high(limit)},
                .band_name = "within 3 s"};
  for (std::size_t i = 0; i < values.size(); ++i) {
    picture.traces[0].points.emplace_back(static_cast<double>(i + 1), values[i]);
    picture.traces[1].points.emplace_back(static_cast<double>(i + 1), control.centre);
  }
  out.charts.push_back(std::move(picture));
}

}  // namespace

Outcome run(const Inputs& in) {
  const auto values = read_values(in);
  if (values.size() < 2 && !(in.has(target) && in.has(spread)))
    throw InputError("too few readings for limits", "give 'target' and 'standard deviation', or two readings and more");
  const Control control = limits_of(in, values);
  Outcome out;
  out.result(centre, Fraction(control.centre));
  out.result(sigma, Fraction(control.standard));
  out.result(low, Fraction(control.low()));
  out.result(high, Fraction(control.high()));
  verdict(in, values, control, out);
  draw(values, control, out);
  if (in.has(unit)) out.note("all figures in " + std::string(in[unit]));
  constexpr std::size_t few = 20;
  if (!in.has(spread) && values.size() < few)
    out.note(fmt::format("limits from few readings are rough: set them anew when there are {} and more", few));
  return out;
}

}  // namespace vatwright::control::chart
