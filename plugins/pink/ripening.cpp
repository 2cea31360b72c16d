#include "plugins/pink/ripening.hpp"

#include "units/parse.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

namespace vatwright::pink::harvest {
namespace {

using chemistry::kernel::least_readings_of_line;

Plot& plot_named(std::vector<Plot>& plots, std::string_view name) {
  for (auto& one : plots)
    if (one.name == name) return one;
  plots.push_back({.name = std::string(name), .courses = {}, .last = 0});
  return plots.back();
}

std::chrono::sys_days first_day(const std::vector<Row>& rows) {
  auto first = rows.front()[date];
  for (const auto& row : rows) first = std::min(first, row[date]);
  return first;
}

std::size_t days_of(const Course& course) {
  std::set<double> days;
  for (const auto& [day, value] : course.readings) days.insert(day);
  return days.size();
}

// As a difference, coherent.
double resolution_of(const Input& key) {
  for (const auto& one : resolutions)
    if (one.of == &key) {
      const Unit unit = parse_unit(one.unit);
      return std::abs(unit.coherent(one.standard) - unit.coherent(0));
    }
  return 0;
}

// A figure with fewer days than a course takes is left out here; one that is bound is missed later.
void fit_courses(Plot& one) {
  std::erase_if(one.courses, [](const Course& c) { return days_of(c) < least_readings_of_line; });
  for (auto& course : one.courses)
    course.line = chemistry::kernel::fit_line(course.readings, resolution_of(*course.key)).value();
}

void enter(const Row& row, double day, Plot& one) {
  one.last = std::max(one.last, day);
  for (const auto& need : ripening) {
    const Value* value = row.find(*need.input);
    if (value == nullptr) continue;
    const auto at =
        std::find_if(one.courses.begin(), one.courses.end(), [&](const Course& c) { return c.key == need.input; });
    auto& course = at == one.courses.end() ? one.courses.emplace_back(Course{need.input, {}, {}}) : *at;
    course.readings.emplace_back(day, value->number);
  }
}

const Course& bound_course(const Plot& one, const Input& key) {
  if (const Course* course = one.course(key)) return *course;
  throw InputError(fmt::format("plot '{}' has readings of {} on fewer than three days", one.name, key.name),
                   "a course takes three: two days tell nothing of the scatter; sample again, or leave that bound out");
}

// One bound either opens or closes the window, by the way its course runs.
void apply(const Course& course, double level, bool at_least, Window& window) {
  const auto& line = course.line;
  const bool opening = (line.slope > 0) == at_least;
  const auto edge = [&](double day, double half_width) {
    return Edge{
        .day = day,
        .half_width = half_width,
        .key = course.key,
        .bound = fmt::format("{} {} {}", course.key->name, at_least ? "at least" : "at most",
                             print_coherent(level, course.key->dimension, course.key->unit, decimals_of(*course.key)))};
  };
  if (line.slope == 0) {
    const bool holds = at_least ? line.start >= level : line.start <= level;
    if (!holds) window.closes = edge(-1, 0);  // it never will: closed before the first reading
    return;
  }
  const double day = (level - line.start) / line.slope;
  Edge& side = opening ? window.opens : window.closes;
  if (opening ? day > side.day : day < side.day) side = edge(day, line.half_width(day) / std::abs(line.slope));
}

}  // namespace

const Course* Plot::course(const Input& key) const {
  for (const auto& one : courses)
    if (one.key == &key) return &one;
  return nullptr;
}

Vineyard read_vineyard(const Inputs& in) {
  const auto& rows = in[readings];
  Vineyard vineyard{first_day(rows), {}};
  for (const auto& row : rows)
    enter(row, static_cast<double>((row[date] - vineyard.first).count()), plot_named(vineyard.plots, row[plot]));
  for (auto& one : vineyard.plots) fit_courses(one);
  return vineyard;
}

Window window_of(const Plot& one, const std::vector<KeyBounds>& bounds, double ahead) {
  Window window;
  window.closes.day = one.last + ahead;
  for (const auto& bound : bounds) {
    const Course& course = bound_course(one, *bound.on);
    if (bound.low) apply(course, *bound.low, true, window);
    if (bound.high) apply(course, *bound.high, false, window);
  }
  return window;
}

int decimals_of(const Input& key) { return &key == &lot::ph ? 2 : &key == &lot::sugar ? 0 : 1; }

}  // namespace vatwright::pink::harvest
