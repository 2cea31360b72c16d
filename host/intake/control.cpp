#include "host/intake/control.hpp"

#include "host/intake/shown.hpp"
#include "units/expect.hpp"
#include "units/nearest.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace vatwright::intake {
namespace {

constexpr std::string_view read_it = "read the control sample before these results are used";

}  // namespace

// Of a day that the table has, too, the table counts.
void ControlChart::add_past(std::vector<PastReading> past, const AnswerColumn& column) {
  const Unit unit = parse_unit(column.unit);
  for (auto& reading : past) points_.push_back({std::move(reading.day), unit.number(reading.number)});
}

void ControlChart::add_day(const std::string& day, const Answer& answer, const AnswerColumn& column) {
  if (answer.readings == 0) return;
  if (days_.empty() && !day.empty()) std::erase_if(points_, [&](const Point& point) { return point.day >= day; });
  days_.push_back({day, {}, true});
  if (!answer.value) {
    found_ = "no result";
    days_.back() = {day, answer.amiss.empty() ? "read it again" : answer.amiss.front(), false};
    return;
  }
  found_ = fmt::format("{:.{}f} {}", *answer.value, column.decimals, column.unit);
  points_.push_back({day, *answer.value});
  judge_last(column);
}

// The inputs of the chart that say where its limits are.
std::string ControlChart::limits(const AnswerColumn& column) const {
  std::string out;
  const Unit unit = parse_unit(column.unit);
  if (!target_.known.empty()) {
    const Measured known = expect(parse(target_.known), {unit.dimension, unit.counted, column.unit}, target_.known);
    if (!(known.uncertainty > 0) && target_.trial == 0)
      throw InputError("no ± with the target " + in_quotes(target_.known),
                       "write how well the laboratory reads it, such as '30.0 ± 0.6 mg/L', or 'trial: 20'");
    out += fmt::format(", target: {:.12g}", unit.number(known.value));
    if (known.uncertainty > 0)
      out += fmt::format(", standard deviation: {:.12g}", unit.spread(known.uncertainty, known.value));
  }
  if (target_.trial > 0) out += fmt::format(", trial: {}", target_.trial);
  return out;
}

void ControlChart::judge_last(const AnswerColumn& column) {
  Judged& day = days_.back();
  warning_.clear();
  if (target_.trial > 0 && points_.size() <= target_.trial) {
    warning_ =
        fmt::format("reading {} of the {} that set the limits: nothing is judged yet", points_.size(), target_.trial);
    return;
  }
  std::string rows;
  for (const auto& point : points_)
    rows += fmt::format("{}{{{}value: {:.12g}}}", rows.empty() ? "" : ", ",
                        point.day.empty() ? "" : "date: " + point.day + ", ", point.value);
  try {
    const auto sheet = bench_.run(read_recipe(Document::read(
        "control",
        fmt::format("recipe: control\nsteps:\n  - control.chart: {{readings: [{}]{}{}}}\n", rows, limits(column),
                    column.unit.empty() || column.unit == "1" ? "" : ", in: '" + column.unit + "'"),
        {.nodes = 1'000'000})));
    const Outcome& outcome = sheet.steps.front().outcome;
    for (const auto& check : outcome.checks)
      if (!check.holds) {
        day.right = false;
        day.words = check.remedy;
      }
    if (points_.size() > 1 && !outcome.charts.empty()) chart_ = outcome.charts.front();
    const auto of = [&](std::string_view name) {
      const auto at = std::find_if(outcome.results.begin(), outcome.results.end(),
                                   [&](const ResultValue& r) { return r.info->name == name; });
      return at == outcome.results.end() ? 0.0 : at->number;
    };
    constexpr double warned = 2;
    if (day.right && std::abs(points_.back().value - of("centre")) > warned * of("standard deviation of a reading"))
      warning_ = "a warning: more than 2 s off; look again tomorrow";
  } catch (const InputError& error) {
    mapping_.document.fail(target_.mark, error.what(), error.hint());
  } catch (const BadInput& error) {
    mapping_.document.fail(target_.mark, in_short(error.what()), "look at the readings of the control sample");
  }
}

ControlVerdict ControlChart::verdict(const AnswerColumn& column) {
  ControlVerdict out{.sample = target_.sample,
                     .result = target_.result,
                     .known = target_.known.empty() ? "by its trial" : target_.known,
                     .found = found_,
                     .words = std::string(read_it),
                     .readings = points_.size(),
                     .chart = chart_};
  if (chart_) {
    out.chart->name = fmt::format("{}, {}", target_.sample, head_of(column));
    out.chart->y.name = head_of(column);
  }
  if (days_.empty()) return out;
  out.right = days_.back().right;
  out.words = out.right ? warning_ : days_.back().words;
  std::string off;
  for (const auto& day : days_)
    if (!day.right && &day != &days_.back()) off += (off.empty() ? "" : ", ") + day.day;
  if (out.right && !off.empty())
    out.words += (out.words.empty() ? "" : "; ") + ("it was off on " + off + ": results of those days are held back");
  return out;
}

// A day's results wait for the next reading of the control sample that is right; they do not go by one that was right
// before them.
std::string ControlChart::held_back_on(const std::string& day) const {
  const auto next = std::find_if(days_.begin(), days_.end(), [&](const Judged& judged) { return judged.day >= day; });
  if (next != days_.end()) return next->right ? std::string() : next->words;
  return days_.empty() ? std::string(read_it)
                       : fmt::format("the control sample was last read on {}: {}", days_.back().day, read_it);
}

}  // namespace vatwright::intake
