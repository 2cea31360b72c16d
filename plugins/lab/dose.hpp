// What a dose is to reach, and how near to it is near enough: one rule for every calculation that doses.
//
// A lot within `unseen` of its target, or past it, is at the target: nothing is dosed. A dose is ordered
// when what is really weighed brings the lot within `close` of the target; any other is not, and the sheet
// says what to do instead. As rounding leaves less than `unseen` of a dose, the same step twice in a recipe
// orders once.
#pragma once

#include "host/plugin/outcome.hpp"
#include "plugins/lab/rounding.hpp"
#include "units/print.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>
#include <string_view>
#include <utility>

namespace vatwright::lab {

// Rounding that moves what is counted from nothing, such as sulfur dioxide, by more than this part of what was
// asked for is too coarse to dose by (common practice, no source).
inline constexpr double coarse = 0.05;

// So much of what a dose brings its rounding to the nearest figure may leave, a hair more than a 400th and a 200th: a
// balance shows 20.0 g to 0.1 g, a cylinder 1.00 L to 0.01 L.
inline constexpr double left_by_balance = 0.003, left_by_cylinder = 0.006;

inline constexpr std::string_view no_more_than_rounding_leaves =
    "what is missing to the target is no more than the rounding of a dose leaves: nothing is dosed for that";
inline constexpr std::string_view less_than_is_weighed =
    "what is missing to the target is less than can be weighed: nothing is dosed for that";

template <class Quantity>
struct Aim {
  std::string_view name;  // of the target, on the sheet
  std::string_view unit;
  int decimals = 1;
  Quantity wanted{};
  Quantity close{};
  Quantity unseen{};
  bool falls = false;  // a dose brings the figure down

  bool met_by(Quantity found) const {
    const Quantity rest = std::max<Quantity>(std::min<Quantity>(unseen, close), hair * wanted);
    return falls ? found <= wanted + rest : found >= wanted - rest;
  }
  // At the target, though the sheet shows that a little is missing.
  bool nearly(Quantity found) const {
    const bool reached = falls ? found <= wanted : found >= wanted;
    return met_by(found) && !reached && print(found, unit, decimals) != print(wanted, unit, decimals);
  }
  // What the lot has, against the target, where nothing is dosed.
  Check met(Quantity found, std::string remedy = {}) const {
    const bool holds = met_by(found);
    return check(std::string(name), found, holds, falls ? "at most" : "at least", std::string(as_asked_for),
                 std::move(remedy));
  }
  // What `model` makes of the lot with what is really weighed: `dosed`. It would make `exact` of the dose before
  // rounding, which is the target itself. `way_out`: how so small a dose is given all the same.
  Check closing(Quantity exact, Quantity dosed, std::string model, std::string_view way_out) const {
    constexpr double arithmetic = 1e-3;
    const bool adds_up = distance(exact) <= arithmetic * std::abs(close.value());
    const bool fine = distance(dosed) <= std::abs(close.value()) * (1 + hair);
    return check(
        "closing check: " + std::string(name), dosed, adds_up && fine, "equals", std::move(model),
        adds_up ? "nothing was dosed: the dose is too small to be weighed or measured out well; " + std::string(way_out)
                : "nothing was dosed: report this as a fault of the program");
  }

 private:
  double distance(Quantity found) const { return std::abs((found - wanted).value()); }
  Check check(std::string title, Quantity found, bool holds, std::string_view relation, std::string source,
              std::string remedy) const {
    return {.name = std::move(title),
            .holds = holds,
            .value = figure(found, unit, decimals),
            .limit = figure(wanted, unit, decimals),
            .relation = relation,
            .source = std::move(source),
            .remedy = holds ? std::string() : std::move(remedy)};
  }
};

// Of an amount that is counted from nothing: earlier doses brought no more than all of it. `left`: by what is weighed
// or measured out.
template <class Quantity>
Aim<Quantity> aim_from_nothing(std::string_view name, std::string_view unit, int decimals, Quantity wanted,
                               double left) {
  return {name, unit, decimals, wanted, coarse * wanted, left * wanted};
}

// What a balance or a cylinder shows of a substance, one of the two, and what acts of it in a volume of the lot.
struct Portion {
  std::optional<Mass> mass{};
  std::optional<Volume> volume{};
  MassConcentration acting{};

  // As it stands on the sheet; `strength` of what is measured out.
  Addition ordered(std::string_view substance, Volume lot, int decimals = 2, std::string strength = {}) const {
    const Figure dose = mass ? figure(MassConcentration(*mass / lot), "g/hL", decimals)
                             : figure(Fraction(*volume / lot), "mL/hL", decimals);
    return {.substance = std::string(substance),
            .strength = std::move(strength),
            .mass = mass,
            .volume = volume,
            .dose = dose};
  }
};

// Whether anything goes in.
template <class Quantity>
bool any(const Quantity& amount) {
  return amount > Quantity{};
}
inline bool any(const Portion& portion) {
  return any(portion.acting) || any(portion.mass.value_or(Mass{})) || any(portion.volume.value_or(Volume{}));
}

// How a dose comes about stands once, in come_about(). What is particular to one is a job, which derives from this and
// says:
//
// - decided: the result that the step decides on, as exact() counts it
//
// - exact(): the dose before rounding; throws InputError where none comes to what is wanted
//
// - reached(amount): what that makes of the lot, as the aim counts it; by a `model`, and with a `way_out` where so
//   little cannot be dosed
//
// - keeps(amount): the limits allow it
//
// - settle(amount): results, and what changes of the lot, of nothing too
//
// - order(amount): what is weighed or measured out, where that is something
//
// and, in place of what stands here, whatever else there is to do.
template <class Target>
struct Job {
  const Inputs& in;
  Outcome& out;
  Target aim;           // an Aim, or what answers as one
  bool stated = false;  // the amount was decided on elsewhere: the lot does not have it already

  // What a balance or a cylinder shows of it.
  Mass measured(Mass exact, Rounding rounding) const { return rounded<Mass>(exact, rounding, to_balance); }
  Volume measured(Volume exact, Rounding rounding) const { return rounded<Volume>(exact, rounding, to_measure); }
  // By the rules, and by what may be used at all; then by what is really weighed.
  bool allowed(const auto&) const { return true; }
  bool permits(const auto&, const auto&) const { return true; }
  // What else is measured out goes by the amount that may be given.
  void fit(const auto&) const {}
  // What goes in beside it.
  void beside() const {}
  // Holds the limits against what is in the lot then.
  void hold(const auto&) const {}

  // What to say of nothing, since the lot has enough; of what the limits forbid; of what cannot be weighed well enough;
  // and of what is given.
  void leave() const {}
  void refuse(const auto&) const {}
  void withhold() const {}
  void tell(const auto&, const auto&) const {}

  template <class Quantity>
  void note_enough(std::string words, Quantity found) const {
    out.note(std::move(words));
    if (aim.nearly(found)) out.note(std::string(no_more_than_rounding_leaves));
  }
};

// The most up to `exact` that the limits allow, as it is weighed; for limits that more of it only makes worse.
template <class Job, class Exact>
auto most_allowed_of(const Job& job, Exact exact) {
  return job.measured(most_allowed(exact, [&](Exact amount) { return !job.keeps(amount); }), Rounding::down);
}

// Nothing is given that does not close, and nothing that the limits forbid. Where figures alone are asked for, what was
// decided is held against the limits, and of a new decision nothing but the dose is looked at.
template <class Job>
void come_about(Job&& job) {
  using Amount = decltype(job.measured(job.exact(), Rounding::nearest));
  const Amount nothing{};
  Outcome& out = job.out;
  const bool in_words = !job.in.figures_only();
  const auto met = [&] { out.checks.push_back(job.aim.met(job.reached(nothing))); };
  if (const auto decided = job.in.decided(job.decided)) {
    const Amount held = job.measured(*decided, Rounding::none);
    job.settle(held);
    if (!job.stated && !any(held)) met();
    return job.hold(held);
  }
  if (!job.stated && job.aim.met_by(job.reached(nothing))) {
    job.settle(nothing);
    if (in_words) {
      met();
      job.leave();
      job.hold(nothing);
    }
    return job.beside();
  }
  const auto exact = job.exact();
  const auto refuse = [&] {
    job.settle(nothing);
    if (in_words) return job.refuse(exact);
    Check unknown{};  // what would have been given
    unknown.name = "refused";
    out.checks.push_back(std::move(unknown));
  };
  if (!job.allowed(exact)) return refuse();
  const Amount amount = nearest_else_down([&](Rounding rounding) { return job.measured(exact, rounding); },
                                          [&](const Amount& shown) { return job.keeps(shown); });
  if (!job.permits(exact, amount) || !job.keeps(amount)) return refuse();
  const auto meant = job.reached(exact);
  job.fit(amount);
  Check closing = job.aim.closing(meant, job.reached(amount), std::string(job.model), job.way_out);
  const bool closes = closing.holds;
  job.settle(closes ? amount : nothing);
  if (in_words || !closes) out.checks.push_back(std::move(closing));
  if (closes) job.beside();
  if (closes && any(amount)) job.order(amount);
  if (!in_words) return;
  if (!closes) return job.withhold();
  if (!any(amount)) out.note(std::string(less_than_is_weighed));
  job.hold(amount);
  job.tell(exact, amount);
}

}  // namespace vatwright::lab
