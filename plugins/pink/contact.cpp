#include "plugins/pink/contact.hpp"

#include "plugins/chemistry/extraction.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

namespace vatwright::pink::contact {
namespace {

using chemistry::ColourReadings;
using chemistry::ExtractionFit;

constexpr Time usual_least = 2.0 * hour;
constexpr Time usual_most = 48.0 * hour;
// Hours that it may be time to press in, first to last, within which one is named; else a reading is taken first.
constexpr Time narrow = 4.0 * hour;  // common practice, no source

std::string hours(Time time) { return print(time, "h", 1); }
std::string colour(Absorbance absorbance) { return print(absorbance, "AU", 3); }

// Through 10 mm, as the intensity is told.
ColourReadings readings_of(const Series& series) {
  const double longer = chemistry::intensity_path / coherent<Length>(series.path.value());
  ColourReadings found;
  for (const auto& [at, read] : series.points) {
    found.emplace_back(coherent<Time>(at), coherent<Absorbance>(read) * longer);
  }
  return found;
}

// The colour that the must is to have when it is pressed: one figure, or the two ends that a colour
// of the wine leaves open, and what lies in their middle.
struct Goal {
  Absorbance least, middle, most;
  bool of_wine;
};

Goal goal_of(const Inputs& in) {
  if (const auto must = in.get(target)) return {*must, *must, *must, false};
  const auto wine = in[target_in_wine];
  const auto before_losing = [&](Fraction loss) -> Absorbance { return wine / (1 - loss.value()); };
  return {before_losing(chemistry::least_loss_to_wine), before_losing(chemistry::middle_loss_to_wine),
          before_losing(chemistry::most_loss_to_wine), true};
}

// When a colour is reached, and how surely.
struct Hour {
  Time at, uncertainty, earliest, latest;
};

std::optional<Hour> hour_of(const ExtractionFit& fit, Absorbance wanted) {
  const auto at = fit.course.when(wanted);
  if (!at) return std::nullopt;
  const Time u = fit.uncertainty_of_when(wanted);
  const Time wide = u * chemistry::coverage_95(fit.freedom);
  return Hour{*at, u, std::max(Time{}, *at - wide), *at + wide};
}

// Of the least, the middle and the most; nothing where the skins never give that colour.
struct Hours {
  std::optional<Hour> first, middle, last;

  const Hour& last_there() const { return last ? *last : middle ? *middle : *first; }
  bool one_can_be_named() const { return first && last && last->latest - first->earliest <= narrow; }
};

void give_course(const ExtractionFit& fit, Outcome& out) {
  out.result(start, fit.course.start);
  out.result(plateau, fit.course.plateau);
  out.result(plateau_uncertainty, fit.plateau_uncertainty());
  out.result(half_time, fit.course.half_time);
  out.result(scatter, fit.scatter);
}

// --- checks

void check_reach(const ExtractionFit& fit, const Goal& goal, Outcome& out) {
  const bool below_plateau = goal.least < fit.course.plateau;
  out.checks.push_back({.name = "the plateau lies above the target",
                        .holds = below_plateau,
                        .value = figure(fit.course.plateau, "AU", 3),
                        .limit = figure(goal.least, "AU", 3),
                        .relation = "at least",
                        .source = "the fitted course",
                        .remedy = below_plateau ? ""
                                                : "these skins do not give that colour, however long they stay: lower "
                                                  "the target, or blend with a darker lot"});
  const bool above_start = goal.least >= fit.course.start;
  out.checks.push_back({.name = "the target lies above the start",
                        .holds = above_start,
                        .value = figure(goal.least, "AU", 3),
                        .limit = figure(fit.course.start, "AU", 3),
                        .relation = "at least",
                        .source = "the fitted course",
                        .remedy = above_start ? "" : "the juice was darker than that from the first hour: press now"});
}

void check_shortest(Time first, Outcome& out) {
  const bool long_enough = first >= usual_least;
  out.checks.push_back({.name = "usual shortest time on the skins",
                        .holds = long_enough,
                        .value = figure(first, "h", 1),
                        .limit = figure(usual_least, "h", 1),
                        .relation = "at least",
                        .source = std::string(usual_time.standing),
                        .remedy = long_enough ? "" : "filling the press alone may take longer: press whole fruit"});
}

void check_longest(Time last, Outcome& out) {
  const bool short_enough = last <= usual_most;
  out.checks.push_back({.name = "usual longest time on the skins",
                        .holds = short_enough,
                        .value = figure(last, "h", 1),
                        .limit = figure(usual_most, "h", 1),
                        .relation = "at most",
                        .source = std::string(usual_time.standing),
                        .remedy = short_enough ? "" : "lower the target: tannin comes out as well, and yeast sets in"});
}

void check_closing(const ExtractionFit& fit, Time time, Absorbance wanted, Outcome& out) {
  const Absorbance there = fit.course.at(time);
  const bool closes = std::abs((there - wanted).value()) <= 1e-9 * fit.course.plateau.value();
  out.checks.push_back({.name = "closing check: the course is at the target then",
                        .holds = closes,
                        .value = figure(there, "AU", 3),
                        .limit = figure(wanted, "AU", 3),
                        .relation = "equals",
                        .source = "the fitted course",
                        .remedy = closes ? "" : "report this as a fault of the program"});
}

// --- notes

void note_data(const ColourReadings& read, const Hour& first, const Hour& last, Outcome& out) {
  const Time from = read.front().first;
  const Time to = read.back().first;
  if (last.at > to)
    out.note(
        fmt::format("extrapolated: the last reading was at {}, and the target lies at {}; read again before you "
                    "press, and fit anew",
                    hours(to), hours(last.at)));
  else
    out.note("the target was reached before the last reading, at " + hours(last.at) +
             ": press now, unless the readings say otherwise");
  if (first.at < from)
    out.note(fmt::format("the target lies at {}, before the first reading at {}", hours(first.at), hours(from)));
}

void note_fit(const ExtractionFit& fit, std::size_t count, Outcome& out) {
  out.note(fmt::format(
      "first-order extraction, least squares on {} readings, all counting alike; the 95 % interval "
      "has Student's factor {} for {} more reading{} than unknowns",
      count, print_number(chemistry::coverage_95(fit.freedom), 2), fit.freedom, fit.freedom == 1 ? "" : "s"));
  out.note(
      "sulfite hides colour, and warmth speeds its release: read all samples alike, and trust the course only while "
      "sulfite and temperature stay as they were");
}

// Juice has no colour below none: a start below zero says that the skins were slow to give.
void note_lag(const ExtractionFit& fit, Outcome& out) {
  if (const auto begins = fit.course.when(Absorbance{}))
    if (*begins > Time{})
      out.note("the fitted course starts below zero: by it, colour began to come only at " + hours(*begins));
}

void note_goal(const Goal& goal, const Hours& hours, Outcome& out) {
  if (!goal.of_wine) return;
  std::string words = fmt::format(
      "{} of the colour is lost from settled must to wine, and nobody can say how much: the must may need "
      "anything from {} to {}. 'press at' is for a loss of {}, which needs {}; 'earliest' and 'latest' are "
      "for the two ends",
      loss_to_wine(), colour(goal.least), colour(goal.most), print(chemistry::middle_loss_to_wine, "%", 0),
      colour(goal.middle));
  if (!hours.last) words += "; the darkest of these is more than the skins give, so that there is no latest hour";
  out.note(std::move(words));
}

// --- to do

// Half of the time that is left to the first of the hours that is still to come.
Time next_reading(Time now, const Hours& all) {
  for (const auto* one : {&all.first, &all.middle, &all.last})
    if (*one && (*one)->at > now) return now + ((*one)->at - now) / 2.0;
  return now;
}

void give_tasks(Time now, const Hours& all, Outcome& out) {
  const Hour& last = all.last_there();
  if (last.at <= now)
    return out.task("press now: " + (all.last ? "the target was reached at " + hours(last.at) + " on the skins"
                                              : "the skins give hardly more colour"));
  const Time next = next_reading(now, all);
  out.task("read the colour again at " + hours(next) + " on the skins, and fit anew");
  if (all.one_can_be_named())
    out.task(last.at > all.first->at ? fmt::format("press between {} and {} on the skins, as that reading says",
                                                   hours(std::max(next, all.first->at)), hours(last.at))
                                     : fmt::format("press at {} on the skins, if that reading agrees", hours(last.at)));
  else if (all.last)
    out.task(fmt::format("set no hour to press before that reading: it may be any from {} to {} on the skins",
                         hours(all.first->earliest), hours(all.last->latest)));
  else
    out.task(fmt::format("set no hour to press before that reading: it may be any from {} on the skins",
                         hours(all.first->earliest)));
}

// --- for the eye

void give_samplings(const ExtractionFit& fit, Time now, const Hours& all, Outcome& out) {
  const Hour& first = *all.first;
  if (all.last_there().at <= now) return;
  Table table{
      .name = "next readings", .columns = {{"on the skins", "h", 1}, {"expected", "AU", 3}, {"why"}}, .rows = {}};
  const auto row = [&](Time at, const char* why) {
    if (at > now) table.rows.push_back({at.value(), fit.course.at(at).value(), std::string(why)});
  };
  const Time next = next_reading(now, all);
  row(next, "half of the time that is left: does the course still hold?");
  if (first.earliest > next) row(first.earliest, "from here on it may be there");
  const bool one = all.last && !(all.last->at > first.at);
  row(first.at, one ? "expected at the target" : "if little of the colour is lost on the way to wine");
  if (!one && all.middle) row(all.middle->at, "if the middle of it is lost");
  if (!one && all.last) row(all.last->at, "if most of it is lost");
  out.tables.push_back(std::move(table));
}

Chart chart_of(const ExtractionFit& fit, const ColourReadings& read, const Goal& goal, std::optional<Time> last) {
  Chart chart{.name = "colour on the skins",
              .x = {"on the skins", "h", 1},
              .y = {"colour through 10 mm", "AU", 3},
              .traces = {{.name = "readings", .dots = true, .points = {}}, {.name = "fitted course", .points = {}}},
              .band = std::nullopt,
              .band_name = ""};
  for (const auto& [at, absorbance] : read) chart.traces[0].points.emplace_back(at.value(), absorbance.value());
  constexpr int pieces = 60;
  const Time begin = fit.course.when(Absorbance{}).value_or(Time{});
  const Time end = std::max(read.back().first, last.value_or(Time{})) * 1.15;
  for (int i = 0; i <= pieces; ++i) {
    const Time at = begin + (end - begin) * (static_cast<double>(i) / pieces);
    chart.traces[1].points.emplace_back(at.value(), fit.course.at(at).value());
  }
  if (goal.of_wine) {
    chart.band = {goal.least.value(), goal.most.value()};
    chart.band_name = "what the must may need";
  } else {
    chart.traces.push_back({.name = "target", .points = {{0, goal.most.value()}, {end.value(), goal.most.value()}}});
  }
  return chart;
}

}  // namespace

Outcome run(const Inputs& in) {
  const auto read = readings_of(in[readings]);
  const auto fit = chemistry::fit_extraction(read, in.get(known_start));
  const Goal goal = goal_of(in);
  const Hours found{hour_of(fit, goal.least), hour_of(fit, goal.middle), hour_of(fit, goal.most)};

  Outcome out;
  if (found.middle) {
    out.result(press_at, found.middle->at);
    out.result(press_at_uncertainty, found.middle->uncertainty);
    check_closing(fit, found.middle->at, goal.middle, out);
  }
  out.reagents.emplace_back(lab::gas_of_fermentation);
  if (found.first) out.result(earliest, found.first->earliest);
  if (found.last) out.result(latest, found.last->latest);
  give_course(fit, out);
  check_reach(fit, goal, out);
  if (found.middle) {
    check_shortest(found.middle->at, out);
    check_longest(found.middle->at, out);
  }
  if (in.figures_only()) return out;

  note_goal(goal, found, out);
  if (found.first) {
    const Time now = read.back().first;
    note_data(read, *found.first, found.last_there(), out);
    give_tasks(now, found, out);
    give_samplings(fit, now, found, out);
  }
  note_lag(fit, out);
  note_fit(fit, read.size(), out);
  if (coherent<Length>(in[readings].path.value()) != chemistry::intensity_path)
    out.note("readings are told for 10 mm, from a cell of " + print(coherent<Length>(*in[readings].path), "mm", 1));
  out.charts.push_back(chart_of(fit, read, goal, found.first ? std::optional(found.last_there().at) : std::nullopt));
  return out;
}

}  // namespace vatwright::pink::contact
