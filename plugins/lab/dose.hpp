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

// Holds what is really weighed against the aim; a dose that this returns false for is not ordered.
template <class Quantity>
bool closes(const Aim<Quantity>& aim, Quantity exact, Quantity dosed, std::string model, std::string_view way_out,
            Outcome& out) {
  out.checks.push_back(aim.closing(exact, dosed, std::move(model), way_out));
  return out.checks.back().holds;
}

// Of an amount that is counted from nothing: earlier doses brought no more than all of it. `left`: by what is weighed
// or measured out.
template <class Quantity>
Aim<Quantity> aim_from_nothing(std::string_view name, std::string_view unit, int decimals, Quantity wanted,
                               double left) {
  return {name, unit, decimals, wanted, coarse * wanted, left * wanted};
}

// How a dose comes about, in one order for all that dose. What is particular to one is a Job:
//
// - bool enough(): nothing is needed; then leave() tells so
//
// - Exact exact(): the dose before rounding; throws InputError where none comes to what is wanted
//
// - bool allowed(Exact): by the rules, and by what may be used at all; else refuse(Exact) tells what would be
//
// - Amount measured(Exact, Rounding): what a balance or a cylinder shows of it
//
// - bool keeps(Exact, Amount): the limits allow what is really weighed
//
// - Check closing(Exact, Amount): what that makes of the lot; withhold(Check) where it is not what was wanted
//
// - void give(Exact, Amount, Check): results, addition, changes of the lot, what is held against the limits, notes
//
// Nothing is given that does not close, and nothing that the limits forbid.
template <class Job>
void come_about(Job&& job) {
  if (job.enough()) return job.leave();
  const auto exact = job.exact();
  if (!job.allowed(exact)) return job.refuse(exact);
  const auto amount = nearest_else_down([&](Rounding rounding) { return job.measured(exact, rounding); },
                                        [&](const auto& shown) { return job.keeps(exact, shown); });
  if (!job.keeps(exact, amount)) return job.refuse(exact);
  Check closing = job.closing(exact, amount);
  if (!closing.holds) return job.withhold(std::move(closing));
  job.give(exact, amount, std::move(closing));
}

}  // namespace vatwright::lab
