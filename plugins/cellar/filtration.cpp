#include "plugins/cellar/filtration.hpp"

#include "plugins/chemistry/straight_line.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <vector>

namespace vatwright::cellar::filtration {
namespace {

struct Class {
  double bound;
  std::string_view name;
};
// Below the bound; the last is for all others.
constexpr std::array index_classes{Class{25, "very good"}, Class{50, "good"}, Class{100, "poor"}};
constexpr double index_that_passes = 50;
// At least the bound.
constexpr std::array volume_classes{Class{4000, "very good"}, Class{2500, "average"}, Class{1500, "poor"}};
constexpr double volume_that_passes = 2500;

std::string_view by_index(double seconds) {
  for (const auto& [bound, name] : index_classes)
    if (seconds < bound) return name;
  return "very poor";
}
std::string_view by_volume(double millilitres) {
  for (const auto& [bound, name] : volume_classes)
    if (millilitres >= bound) return name;
  return "very poor";
}

constexpr std::string_view way_out =
    "filter finer before, or settle and fine; try again before the bottling line waits";

void by_two_times(const Inputs& in, Outcome& out) {
  const Time found = in[to_400] - 2.0 * in[to_200];
  if (in[to_400] <= in[to_200])
    throw InputError("400 mL came sooner than 200 mL", "both are times since the start of one run");
  out.result(index, found);
  out.checks.push_back({.name = "clogging index",
                        .holds = found.value() < index_that_passes,
                        .value = figure(found, "s", 0),
                        .limit = figure(coherent<Time>(index_that_passes), "s", 0),
                        .relation = "at most",
                        .source = std::string(classes.title) + ", " + std::string(classes.place),
                        .remedy = std::string(way_out)});
  if (!in.figures_only()) out.note(fmt::format("clogging index: {}", by_index(found.value())));
}

// t/V over t is a line; the inverse of its slope is the volume at which the pores are shut.
Volume shut_at(const Inputs& in) {
  std::vector<std::pair<double, double>> points;
  for (const auto& row : in[readings])
    points.emplace_back(row[run_time].value(), (row[run_time] / row[run_volume]).value());
  double slope = 0;
  if (points.size() == 2) {
    slope = (points[1].second - points[0].second) / (points[1].first - points[0].first);
  } else if (const auto line = chemistry::kernel::fit_line(points)) {
    slope = line->slope;
  }
  if (!(slope > 0))
    throw InputError("the readings show no blocking: the flow does not fall",
                     "give two or more readings of one run, in order");
  return coherent<Volume>(1 / slope);
}

}  // namespace

Outcome run(const Inputs& in) {
  const bool two_times = in.has(to_200) && in.has(to_400), course = in.has(readings);
  if (!two_times && !course)
    throw InputError("neither two times nor readings are given",
                     "give 'time to 200 mL' and 'time to 400 mL', or 'readings' of volume against time");
  Outcome out;
  if (two_times) by_two_times(in, out);
  if (course) {
    const Volume most = shut_at(in) * std::max(0.0, 1 + in[pores_go_on_closing].value());
    out.result(largest, most);
    out.checks.push_back({.name = "largest volume",
                          .holds = most.value() * 1e6 >= volume_that_passes,
                          .value = figure(most, "mL", 0),
                          .limit = figure(volume_that_passes * millilitre, "mL", 0),
                          .relation = "at least",
                          .source = std::string(classes.title) + ", " + std::string(classes.place),
                          .remedy = std::string(way_out)});
    if (!in.figures_only()) out.note(fmt::format("largest volume: {}", by_volume(most.value() * 1e6)));
  }
  if (in.figures_only()) return out;
  out.note("the classes are for 0.65 µm, 25 mm and 2 bar; turbidity alone does not tell how a wine filters");
  return out;
}

}  // namespace vatwright::cellar::filtration
