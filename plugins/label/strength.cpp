#include "plugins/label/strength.hpp"

#include "plugins/chemistry/must.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace vatwright::label::strength {
namespace {

constexpr Strength usual_step = 0.1 * percent_vol, usual_tolerance = 0.5 * percent_vol;
constexpr double arithmetic = 1e-9;

std::string strong(Strength value) { return print(value, "% vol", 2); }

struct Span {
  Strength least, most, step;

  Strength down() const { return std::floor(most / step + arithmetic) * step; }
  Strength up() const { return std::ceil(least / step - arithmetic) * step; }
};

Span span_of(const Inputs& in) {
  const Strength found = in[lot::ethanol];
  const auto tolerated = in[tolerance];
  const Strength by = tolerated ? tolerated->value : usual_tolerance;
  const auto steps = in[step];
  Span span{std::max<Strength>(found - by, Strength{}), found + by, steps ? steps->value : usual_step};
  if (const auto line = in[class_line]) {
    if (found <= line->value)
      span.most = std::min(span.most, line->value);
    else
      span.least = std::max<Strength>(span.least, line->value + 0.1 * percent_vol);
  }
  return span;
}

void check_stated(const Inputs& in, const Span& span, Outcome& out) {
  const auto said = in.get(stated);
  if (!said) return;
  const Strength on_step = std::round(static_cast<double>(*said / span.step)) * span.step;
  const bool steps = std::abs((*said - on_step).value()) <= arithmetic;
  const auto add = [&](std::string name, bool holds, Strength value, Strength limit, std::string_view relation,
                       std::string source, std::string remedy) {
    out.checks.push_back({.name = std::move(name),
                          .holds = holds,
                          .value = figure(value, "% vol", 2),
                          .limit = figure(limit, "% vol", 2),
                          .relation = relation,
                          .source = std::move(source),
                          .remedy = holds ? std::string() : std::move(remedy)});
  };
  const auto by = in[tolerance];
  const std::string source = by ? by->row.rules + ": " + by->row.source : "0.5 % vol, common practice, no source";
  const bool low = *said >= span.least - arithmetic * percent_vol, high = *said <= span.most + arithmetic * percent_vol;
  add("stated strength, not too low", low, *said, span.least, "at least", source,
      "print " + strong(span.up()) + " or more");
  add("stated strength, not too high", high, *said, span.most, "at most", source,
      "print " + strong(span.down()) + " or less");
  const auto row = in[step];
  add("stated strength goes in steps", steps, *said, on_step, "equals",
      row ? row->row.rules + ": " + row->row.source : "0.1 % vol, common practice, no source",
      "print " + strong(std::clamp<Strength>(on_step, span.up(), span.down())));
}

// What there is and what the sugar could still become.
void hold_total(const Inputs& in, Outcome& out) {
  const auto bound = in[total];
  const auto sugar = in.get(lot::sugar);
  if (!bound || !sugar) return;
  out.hold(total, *bound, in[lot::ethanol] + chemistry::potential_alcohol(*sugar), 2,
           "the law knows no such wine of this class: see the exceptions of its text");
}

}  // namespace

Outcome run(const Inputs& in) {
  const Strength found = in[lot::ethanol];
  const Span span = span_of(in);
  if (span.up() > span.down())
    throw InputError("no strength that may be printed lies near enough to " + strong(found),
                     "look at the rule sets of the recipe: their steps and tolerances leave none");
  const Strength close = std::round(static_cast<double>(found / span.step)) * span.step;
  Outcome out;
  out.result(nearest, std::clamp<Strength>(close, span.up(), span.down()));
  out.result(least, span.up());
  out.result(most, span.down());
  check_stated(in, span, out);
  hold_total(in, out);
  if (in.figures_only()) return out;
  out.note(
      fmt::format("in steps of {}, between {} and {}; the tolerance is for the analysis of whoever controls the wine, "
                  "and the nearest figure leaves most of it",
                  strong(span.step), strong(span.up()), strong(span.down())));
  if (!in[tolerance]) out.note("no rule set of this recipe gives a tolerance for this wine: 0.5 % vol was taken");
  return out;
}

}  // namespace vatwright::label::strength
