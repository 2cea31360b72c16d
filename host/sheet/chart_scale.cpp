#include "host/sheet/chart_scale.hpp"

#include "units/parse.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

namespace vatwright {
namespace {

constexpr int x_ticks = 7, y_ticks = 6;
// Further apart no picture helps, and sums lose their last digit.
constexpr double largest = 1e12;

struct Span {
  double low = std::numeric_limits<double>::max(), high = std::numeric_limits<double>::lowest();

  void take(double number) {
    low = std::min(low, number);
    high = std::max(high, number);
  }
  // A span of one number, or of no width that can be told, is given some.
  Span widened() const {
    const double least = std::max(1e-9 * std::max(std::abs(low), std::abs(high)), 1e-12);
    if (high - low > least) return *this;
    const double half = low == 0 ? 1 : 0.1 * std::abs(low);
    return {low - half, high + half};
  }
};

double round_step(double span, int wanted) {
  const double raw = span / wanted;
  const double power = std::pow(10.0, std::floor(std::log10(raw)));
  const double lead = raw / power;
  return power * (lead < 1.5 ? 1 : lead < 3.5 ? 2 : lead < 7.5 ? 5 : 10);
}

std::vector<double> ticks_within(double low, double high, int wanted) {
  const double hair = 1e-9 * (high - low);
  std::vector<double> ticks;
  for (const double tick : round_ticks(low, high, wanted))
    if (tick >= low - hair && tick <= high + hair) ticks.push_back(tick);
  return ticks;
}

bool drawable(double number) { return std::isfinite(number) && std::abs(number) < largest; }

}  // namespace

bool Plotted::empty() const {
  return std::all_of(lines.begin(), lines.end(), [](const Line& line) { return line.points.empty(); });
}

Plotted plotted(const Chart& chart) {
  const Unit x = parse_unit(chart.x.unit), y = parse_unit(chart.y.unit);
  Plotted out;
  for (const auto& trace : chart.traces) {
    auto& line = out.lines.emplace_back(Plotted::Line{&trace, {}});
    for (const auto& [at, value] : trace.points)
      if (const std::pair point{x.number(at), y.number(value)}; drawable(point.first) && drawable(point.second))
        line.points.push_back(point);
  }
  if (chart.band) {
    const auto [low, high] = std::minmax({y.number(chart.band->first), y.number(chart.band->second)});
    if (drawable(low) && drawable(high)) out.band.emplace(low, high);
  }
  return out;
}

std::vector<double> round_ticks(double low, double high, int wanted) {
  const double step = round_step(high - low, wanted);
  constexpr double hair = 1e-9;  // a tick that arithmetic leaves beside the end is the end
  const double first = std::floor(low / step + hair), last = std::ceil(high / step - hair);
  std::vector<double> ticks;
  const auto count = static_cast<std::size_t>(last - first) + 1;
  for (std::size_t i = 0; i < count; ++i) ticks.push_back((first + static_cast<double>(i)) * step);
  return ticks;
}

std::vector<std::string> tick_labels(const std::vector<double>& ticks) {
  if (ticks.empty()) return {};
  if (ticks.size() < 2) return {fmt::format("{:.6g}", ticks.front())};
  const double step = ticks[1] - ticks[0];
  const bool plain = step > 1e-6 && std::abs(ticks.back()) < 1e7 && std::abs(ticks.front()) < 1e7;
  const int decimals = std::max(0, -static_cast<int>(std::floor(std::log10(step) + 1e-9)));
  std::vector<std::string> labels;
  for (const double tick : ticks)
    labels.push_back(plain ? print_number(tick, decimals) : fmt::format("{:.6g}", std::round(tick / step) * step));
  return labels;
}

std::size_t longest(const std::vector<double>& ticks) {
  std::size_t most = 0;
  for (const auto& words : tick_labels(ticks)) most = std::max(most, words.size());
  return most;
}

AxisScale x_scale(const Plotted& chart, double from, double to) {
  Span span;
  for (const auto& line : chart.lines)
    for (const auto& point : line.points) span.take(point.first);
  span = span.widened();
  AxisScale scale{span.low, span.high, from, to, {}};
  for (int wanted = x_ticks; wanted > 0; --wanted) {
    scale.ticks = ticks_within(span.low, span.high, wanted);
    constexpr std::size_t gap = 1;  // characters
    if (static_cast<double>(scale.ticks.size()) * label_room(longest(scale.ticks) + gap) <= to - from) break;
  }
  return scale;
}

AxisScale y_scale(const Plotted& chart, double from, double to) {
  Span span;
  for (const auto& line : chart.lines)
    for (const auto& point : line.points) span.take(point.second);
  if (chart.band) span.take(chart.band->first), span.take(chart.band->second);
  if (span.low > 0 && span.low < span.high - span.low) span.low = 0;
  span = span.widened();
  auto ticks = round_ticks(span.low, span.high, y_ticks);
  return {ticks.front(), ticks.back(), from, to, ticks};
}

}  // namespace vatwright
