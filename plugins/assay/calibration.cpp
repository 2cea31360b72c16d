#include "plugins/assay/calibration.hpp"

#include "plugins/chemistry/statistics/distributions.hpp"
#include "plugins/chemistry/statistics/line.hpp"
#include "plugins/chemistry/statistics/samples.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace vatwright::assay::calibration {
namespace {

using statistics::Line;
using statistics::Standard;

// Contents as coherent numbers.
double weight_at(const Inputs& in, const Readings& row, double content_there) {
  const auto way = in[weighting];
  if (way == by_none) return 1;
  if (way == as_stated) {
    if (const auto said = row.get(weight)) return said->value();
    throw InputError("a row without 'weight', where the weights are as stated", "write it in each row");
  }
  if (!(content_there > 0))
    throw InputError("a content of nought has no weight by 1/content",
                     "take 'weights: none', or leave that standard out");
  return way == by_x ? 1 / content_there : 1 / (content_there * content_there);
}

std::vector<Standard> read_standards(const Inputs& in) {
  std::vector<Standard> found;
  for (const Row& row : in[standards]) {
    const double x = row[standard_content].value();
    found.push_back({x, row[reading].value(), weight_at(in, row, x)});
  }
  return found;
}

struct Sample {
  std::string name;
  std::vector<double> readings;
  double dilution = 1;
  const Row* first = nullptr;
};

std::vector<Sample> read_samples(const Inputs& in) {
  std::vector<Sample> found;
  if (!in.has(samples)) return found;
  for (const Row& row : in[samples]) {
    auto at = std::find_if(found.begin(), found.end(), [&](const Sample& one) { return one.name == row[sample_name]; });
    if (at == found.end()) at = found.insert(at, {std::string(row[sample_name]), {}, 1, &row});
    const double times = row.get(dilution).value_or(Fraction(1.0)).value();
    if (!at->readings.empty() && times != at->dilution)
      throw InputError("'" + at->name + "' stands there with two dilutions",
                       "give the second dilution a name of its own");
    at->dilution = times;
    at->readings.push_back(row[reading].value());
  }
  return found;
}

struct Found {
  double x, standard;  // in the cell
  bool inside;
};

Found read_off(const Inputs& in, const Line& line, const Sample& sample) {
  const double y = statistics::mean(sample.readings), x = line.find(y);
  const double counts = in[weighting] == by_none ? 1 : weight_at(in, *sample.first, x);
  constexpr double hair = 1e-9;
  const double slack = hair * (line.high - line.low);
  return {x, line.standard_of_found(y, static_cast<double>(sample.readings.size()), counts),
          x >= line.low - slack && x <= line.high + slack};
}

void give_samples(const Inputs& in, const Line& line, const std::vector<Sample>& all, Outcome& out) {
  Table table{.name = "Samples",
              .columns = {{"sample"},
                          {"readings", "1", 0},
                          {"content", "mg/L", 4},
                          {"±", "mg/L", 4},
                          {"± 95 %", "mg/L", 4},
                          {"remark"}},
              .rows = {}};
  const double wide = statistics::student_two_sided(0.05, line.freedom);
  std::string outside;
  for (const auto& sample : all) {
    const Found found = read_off(in, line, sample);
    const double x = found.x * sample.dilution, u = found.standard * sample.dilution;
    if (&sample == &all.front()) out.result(content, coherent<MassConcentration>(x), u, "calibration line");
    table.rows.push_back({sample.name, static_cast<double>(sample.readings.size()), x, u, wide * u,
                          found.inside ? std::string() : std::string("outside the standards")});
    if (!found.inside) outside += (outside.empty() ? "" : ", ") + sample.name;
  }
  out.checks.push_back(
      {.name = "every sample within the standards",
       .holds = outside.empty(),
       .value = {},
       .limit = {},
       .relation = "",
       .source = "a line is known where there were standards",
       .remedy = outside.empty() ? "" : "dilute, or make a further standard, and read again: " + outside});
  if (!in.figures_only()) out.tables.push_back(std::move(table));
}

Trace line_trace(const Line& line, const char* name, double side) {
  Trace trace{.name = name, .points = {}};
  constexpr int pieces = 40;
  const double wide = statistics::student_two_sided(0.05, line.freedom);
  for (int i = 0; i <= pieces; ++i) {
    const double x = std::lerp(std::min(0.0, line.low), line.high, static_cast<double>(i) / pieces);
    trace.points.emplace_back(x, line.at(x) + side * wide * line.standard_of_reading(x));
  }
  return trace;
}

void draw(const Line& line, const std::vector<Standard>& read, bool weighted, Outcome& out) {
  Chart chart{.name = "calibration",
              .x = {"content", "mg/L", 3},
              .y = {"reading", "1", 4},
              .traces = {{.name = "standards", .dots = true, .points = {}}, line_trace(line, "line", 0)},
              .band = std::nullopt,
              .band_name = ""};
  for (const auto& one : read) chart.traces[0].points.emplace_back(one.x, one.y);
  if (!weighted) {
    chart.traces.push_back(line_trace(line, "a reading, 95 %, low", -1));
    chart.traces.push_back(line_trace(line, "a reading, 95 %, high", 1));
  }
  out.charts.push_back(std::move(chart));
}

void tell(const Line& line, const std::vector<Standard>& read, bool forced, Outcome& out) {
  Table table{.name = "Standards",
              .columns = {{"content", "mg/L", 4}, {"reading", "1", 5}, {"off the line", "1", 5}},
              .rows = {}};
  for (const auto& one : read) table.rows.push_back({one.x, one.y, one.y - line.at(one.x)});
  out.tables.push_back(std::move(table));
  if (!forced && std::abs(line.start) <= 2 * line.start_standard)
    out.note("the intercept does not differ from nought by more than its doubt");
  if (forced) out.note("forced through nought: see without it whether the intercept allows that");
  out.note("look at the last column: signs that come in runs say that the course is no straight line");
  out.note("a ± here is that of the line and of reading; weighing, volumes and the sample come on top of it");
}

}  // namespace

Outcome run(const Inputs& in) {
  const auto read = read_standards(in);
  const bool forced = in[through_zero] == yes, weighted = in[weighting] != by_none;
  const auto line = statistics::fit(read, forced);
  if (!line)
    throw InputError("the standards make no line: fewer than three, all of one content, or all of one reading",
                     "read three standards or more, of different contents");
  Outcome out;
  out.result(slope, coherent<Slope>(line->slope), line->slope_standard, "scatter about the line");
  out.result(intercept, Fraction(line->start), line->start_standard, "scatter about the line");
  out.result(residual, Fraction(line->scatter));
  out.result(explained, Fraction(line->r_squared));
  if (!weighted && !forced) {
    const auto limits = statistics::limits_of(*line, in[error].value());
    out.result(decision, coherent<MassConcentration>(limits.decision));
    out.result(detection, coherent<MassConcentration>(limits.detection));
    out.result(quantification, coherent<MassConcentration>(limits.quantification));
  }
  const auto all = read_samples(in);
  if (!all.empty()) give_samples(in, *line, all, out);
  if (in.figures_only()) return out;
  tell(*line, read, forced, out);
  draw(*line, read, weighted, out);
  return out;
}

}  // namespace vatwright::assay::calibration
