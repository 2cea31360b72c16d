#include "plugins/pink/press_cut.hpp"

#include "units/print.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace vatwright::pink::press {
namespace {

using Course = std::vector<std::pair<double, double>>;  // juice, reading; coherent

// The readings of one kind, by rising volume.
template <class Quantity>
Course course_of(const std::vector<Row>& rows, const Key<Quantity>& key) {
  Course course;
  for (const auto& row : rows)
    if (const auto value = row.get(key)) course.emplace_back(row[juice_so_far].value(), value->value());
  for (std::size_t i = 1; i < course.size(); ++i)
    if (!(course[i].first > course[i - 1].first))
      throw InputError(
          fmt::format("readings: {} comes after {} of juice", print(coherent<Volume>(course[i].first), "L", 0),
                      print(coherent<Volume>(course[i - 1].first), "L", 0)),
          "write them in the order of the press; 'juice' is all that has run off so far");
  if (course.size() < 2)
    throw InputError(fmt::format("readings: {} of {}, expected two or more", course.size(), key.name),
                     "read again: the rise is counted from the first one");
  return course;
}

// A reading that stands on the level is there, whatever arithmetic makes of the sum of start and rise.
std::optional<double> first_above(const Course& course, double level) {
  constexpr double hair = 1e-9;
  for (std::size_t i = 1; i < course.size(); ++i) {
    const auto& [x0, y0] = course[i - 1];
    const auto& [x1, y1] = course[i];
    if (y1 < level * (1 - hair)) continue;
    return std::min(x1, x0 + (x1 - x0) * (level - y0) / (y1 - y0));
  }
  return std::nullopt;
}

Chart chart_of(const Course& course, double level, std::string name, Axis y) {
  const Axis x{"juice that has run off", "L", 0};
  return {.name = std::move(name),
          .x = x,
          .y = std::move(y),
          .traces = {{.name = "readings", .dots = true, .points = course},
                     {.name = "between readings", .points = course},
                     {.name = "cut", .points = {{course.front().first, level}, {course.back().first, level}}}},
          .band = std::nullopt,
          .band_name = ""};
}

template <class Quantity>
std::optional<double> cut_by(const Inputs& in, const Course& course, double level, const Axis& axis, Outcome& out) {
  const auto cut = first_above(course, level);
  if (in.figures_only()) return cut;
  const auto shown = [&](double y) { return print(coherent<Quantity>(y), axis.unit, axis.decimals); };
  if (cut)
    out.note(
        fmt::format("{} passes {} after {} of juice", axis.name, shown(level), print(coherent<Volume>(*cut), "L", 0)));
  else
    out.note(fmt::format("{} is at {} by the last reading, below the cut at {}: no cut yet", axis.name,
                         shown(course.back().second), shown(level)));
  out.charts.push_back(chart_of(course, level, axis.name + " at the press", axis));
  return cut;
}

}  // namespace

std::optional<Volume> find_cut(const Inputs& in, Outcome& out) {
  const auto ph_rise = in.get(cut_at_ph_rise);
  const auto conductivity_rise = in.get(cut_at_conductivity_rise);
  if (in.has(readings) != (ph_rise || conductivity_rise))
    throw InputError(in.has(readings) ? "readings are given, but not where to cut" : "a cut is given without readings",
                     in.has(readings) ? "add 'cut at pH rise' or 'cut at conductivity rise'"
                                      : "add 'readings': juice that has run off, and its pH or conductivity");
  std::optional<double> cut;
  const auto earlier = [&cut](std::optional<double> other) {
    if (other) cut = cut ? std::min(*cut, *other) : *other;
  };
  if (ph_rise) {
    const auto course = course_of(in[readings], lot::ph);
    earlier(cut_by<Ph>(in, course, course.front().second + ph_rise->value(), {"pH", "pH", 2}, out));
  }
  if (conductivity_rise) {
    const auto course = course_of(in[readings], lot::conductivity);
    earlier(cut_by<Conductivity>(in, course, course.front().second * (1 + conductivity_rise->value()),
                                 {"conductivity", "µS/cm", 0}, out));
  }
  if (cut) return coherent<Volume>(*cut);
  return std::nullopt;
}

}  // namespace vatwright::pink::press
