#include "plugins/sugar/enrichment.hpp"

#include "plugins/chemistry/alcoholometry.hpp"
#include "plugins/chemistry/rounding.hpp"
#include "plugins/chemistry/sucrose.hpp"
#include "plugins/chemistry/sweetening.hpp"
#include "plugins/sugar/closing.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

namespace vatwright::sugar::enrichment {
namespace {

using chemistry::Rounding;
using chemistry::Sweetener;
using chemistry::SweetMust;

constexpr double slack = 1e-9;  // figures this near are equal
constexpr auto little_alcohol = 0.2 * percent_vol;

struct Question {
  SweetMust now;
  Sweetener sweetener;
  chemistry::YieldFactor factor;
  Strength wanted;
  bool concentrated;

  SweetMust after(Mass added) const { return chemistry::sweetened(now, sweetener, added); }
  Strength strength(const SweetMust& must) const { return chemistry::total_strength(must, factor); }
  Fraction gain(const SweetMust& must) const { return must.volume / now.volume - 1.0; }
};

// --- what the must is

bool ferments(const Inputs& in) { return in.get(lot::ethanol).value_or(Strength{}) > little_alcohol; }

// Sugar by analysis goes before sugar by density. The density of a must that ferments says nothing.
MassConcentration sugar_of(const Inputs& in) {
  if (const auto known = in.get(lot::sugar)) return *known;
  if (ferments(in))
    throw InputError("the sugar of a must that ferments does not follow from its density",
                     "give its 'sugar'; sugar.fermentation reckons it from the original density");
  const auto density = in.get(lot::density);
  if (density) return chemistry::must_sugar(*density, in[non_sugar]);
  if (const auto solids = in.get(lot::soluble_solids))
    return chemistry::must_sugar(chemistry::sucrose_density(*solids, chemistry::strength_temperature), in[non_sugar]);
  throw InputError("the sugar of the must is not known", "give one of 'sugar', 'density', 'soluble solids'");
}

SweetMust must_of(const Inputs& in) {
  const auto sugar = sugar_of(in);
  return {in[lot::volume], sugar, in.get(lot::ethanol).value_or(Strength{}),
          chemistry::must_dissolved(sugar, in[non_sugar])};
}

Sweetener sweetener_of(const Inputs& in) {
  const bool concentrated = in[substance].id == concentrate;
  if (concentrated && !in.has(strength))
    throw InputError("rectified concentrated must needs its strength", "such as 'strength: 65 °Brix', from its paper");
  if (!concentrated && in.has(strength))
    throw InputError("strength was given, but " + in[substance].id + " has none",
                     "say 'substance: rectified concentrated must', or leave strength out");
  return concentrated ? chemistry::concentrated_must(in[strength]) : chemistry::sucrose_sweetener();
}

Question read(const Inputs& in) {
  return {must_of(in), sweetener_of(in), yield_of(in), in[target], in[substance].id == concentrate};
}

// --- the amount

Density concentrate_density(const Inputs& in) {
  return chemistry::sucrose_density(in[strength], chemistry::strength_temperature);
}

Mass rounded(const Inputs& in, const Question& q, Mass exact, Rounding rounding) {
  if (!q.concentrated) return chemistry::rounded<Mass>(exact, rounding, to_balance);
  const Density density = concentrate_density(in);
  return chemistry::rounded<Volume>(exact / density, rounding, to_measure) * density;
}

// Never more than `exact`; an amount that arithmetic leaves a hair below a step stands on it.
Mass rounded_down(const Inputs& in, const Question& q, Mass exact) {
  return rounded(in, q, exact * (1 + slack), Rounding::down);
}

void write_results(const Question& q, Mass added, const SweetMust& then, Outcome& out) {
  out.result(mass, added);
  out.result(dose, added / q.now.volume);
  out.result(volume_after, then.volume);
  out.result(volume_gained, then.volume - q.now.volume);
  out.result(sugar_after, then.sugar);
  out.result(potential, q.strength(then));
}

// --- the law

struct Law {
  std::optional<Bound<Strength>> gain, total;
  std::optional<Bound<Fraction>> volume;
};

Law law_of(const Inputs& in, const Question& q) {
  Law law{in[gain_limit], in[total_limit], {}};
  if (q.concentrated) law.volume = in[volume_limit];
  return law;
}

template <class Quantity>
bool passes(const std::optional<Bound<Quantity>>& bound, Quantity value) {
  return bound && bound->row.sense == Sense::at_most && !bound->met_by(value);
}

bool forbids(const Law& law, const Question& q, const SweetMust& then) {
  return passes(law.total, q.strength(then)) || passes(law.gain, Strength(q.strength(then) - q.strength(q.now))) ||
         passes(law.volume, q.gain(then));
}

// The largest mass that keeps every limit; none when the must is past one as it stands.
Mass room(const Inputs& in, const Question& q, const Law& law) {
  const Strength now = q.strength(q.now);
  Strength most = q.wanted;
  if (law.total) most = std::min(most, law.total->value);
  if (law.gain) most = std::min<Strength>(most, now + law.gain->value);
  if (most <= now) return Mass{};
  Mass mass = chemistry::sweetener_for_strength(q.now, q.sweetener, most, q.factor);
  if (law.volume) mass = std::min(mass, chemistry::sweetener_for_gain(q.now, q.sweetener, law.volume->value));
  return rounded_down(in, q, mass);
}

template <class Quantity>
void hold(const Limit<Quantity>& limit, const std::optional<Bound<Quantity>>& bound, Quantity value,
          const std::string& remedy, Outcome& out) {
  if (bound) out.hold(limit, *bound, value, 2, remedy);
}

void hold_limits(const Question& q, const Law& law, const SweetMust& then, const std::string& remedy, Outcome& out) {
  hold<Strength>(gain_limit, law.gain, q.strength(then) - q.strength(q.now), remedy, out);
  hold(total_limit, law.total, q.strength(then), remedy, out);
  hold(volume_limit, law.volume, q.gain(then), remedy, out);
}

void refuse(const Inputs& in, const Question& q, const Law& law, const SweetMust& would_be, Outcome& out) {
  const Mass most = room(in, q, law);
  const SweetMust then = q.after(most);
  const std::string remedy =
      most > Mass{} ? fmt::format("nothing was dosed. The limits allow {} kg of {}, which gives {}: lower the target{}",
                                  print_number(most / kilogram, 2), in[substance].id,
                                  print(std::floor(q.strength(then) / percent_vol * 100 + slack) / 1e4, "% vol", 2),
                                  in.has(lot::zone) ? "" : ", or say in which zone the grapes grew")
                    : std::string("nothing was dosed. The must is at a limit as it stands");
  write_results(q, Mass{}, q.now, out);
  hold_limits(q, law, would_be, remedy, out);
}

// --- the dose

void write_addition(const Inputs& in, const Question& q, Mass added, Outcome& out) {
  Addition addition{.substance = in[substance].id};
  if (q.concentrated) {
    addition.volume = added / concentrate_density(in);
    addition.strength = print(in[strength].value(), "°Brix", 1);
    addition.dose = figure(*addition.volume / q.now.volume, "L/hL", 2);
  } else {
    addition.mass = added;
    addition.dose = figure(added / q.now.volume, "g/L", 2);
  }
  out.additions.push_back(std::move(addition));
}

void change_lot(const Inputs& in, const Question& q, Mass added, const SweetMust& then, Outcome& out) {
  out.change(lot::volume, then.volume);
  out.change(lot::sugar, then.sugar);
  if (in.has(lot::ethanol)) out.change(lot::ethanol, then.ethanol);
  if (const auto density = in.get(lot::density))
    out.change(lot::density, Density((q.now.volume * *density + added) / then.volume));
  if (in.has(lot::soluble_solids)) {
    if (ferments(in))
      out.forget(lot::soluble_solids);
    else
      out.change(lot::soluble_solids, then.dissolved);
  }
  dilute(in, q.now.volume, then.volume, out);
}

void compare(const Question& q, Mass added, Outcome& out) {
  if (q.concentrated) return;
  // Yield counted on the sugar as it is weighed; neither its inversion nor the volume gained.
  const Strength gained = q.wanted - q.strength(q.now);
  const Mass rule = q.now.volume * gained * q.factor;
  out.opinions.push_back({.name = "sucrose by the rule that the yield counts the sugar as it is weighed",
                          .here = figure(added, "kg", 2),
                          .there = figure(rule, "kg", 2),
                          .matters = std::abs((rule - added) / added) > 0.02,
                          .source = std::string(trade_rule.title) + ", " + std::string(trade_rule.place)});
}

void say(const Inputs& in, const Question& q, const SweetMust& then, Outcome& out) {
  out.note(fmt::format(
      "by the yield of {} of sugar for 1 % vol{}", print(in[yield].value(), "g/L", 2),
      q.concentrated ? "" : "; 1 kg of sucrose counts as 1.053 kg of glucose and fructose, which it becomes"));
  const double gained = (then.volume - q.now.volume) / litre;
  out.note(fmt::format("leave room: the volume grows by {}", print(gained * 1e-3, "L", 1)));
  if (!q.concentrated)
    out.note("dissolve the sugar in a part of the must, never in water, and pump over until none lies on the bottom");
  if (!in.has(lot::sugar))
    out.note(fmt::format("the must's sugar was reckoned from its density, which is good to {}", must_uncertainty));
  if (in.get(lot::stage) == "wine")
    out.note("the lot is said to be a wine: many laws let sugar be added to must and to wine that still ferments only");
  out.note("measure density again after mixing; the limits count all enrichments of this must together");
}

void add(const Inputs& in, const Question& q, const Law& law, Mass added, Outcome& out) {
  const SweetMust then = q.after(added);
  write_results(q, added, then, out);
  if (added > Mass{}) {
    write_addition(in, q, added, out);
    change_lot(in, q, added, then, out);
  }
  hold_limits(q, law, then, "the must is at a limit as it stands", out);
  out.checks.push_back(
      closing_check(target, q.wanted, q.strength(then), "balance of masses on the must with the rounded amount"));
  if (in.figures_only()) return;
  if (added > Mass{}) compare(q, added, out);
  say(in, q, then, out);
}

}  // namespace

Outcome run(const Inputs& in) {
  Outcome out;
  const Question q = read(in);
  const Law law = law_of(in, q);
  if (const auto held = in.decided(mass)) {
    add(in, q, law, *held, out);
    return out;
  }
  const Mass exact = chemistry::sweetener_for_strength(q.now, q.sweetener, q.wanted, q.factor);
  Mass weighed = rounded(in, q, exact, Rounding::nearest);
  // Rounding alone must not carry the must over a limit that the exact amount keeps.
  if (forbids(law, q, q.after(weighed))) weighed = rounded_down(in, q, exact);
  if (const SweetMust would_be = q.after(exact); forbids(law, q, would_be))
    refuse(in, q, law, would_be, out);
  else
    add(in, q, law, weighed, out);
  return out;
}

}  // namespace vatwright::sugar::enrichment
