#include "plugins/pink/harvest.hpp"

#include "plugins/pink/ripening.hpp"
#include "units/parse.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace vatwright::pink::harvest {
namespace {

constexpr double seconds_of_a_day = 86400;
constexpr double days(Time time) { return time.value() / seconds_of_a_day; }
constexpr Time time_of(double day) { return coherent<Time>(day * seconds_of_a_day); }

// Days are whole ones; the last digits of a double are no part of a day.
constexpr double instant = 1e-6;

// --- in words

std::string date_of(const Vineyard& vineyard, double day) {
  const std::chrono::year_month_day on{vineyard.first + std::chrono::days(static_cast<int>(std::floor(day)))};
  return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(on.year()), static_cast<unsigned>(on.month()),
                     static_cast<unsigned>(on.day()));
}

std::string why_none(const Vineyard& vineyard, const Window& window, double end) {
  const auto& [opens, closes] = window;
  if (closes.key != nullptr && closes.day < 0) return closes.bound + " did not hold at the first reading any more";
  std::string late = opens.day > end ? fmt::format("{} is not reached by {}", opens.bound, date_of(vineyard, end))
                                     : fmt::format("{} is reached on {}", opens.bound,
                                                   date_of(vineyard, std::ceil(opens.day - instant)));
  if (closes.key == nullptr) return late;
  return fmt::format("{}, but {} holds only until {}", late, closes.bound, date_of(vineyard, closes.day));
}

// --- the window as a table, checks and results

struct Found {
  const Plot* plot;
  Window window;
};

// The whole days to pick, the same wherever the sheet names them: none before the last reading, on which it hung still.
struct PickingDays {
  double first, last;
  bool past;  // they were over before the last reading
};
PickingDays picking_days(const Found& found) {
  const auto& [opens, closes] = found.window;
  const double last = std::floor(closes.day + instant), now = std::ceil(found.plot->last - instant);
  return {std::max(std::min(std::ceil(opens.day - instant), last), now), last, last < now};
}
bool may_be_picked(const Found& found) { return found.window.there() && !picking_days(found).past; }

std::vector<Found> windows_for(const Inputs& in, const Vineyard& vineyard, const BoundsKey& style) {
  std::vector<Found> found;
  for (const auto& one : vineyard.plots) found.push_back({&one, window_of(one, in[style], days(in[look_ahead]))});
  return found;
}

void refuse_one_figure(const Inputs& in, const BoundsKey& style) {
  for (const auto& bound : in[style])
    if (bound.low && bound.high && *bound.low == *bound.high)
      throw InputError(
          fmt::format("{}: {} is one figure, which a plot has for a moment only", style.name, bound.on->name),
          "write a span, such as '190 to 208 g/L', or 'at most ...'");
}

void give_tasks(const Vineyard& vineyard, const std::vector<Found>& pink, Outcome& out) {
  for (const auto& found : pink) {
    if (!may_be_picked(found)) continue;
    const auto [first, last, past] = picking_days(found);
    const auto when = first == last ? "on " + date_of(vineyard, last)
                                    : fmt::format("from {} to {}", date_of(vineyard, first), date_of(vineyard, last));
    out.task(fmt::format("sample plot {} again, and pick it for pink {}", found.plot->name, when));
  }
}

void add_rows(const Vineyard& vineyard, const std::vector<Found>& all, std::string_view style, Table& table) {
  const auto reason = [](const Edge& edge, std::string_view none) {
    return std::string(edge.key == nullptr ? none : edge.key->name);
  };
  const auto doubt = [](const Edge& edge) -> Cell {
    return edge.key == nullptr ? Cell() : Cell(time_of(edge.half_width).value());
  };
  for (const auto& found : all) {
    const Window& window = found.window;
    const auto& [opens, closes] = window;
    const auto [first, last, past] = picking_days(found);
    const auto day = [&, over = past](double at) {
      return !window.there() ? std::string("none") : over ? std::string("over") : date_of(vineyard, at);
    };
    table.rows.push_back({found.plot->name, std::string(style), day(first), reason(opens, "open from the start"),
                          window.there() ? doubt(opens) : Cell(), day(last), reason(closes, "open to the end"),
                          window.there() ? doubt(closes) : Cell()});
  }
}

Table window_table() {
  return {.name = "days to pick",
          .columns =
              {{"plot"}, {"for"}, {"from"}, {"opened by"}, {"from ±", "d", 1}, {"to"}, {"closed by"}, {"to ±", "d", 1}},
          .rows = {}};
}

void check_windows(const Inputs& in, const Vineyard& vineyard, const std::vector<Found>& pink, Outcome& out) {
  for (const auto& found : pink) {
    const auto& [one, window] = found;
    const auto [first, last, past] = picking_days(found);
    const bool holds = may_be_picked(found);
    Check check{.name = fmt::format("plot {}: days to pick for pink", one->name),
                .holds = holds,
                .value = std::nullopt,
                .limit = std::nullopt,
                .relation = "at most",
                .source = "the fitted courses, days after the first reading",
                .remedy = {}};
    if (window.there()) {
      check.value = figure(time_of(first), "d", 0);
      check.limit = figure(time_of(last), "d", 0);
    }
    if (window.there() && past)
      check.remedy = fmt::format(
          "after {}, before the last reading, it had no longer {}: pick at once, or for another "
          "style",
          date_of(vineyard, last), window.closes.bound);
    else if (!holds)
      check.remedy = why_none(vineyard, window, one->last + days(in[look_ahead])) +
                     ": widen one of the two, or plan to correct it in the cellar";
    out.checks.push_back(std::move(check));
  }
}

void write_results(const std::vector<Found>& pink, Outcome& out) {
  std::optional<double> opens, closes;
  for (const auto& found : pink) {
    if (!may_be_picked(found)) continue;
    const auto [first, last, past] = picking_days(found);
    opens = std::min(opens.value_or(first), first);
    closes = std::min(closes.value_or(last), last);
  }
  if (!opens) return;
  out.result(opens_after, time_of(*opens));
  out.result(closes_after, time_of(*closes));
}

// --- courses

std::string figure_name(const Input& key) {
  return key.unit == key.name ? std::string(key.name) : fmt::format("{}, {}", key.name, key.unit);
}

Table course_table(const Vineyard& vineyard) {
  constexpr double week = 7;
  Table table{.name = "courses",
              .columns = {{"plot"}, {"figure"}, {"a day"}, {"last reading"}, {"a week later"}, {"a sample then, 95 %"}},
              .rows = {}};
  for (const auto& one : vineyard.plots)
    for (const auto& course : one.courses) {
      const auto& line = course.line;
      const Input* key = course.key;
      const Unit unit = parse_unit(key->unit);
      const auto shown = [&](double y, int more = 0) { return print_number(unit.number(y), decimals_of(*key) + more); };
      const double then = one.last + week;
      const double half = line.half_width_of_reading(then);
      table.rows.push_back({one.name, figure_name(*key), shown(line.slope, 1), shown(line.at(one.last)),
                            shown(line.at(then)),
                            fmt::format("{} to {}", shown(line.at(then) - half), shown(line.at(then) + half))});
    }
  return table;
}

Trace line_of(std::string name, const Course& course, double end, double side) {
  Trace trace{.name = std::move(name), .points = {}};
  constexpr int pieces = 20;
  const auto first = std::min_element(course.readings.begin(), course.readings.end())->first;
  for (int i = 0; i <= pieces; ++i) {
    const double x = first + (end - first) * i / pieces;
    trace.points.emplace_back(time_of(x).value(), course.line.at(x) + side * course.line.half_width_of_reading(x));
  }
  return trace;
}

Chart chart_of(const Inputs& in, const Vineyard& vineyard, const KeyBounds& bound) {
  Chart chart{.name = std::string(bound.on->name) + " by plot",
              .x = {"days after " + date_of(vineyard, 0), "d", 0},
              .y = {std::string(bound.on->name), bound.on->unit, decimals_of(*bound.on)},
              .traces = {},
              .band = std::nullopt,
              .band_name = ""};
  double last = 0;
  for (const auto& one : vineyard.plots) {
    const Course& course = *one.course(*bound.on);
    Trace dots{.name = one.name + ", samples", .dots = true, .points = {}};
    for (const auto& [day, value] : course.readings) dots.points.emplace_back(time_of(day).value(), value);
    const double end = one.last + days(in[look_ahead]);
    last = std::max(last, end);
    chart.traces.push_back(std::move(dots));
    chart.traces.push_back(line_of(one.name + ", course", course, end, 0));
    if (vineyard.plots.size() > 1) continue;
    chart.traces.push_back(line_of("a sample, 95 %, low", course, end, -1));
    chart.traces.push_back(line_of("a sample, 95 %, high", course, end, 1));
  }
  if (bound.low && bound.high) {
    chart.band = {*bound.low, *bound.high};
    chart.band_name = "wanted for pink";
  } else {
    const double level = bound.low ? *bound.low : *bound.high;
    chart.traces.push_back(
        {.name = bound.low ? "at least" : "at most", .points = {{0, level}, {time_of(last).value(), level}}});
  }
  return chart;
}

// --- notes

void note_red(const Inputs& in, const Vineyard& vineyard, const std::vector<Found>& pink, const std::vector<Found>& red,
              Outcome& out) {
  for (std::size_t i = 0; i < red.size(); ++i) {
    const auto& [one, window] = red[i];
    if (!window.there())
      out.note(
          fmt::format("plot {}, for red: {}", one->name, why_none(vineyard, window, one->last + days(in[look_ahead]))));
    else if (pink[i].window.there())
      out.note(fmt::format("plot {}: the window for red opens {:.0f} days after that for pink", one->name,
                           picking_days(red[i]).first - picking_days(pink[i]).first));
  }
}

void write_notes(const Vineyard& vineyard, const std::vector<Found>& pink, Outcome& out) {
  const Found* urgent = nullptr;
  for (const auto& found : pink)
    if (may_be_picked(found) && found.window.closes.key != nullptr &&
        (urgent == nullptr || found.window.closes.day < urgent->window.closes.day))
      urgent = &found;
  if (urgent != nullptr)
    out.note(fmt::format("plot {} closes first: after {} it has no longer {}", urgent->plot->name,
                         date_of(vineyard, picking_days(*urgent).last), urgent->window.closes.bound));
  for (const auto& found : pink)
    if (const double ahead = picking_days(found).first - found.plot->last; may_be_picked(found) && ahead > 0)
      out.note(fmt::format("plot {}: extrapolated by {:.0f} day{}; sample again before you call the pickers",
                           found.plot->name, ahead, ahead == 1 ? "" : "s"));
  out.note(
      "± is half of the 95 % interval of the day on which a course crosses its bound, by the scatter of the readings "
      "and by what "
      "the instruments are off at the least; rain, heat and a sample that was not of the whole plot are not in it");
}

}  // namespace

Outcome run(const Inputs& in) {
  const bool for_red = in.has(wanted_for_red);
  refuse_one_figure(in, wanted);
  if (for_red) refuse_one_figure(in, wanted_for_red);
  const Vineyard vineyard = read_vineyard(in);
  const auto pink = windows_for(in, vineyard, wanted);
  const auto red = for_red ? windows_for(in, vineyard, wanted_for_red) : std::vector<Found>{};

  Outcome out;
  write_results(pink, out);
  check_windows(in, vineyard, pink, out);
  if (in.figures_only()) return out;
  give_tasks(vineyard, pink, out);
  write_notes(vineyard, pink, out);
  note_red(in, vineyard, pink, red, out);
  Table table = window_table();
  add_rows(vineyard, pink, "pink", table);
  add_rows(vineyard, red, "red", table);
  out.tables.push_back(std::move(table));
  out.tables.push_back(course_table(vineyard));
  for (const auto& bound : in[wanted]) out.charts.push_back(chart_of(in, vineyard, bound));
  return out;
}

}  // namespace vatwright::pink::harvest
