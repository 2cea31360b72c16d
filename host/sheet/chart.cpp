#include "host/sheet/chart.hpp"

#include "host/sheet/chart_scale.hpp"
#include "host/sheet/phrases.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

namespace vatwright {
namespace {

// The drawing, in its own units; the page makes it as wide as there is room.
constexpr double page_width = 560, page_height = 330;
constexpr double right = page_width - 30, top = 34, bottom = page_height - 58;
constexpr double dot_radius = 6, tag_room = 18;

// Lines differ by dashes, dots by shape: a colour alone is no sign.
constexpr std::array dashes{"none", "9 5", "2 4", "14 4 2 4", "5 3 1 3 1 3"};
enum class Shape { circle, square, diamond, triangle };
constexpr std::array shapes{Shape::circle, Shape::square, Shape::diamond, Shape::triangle};

std::string place(double x) { return fmt::format("{:.1f}", x); }

std::string letter(std::size_t i) { return {static_cast<char>('A' + i % 26)}; }

std::string trace_class(std::size_t i) { return fmt::format("trace trace-{}", i % dashes.size()); }

void line(Markup& svg, std::string_view kind, double x1, double y1, double x2, double y2) {
  svg.leaf("line", {{"class", kind}, {"x1", place(x1)}, {"y1", place(y1)}, {"x2", place(x2)}, {"y2", place(y2)}});
}

void label(Markup& svg, std::string_view kind, double x, double y, std::string_view words) {
  svg.element("text", words, {{"class", kind}, {"x", place(x)}, {"y", place(y)}});
}

void dot(Markup& svg, std::size_t i, double x, double y) {
  const double r = dot_radius;
  const std::string kind = trace_class(i) + " dot";
  switch (shapes.at(i % shapes.size())) {
    case Shape::circle:
      return svg.leaf("circle", {{"class", kind}, {"cx", place(x)}, {"cy", place(y)}, {"r", place(r)}});
    case Shape::square:
      return svg.leaf("rect", {{"class", kind},
                               {"x", place(x - r)},
                               {"y", place(y - r)},
                               {"width", place(2 * r)},
                               {"height", place(2 * r)}});
    case Shape::diamond:
      return svg.leaf("path",
                      {{"class", kind},
                       {"d", fmt::format("M{:.1f} {:.1f}l{:.1f} {:.1f}l{:.1f} {:.1f}l{:.1f} {:.1f}z", x, y - 1.3 * r,
                                         1.3 * r, 1.3 * r, -1.3 * r, 1.3 * r, -1.3 * r, -1.3 * r)}});
    case Shape::triangle:
      return svg.leaf(
          "path",
          {{"class", kind},
           {"d", fmt::format("M{:.1f} {:.1f}l{:.1f} {:.1f}h{:.1f}z", x, y - 1.2 * r, 1.2 * r, 2.2 * r, -2.4 * r)}});
  }
}

class Drawing {
 public:
  Drawing(Markup& page, const Chart& chart, const Plotted& data)
      : svg_(page),
        chart_(chart),
        data_(data),
        y_(y_scale(data, bottom, top)),
        left_(label_room(longest(y_.ticks)) + 8),
        x_(x_scale(data, left_, right)) {}

  void draw() {
    band();
    axes();
    for (std::size_t i = 0; i < data_.lines.size(); ++i) trace(i);
    tags();
  }

 private:
  struct Tag {
    double x, y;
    std::string letter;
  };

  void band() {
    if (!data_.band) return;
    const double high = y_.at(data_.band->second), low = y_.at(data_.band->first);
    svg_.leaf("rect", {{"class", "band"},
                       {"x", place(left_)},
                       {"y", place(high)},
                       {"width", place(right - left_)},
                       {"height", place(low - high)}});
    line(svg_, "band-edge", left_, high, right, high);
    line(svg_, "band-edge", left_, low, right, low);
  }

  void axes() {
    const auto x_labels = tick_labels(x_.ticks), y_labels = tick_labels(y_.ticks);
    for (std::size_t i = 0; i < y_.ticks.size(); ++i) {
      const double y = y_.at(y_.ticks[i]);
      line(svg_, "grid", left_, y, right, y);
      label(svg_, "tick y", left_ - 8, y + 5, y_labels[i]);
    }
    for (std::size_t i = 0; i < x_.ticks.size(); ++i) {
      const double x = x_.at(x_.ticks[i]);
      line(svg_, "axis", x, bottom, x, bottom + 6);
      label(svg_, "tick x", x, bottom + 23, x_labels[i]);
    }
    line(svg_, "axis", left_, bottom, right, bottom);
    label(svg_, "axis-name y", 4, 18, named_unit(chart_.y.name, chart_.y.unit));
    label(svg_, "axis-name x", right, page_height - 8, named_unit(chart_.x.name, chart_.x.unit));
  }

  void trace(std::size_t i) {
    const auto& [trace, points] = data_.lines[i];
    if (points.empty()) return;
    const bool dots = trace->dots || points.size() == 1;  // a line of one point would not be seen
    std::string path;
    for (const auto& [x, y] : points) {
      const double px = x_.at(x), py = y_.at(y);
      if (dots)
        dot(svg_, i, px, py);
      else
        path += fmt::format("{}{:.1f} {:.1f}", path.empty() ? "M" : "L", px, py);
    }
    if (!dots)
      svg_.leaf("path", {{"class", trace_class(i)}, {"stroke-dasharray", dashes.at(i % dashes.size())}, {"d", path}});
    const double beside = dots ? dot_radius + 4 : 5, above = dots ? dot_radius : -5;
    tags_.push_back({x_.at(points.back().first) + beside, y_.at(points.back().second) - above, letter(i)});
  }

  // A letter at the end of each trace, none upon another.
  void tags() {
    if (chart_.traces.size() < 2) return;
    std::sort(tags_.begin(), tags_.end(), [](const Tag& a, const Tag& b) { return a.y > b.y; });
    for (std::size_t i = 0; i < tags_.size(); ++i) {
      tags_[i].y = std::min(tags_[i].y, bottom - 2);
      for (std::size_t below = 0; below < i; ++below)
        if (near(tags_[i], tags_[below])) tags_[i].y = std::min(tags_[i].y, tags_[below].y - tag_room);
    }
    // Those that were pushed out above come down again.
    for (std::size_t i = tags_.size(); i-- > 0;) {
      tags_[i].y = std::max(tags_[i].y, top);
      for (std::size_t above = i + 1; above < tags_.size(); ++above)
        if (near(tags_[i], tags_[above])) tags_[i].y = std::max(tags_[i].y, tags_[above].y + tag_room);
    }
    for (const auto& tag : tags_) label(svg_, "tag", tag.x, tag.y, tag.letter);
  }

  static bool near(const Tag& a, const Tag& b) { return std::abs(a.x - b.x) < tag_room; }

  Markup& svg_;
  const Chart& chart_;
  const Plotted& data_;
  AxisScale y_;
  double left_;
  AxisScale x_;
  std::vector<Tag> tags_;
};

void sample(Markup& page, const std::string& kind) {
  page.open("svg", {{"class", kind}, {"viewBox", "0 0 46 18"}, {"aria-hidden", "true"}});
}

void legend(Markup& page, const Chart& chart, const std::optional<std::pair<double, double>>& band) {
  page.open("ul", {{"class", "legend"}});
  for (std::size_t i = 0; i < chart.traces.size(); ++i) {
    page.open("li");
    sample(page, "sample");
    if (chart.traces[i].dots)
      dot(page, i, 23, 9);
    else
      page.leaf("path",
                {{"class", trace_class(i)}, {"stroke-dasharray", dashes.at(i % dashes.size())}, {"d", "M1 9H45"}});
    page.close();
    page.text(chart.traces.size() < 2 ? chart.traces[i].name : letter(i) + ": " + chart.traces[i].name);
    page.close();
  }
  if (band) {
    page.open("li");
    sample(page, "sample");
    page.leaf("rect", {{"class", "band"}, {"x", "1"}, {"y", "3"}, {"width", "44"}, {"height", "12"}});
    line(page, "band-edge", 1, 3, 45, 3);
    line(page, "band-edge", 1, 15, 45, 15);
    page.close();
    page.text(fmt::format("{}: {} to {}", chart.band_name, print_number(band->first, chart.y.decimals),
                          with_unit(print_number(band->second, chart.y.decimals), chart.y.unit)));
    page.close();
  }
  page.close();
}

// --- the text alternative

// Some of the points, the first and the last among them.
constexpr std::size_t most_told = 8;

std::string told(const Chart& chart, const Plotted::Line& line) {
  const auto n = line.points.size();
  if (n == 0) return "no readings";
  const auto shown = std::min(n, most_told);
  std::string text;
  for (std::size_t i = 0; i < shown; ++i) {
    const auto& [x, y] = line.points[shown == 1 ? 0 : i * (n - 1) / (shown - 1)];
    text += fmt::format("{}{} at {}", text.empty() ? "" : ", ", print_number(y, chart.y.decimals),
                        print_number(x, chart.x.decimals));
  }
  return text;
}

}  // namespace

std::string described(const Chart& chart) {
  const Plotted data = plotted(chart);
  std::string text =
      fmt::format("{} against {}.", named_unit(chart.y.name, chart.y.unit), named_unit(chart.x.name, chart.x.unit));
  for (const auto& one : data.lines)
    text += fmt::format(" {} '{}': {}.", one.trace->dots ? "Points" : "Line", one.trace->name, told(chart, one));
  if (data.band)
    text += fmt::format(" Band '{}': {} to {}.", chart.band_name, print_number(data.band->first, chart.y.decimals),
                        print_number(data.band->second, chart.y.decimals));
  return text;
}

void write_chart(Markup& page, const Chart& chart, const std::string& id) {
  const Plotted data = plotted(chart);
  if (data.empty()) return;
  page.open("figure", {{"class", "chart"}, {"aria-labelledby", id + "-name"}});
  page.element("figcaption", chart.name, {{"id", id + "-name"}});
  page.open("svg", {{"class", "drawing"},
                    {"viewBox", fmt::format("0 0 {} {}", page_width, page_height)},
                    {"role", "img"},
                    {"aria-labelledby", id + "-name"},
                    {"aria-describedby", id + "-words"}});
  page.element("desc", described(chart), {{"id", id + "-words"}});
  Drawing(page, chart, data).draw();
  page.close();
  legend(page, chart, data.band);
  page.close();
}

}  // namespace vatwright
