// Where a number lies on paper.
#pragma once

#include "host/plugin/outcome.hpp"

#include <string>
#include <utility>
#include <vector>

namespace vatwright {

// A chart in the units of its axes, with its finite points only.
struct Plotted {
  struct Line {
    const Trace* trace;
    std::vector<std::pair<double, double>> points;
  };
  std::vector<Line> lines;  // beside chart.traces, one each
  std::optional<std::pair<double, double>> band;

  bool empty() const;
};
Plotted plotted(const Chart& chart);

// Round numbers, about `wanted` of them, from the last at or below `low` to the first at or above
// `high`; a step is 1, 2 or 5 times a power of ten. `low` < `high`, both finite.
std::vector<double> round_ticks(double low, double high, int wanted);
// The same with as many decimals as their step has.
std::vector<std::string> tick_labels(const std::vector<double>& ticks);
// The most characters that one of them has.
std::size_t longest(const std::vector<double>& ticks);
// What so many characters need in the drawing, in the largest type that the style sheet sets.
constexpr double label_room(std::size_t characters) { return 12.5 * static_cast<double>(characters); }

struct AxisScale {
  double low = 0, high = 1;  // numbers
  double from = 0, to = 1;   // their places, in units of the drawing
  std::vector<double> ticks;

  double at(double number) const { return from + (number - low) / (high - low) * (to - from); }
};

// Along x: from the first number to the last, with as many ticks as have room for their labels. Along y: between round
// numbers, from zero where zero is near.
AxisScale x_scale(const Plotted& chart, double from, double to);
AxisScale y_scale(const Plotted& chart, double from, double to);

}  // namespace vatwright
