#include "plugins/sugar/enrichment.hpp"

#include "plugins/chemistry/alcoholometry.hpp"
#include "plugins/chemistry/sucrose.hpp"
#include "plugins/chemistry/sweetening.hpp"
#include "plugins/lab/agents.hpp"
#include "plugins/sugar/aim.hpp"
#include "plugins/sugar/enrichment_law.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

namespace vatwright::sugar::enrichment {
namespace {

using chemistry::Sweetener;
using chemistry::SweetMust;
using lab::Rounding;

// Handbooks' yields, and whether they count sugar as it is weighed, lie that far apart (common practice, no source).
constexpr double usual_off_of_yield = 0.10;

struct Question {
  SweetMust now;
  Sweetener sweetener;
  chemistry::YieldFactor factor;
  lab::Aim<Strength> aim;
  bool concentrated;
  std::optional<tirage::Bottles> bottles;  // that a cuvée goes into

  SweetMust after(Mass added) const { return chemistry::sweetened(now, sweetener, added); }
  Strength strength(const SweetMust& must) const { return chemistry::total_strength(must, factor); }
  Gain gain(const SweetMust& then) const {
    return {strength(then) - strength(now), strength(then), then.volume / now.volume - 1.0, then.dissolved};
  }
};

// --- what the must is

// By one reading, as sucrose at 20 °C.
MassFraction dissolved_by(const Inputs& in, std::string_view by) {
  const Temperature t = in.get(lot::temperature).value_or(chemistry::strength_temperature);
  if (const auto density = in.get(lot::density)) return from_density(*density, by, t);
  return from_solids(in[lot::soluble_solids], by, t);
}

MassConcentration sugar_by(const Inputs& in, std::string_view by) {
  return chemistry::must_sugar(chemistry::sucrose_density(dissolved_by(in, by), chemistry::strength_temperature),
                               non_sugar_of(in));
}

// Sugar by analysis goes before sugar by density. The density of a must that ferments says nothing.
MassConcentration sugar_of(const Inputs& in) {
  if (const auto known = in.get(lot::sugar)) return *known;
  if (has_alcohol(in))
    throw InputError("the sugar of a must that ferments does not follow from its density",
                     "give its 'sugar'; sugar.fermentation reckons it from the original density");
  if (!in.has(lot::density) && !in.has(lot::soluble_solids))
    throw InputError("the sugar of the must is not known", "give one of 'sugar', 'density', 'soluble solids'");
  return sugar_by(in, raw_instrument(in));
}

std::optional<Density> density_of(const Inputs& in) {
  const auto by = raw_instrument(in);
  if (by.empty() || !in.has(lot::density)) return in.get(lot::density);
  if (has_alcohol(in))
    throw InputError("the density of a must that ferments cannot be corrected without its original density",
                     "let sugar.fermentation correct it, with its 'instrument', and leave it out here");
  return chemistry::sucrose_density(dissolved_by(in, by), chemistry::strength_temperature);
}

SweetMust must_of(const Inputs& in) {
  const auto sugar = sugar_of(in);
  return {in[lot::volume], sugar, in.get(lot::ethanol).value_or(Strength{}),
          chemistry::must_dissolved(sugar, in[non_sugar])};
}

bool is_concentrated(const Inputs& in) {
  return in[substance].id == concentrate || in[substance].id == tirage::of_concentrate;
}

// What it is on the sack, whatever it is used for.
std::string_view product(const Question& q) { return q.concentrated ? concentrate : sucrose; }

Sweetener sweetener_of(const Inputs& in) {
  const bool concentrated = is_concentrated(in);
  if (concentrated && !in.has(strength))
    throw InputError("rectified concentrated must needs its strength", "such as 'strength: 65 °Brix', from its paper");
  if (!concentrated && in.has(strength))
    throw InputError("strength was given, but " + in[substance].id + " has none",
                     "say 'substance: rectified concentrated must', or leave strength out");
  return concentrated ? chemistry::concentrated_must(in[strength]) : chemistry::sucrose_sweetener();
}

Question read(const Inputs& in) {
  tirage::require(in);
  const bool for_bottles = tirage::is_meant(in);
  const Strength gained = in.get(for_bottles ? lot::tirage_gained : lot::strength_gained).value_or(Strength{});
  const bool concentrated = is_concentrated(in);
  const double left = concentrated ? lab::left_by_cylinder : lab::left_by_balance;
  Question q{must_of(in), sweetener_of(in), yield_of(in), {}, concentrated, {}};
  if (in.has(stated))
    q.aim = aim_of_stated<Strength>("potential alcohol with the stated amount", target.unit, 2, q.strength(q.now),
                                    q.strength(q.after(in[stated] * q.now.volume)));
  else
    q.aim = strength_aim(target, in[target], left * gained);
  if (for_bottles) q.bottles.emplace(in, q.factor);
  return q;
}

// --- the amount

Density concentrate_density(const Inputs& in) {
  return chemistry::sucrose_density(in[strength], chemistry::strength_temperature);
}

Mass rounded(const Inputs& in, const Question& q, Mass exact, Rounding rounding) {
  if (!q.concentrated) return lab::rounded<Mass>(exact, rounding, to_balance);
  const Density density = concentrate_density(in);
  return lab::rounded<Volume>(exact / density, rounding, to_measure) * density;
}

void write_results(const Question& q, Mass added, const SweetMust& then, Outcome& out) {
  out.result(mass, added);
  out.result(dose, added / q.now.volume);
  out.result(volume_after, then.volume);
  out.result(volume_gained, then.volume - q.now.volume);
  out.result(sugar_after, then.sugar);
  out.result(potential, q.strength(then));
  if (q.bottles) q.bottles->write(then, out);
}

// --- what bounds it

bool is_allowed(const Question& q, const Law& law, const SweetMust& then) {
  return !law.forbids(q.gain(then)) && (!q.bottles || q.bottles->stand(then));
}

// The most up to `mass` that leaves the juice no heavier than the law allows.
Mass most_by_solids(const Question& q, const Law& law, Mass mass) {
  Mass low{}, high = mass;
  if (!law.forbids_solids(q.after(high).dissolved)) return high;
  constexpr int halvings = 50;
  for (int i = 0; i < halvings; ++i) {
    const Mass middle = (low + high) / 2.0;
    (law.forbids_solids(q.after(middle).dissolved) ? high : low) = middle;
  }
  return low;
}

// The largest mass that keeps every limit; none when the must is past one as it stands.
Mass room(const Inputs& in, const Question& q, const Law& law) {
  const Strength now = q.strength(q.now);
  const Strength most = std::min(q.aim.wanted, law.most_total(now).value_or(q.aim.wanted));
  if (most <= now) return Mass{};
  Mass mass = chemistry::sweetener_for_strength(q.now, q.sweetener, most, q.factor);
  if (const auto volume = law.most_volume())
    mass = std::min(mass, chemistry::sweetener_for_gain(q.now, q.sweetener, *volume));
  mass = most_by_solids(q, law, mass);
  if (q.bottles && !q.bottles->stand(q.after(mass))) mass = q.bottles->most(q.now, q.sweetener, mass);
  return rounded(in, q, mass, Rounding::down);
}

std::string what_is_allowed(const Inputs& in, const Question& q, const Law& law) {
  const Mass most = room(in, q, law);
  const SweetMust then = q.after(most);
  std::string remedy = fmt::format("nothing was dosed. The limits leave no room for {} in this lot", product(q));
  if (most > Mass{})
    remedy = fmt::format(
        "nothing was dosed. The limits allow {} kg of {}, which gives {}{}: {}", print_number(most / kilogram, 2),
        product(q), print(std::floor(q.strength(then) / percent_vol * 100 + lab::hair) / 100 * percent_vol, "% vol", 2),
        q.bottles ? " and " + print(then.sugar, "g/L", 1) + " of sugar in all" : "",
        in.has(stated) ? "state less" : "lower the target");
  if (!in.has(lot::zone) && !q.bottles) remedy += "; say in which zone the grapes grew";
  if (!in.has(lot::stage)) remedy += "; say whether it is must or wine, by its 'stage'";
  return remedy;
}

// --- the dose

void write_addition(const Inputs& in, const Question& q, Mass added, Outcome& out) {
  Addition addition{.substance = std::string(product(q))};
  if (q.bottles) addition.substance = q.concentrated ? tirage::of_concentrate : tirage::of_sucrose;
  if (q.concentrated) {
    addition.volume = added / concentrate_density(in);
    addition.strength = print(in[strength], "°Brix", 1);
    addition.dose = figure(*addition.volume / q.now.volume, "L/hL", 2);
  } else {
    addition.mass = added;
    addition.dose = figure(added / q.now.volume, "g/L", 2);
  }
  out.additions.push_back(std::move(addition));
}

void change_lot(const Inputs& in, const Question& q, const Law& law, Mass added, const SweetMust& then, Outcome& out) {
  out.change(lot::volume, then.volume);
  out.change(lot::sugar, then.sugar);
  if (in.has(lot::ethanol)) out.change(lot::ethanol, then.ethanol);
  if (const auto density = density_of(in))
    out.change(lot::density, Density((q.now.volume * *density + added) / then.volume));
  if (in.has(lot::soluble_solids)) {
    if (has_alcohol(in))
      out.forget(lot::soluble_solids);
    else
      out.change(lot::soluble_solids, then.dissolved);
  }
  if (q.bottles)
    out.change(lot::tirage_gained, law.tirage_gained(q.gain(then)));
  else
    out.change(lot::strength_gained, law.strength_gained(q.gain(then)));
  if (q.concentrated && !q.bottles) out.change(lot::volume_gained, law.volume_gained(q.gain(then)));
  out.poured = Poured{q.now.volume, then.volume, added};
  if (const auto ph = lab::thinned_ph(in, *out.poured, then.ethanol)) out.change(lot::ph, *ph);
}

void compare(const Question& q, Mass added, Outcome& out) {
  if (q.concentrated) return;
  // Yield counted on the sugar as it is weighed; neither its inversion nor the volume gained.
  const Strength gained = q.aim.wanted - q.strength(q.now);
  const Mass rule = q.now.volume * gained * q.factor;
  out.opinions.push_back({.name = "sucrose by the rule that the yield counts the sugar as it is weighed",
                          .here = figure(added, "kg", 2),
                          .there = figure(rule, "kg", 2),
                          .matters = std::abs((rule - added) / added) > usual_off_of_yield,
                          .source = std::string(trade_rule.title) + ", " + std::string(trade_rule.place)});
}

std::string_view reading_of(const Inputs& in) {
  return in.has(lot::density) ? lot::density.name : lot::soluble_solids.name;
}

void say_sugar(const Inputs& in, const Question& q, Outcome& out) {
  if (in.has(lot::sugar)) return;
  out.note(
      fmt::format("the must's sugar was reckoned from its {}, which is good to {}", reading_of(in), must_uncertainty));
  if (const auto t = unsaid_temperature(in)) {
    const auto tool = in.has(lot::density) ? glass_hydrometer : refractometer;
    const auto more = where_known([&]() -> MassConcentration { return sugar_by(in, tool) - q.now.sugar; });
    note_unsaid(*t, reading_of(in), tool, more, out);
  }
}

std::string yield_words(const Inputs& in) {
  return fmt::format("by the yield of {} of sugar for 1 % vol", print(in[yield], "g/L", 2));
}

void say(const Inputs& in, const Question& q, const SweetMust& then, Outcome& out) {
  out.note(yield_words(in) + (q.concentrated
                                  ? ""
                                  : fmt::format("; 1 kg of sucrose counts as {} kg of glucose and fructose, which "
                                                "it becomes",
                                                print_number(q.sweetener.hexose.value(), 3))));
  if (!q.concentrated && !q.bottles)
    out.note("dissolve the sugar in a part of the must, never in water, and pump over until none lies on the bottom");
  say_sugar(in, q, out);
  if (q.bottles)
    out.note(
        "the lot is a sparkling wine: the sugar was taken as tirage liqueur for its second fermentation, which "
        "the law bounds by itself");
  else if (in.get(lot::stage) == stage_wine)
    out.note(
        "the lot is said to be a wine: many laws let sugar be added to must and to wine that still ferments only; "
        "for a second fermentation in bottle say 'class: sparkling', and the pressure is reckoned");
  out.note(q.bottles ? "measure the sugar again after mixing, by analysis, before you fill a bottle"
                     : "measure density again after mixing");
  if (q.bottles) q.bottles->say(in, q.now, then, out);
}

void pour(const Inputs& in, const Question& q, const Law& law, Mass added, const SweetMust& then, Outcome& out) {
  write_results(q, added, then, out);
  if (added > Mass{}) {
    write_addition(in, q, added, out);
    change_lot(in, q, law, added, then, out);
    law.hold(q.gain(then), "the must is at a limit as it stands", out);
    out.task(
        fmt::format("leave room in the vessel: the volume grows by {}", print(then.volume - q.now.volume, "L", 1)));
    if (q.bottles) q.bottles->ask_for(then, out);
  }
  if (q.bottles) q.bottles->hold(then, std::string(tirage::too_sweet), out);
}

// What is particular to a dose of sugar (lab::come_about).
struct Dosing {
  const Inputs& in;
  const Question& q;
  const Law& law;
  Outcome& out;

  bool enough() const { return !in.has(stated) && q.aim.met_by(q.strength(q.now)); }
  // The limits are of what was enriched: an untouched must may be as strong as it grew.
  void leave() {
    write_results(q, Mass{}, q.now, out);
    out.checks.push_back(q.aim.met(q.strength(q.now)));
    if (q.bottles) q.bottles->hold(q.now, std::string(tirage::too_sweet), out);
    if (in.figures_only()) return;
    out.note(fmt::format("strong enough already: {}, {}", print(q.strength(q.now), "% vol", 2), yield_words(in)));
    if (q.aim.nearly(q.strength(q.now))) out.note(std::string(lab::no_more_than_rounding_leaves));
    say_sugar(in, q, out);
    if (q.bottles) q.bottles->say(in, q.now, q.now, out);
    if (!law.was_enriched()) return;
    law.hold(q.gain(q.now), "more was added before than the limit allows", out);
    law.say(in, out);
  }

  Mass exact() const {
    if (const auto amount = in.get(stated)) return *amount * q.now.volume;
    return chemistry::sweetener_for_strength(q.now, q.sweetener, q.aim.wanted, q.factor);
  }
  // Tirage liqueur is no enrichment.
  bool allowed(Mass exact) {
    return (q.bottles || lab::may_take(in, purpose::enrich, product(q), out)) && is_allowed(q, law, q.after(exact));
  }
  void refuse(Mass exact) {
    const SweetMust would_be = q.after(exact);
    const std::string remedy = what_is_allowed(in, q, law);
    write_results(q, Mass{}, q.now, out);
    law.hold(q.gain(would_be), remedy, out);
    if (q.bottles) q.bottles->hold(would_be, remedy + std::string(tirage::stronger_bottles), out);
    if (in.figures_only()) return;
    law.say(in, out);
    if (q.bottles) q.bottles->say(in, q.now, would_be, out);
  }

  Mass measured(Mass exact, Rounding rounding) const { return rounded(in, q, exact, rounding); }
  bool keeps(Mass, Mass added) const { return is_allowed(q, law, q.after(added)); }
  Check closing(Mass exact, Mass added) const {
    return q.aim.closing(q.strength(q.after(exact)), q.strength(q.after(added)),
                         "balance of masses on the must with the rounded amount", "sweeten a larger lot");
  }
  void withhold(Check closing) {
    write_results(q, Mass{}, q.now, out);
    out.checks.push_back(std::move(closing));
  }

  void give(Mass, Mass added, Check closing) {
    const SweetMust then = q.after(added);
    pour(in, q, law, added, then, out);
    out.checks.push_back(std::move(closing));
    if (in.figures_only()) return;
    if (added > Mass{})
      compare(q, added, out);
    else
      out.note(std::string(lab::less_than_is_weighed));
    if (q.bottles) q.bottles->tabulate(then, out);
    say(in, q, then, out);
    law.say(in, out);
  }
};

// What is in the must by now.
void hold(const Inputs& in, const Question& q, const Law& law, Mass held, Outcome& out) {
  pour(in, q, law, held, q.after(held), out);
  if (held > Mass{}) return;
  out.checks.push_back(q.aim.met(q.strength(q.now)));
  if (law.was_enriched()) law.hold(q.gain(q.now), {}, out);
}

}  // namespace

Outcome run(const Inputs& in) {
  Outcome out;
  const Question q = read(in);
  const Law law(in, q.concentrated);
  if (!q.bottles) out.reagents.emplace_back(lab::gas_of_fermentation);
  if (const auto held = in.decided(mass))
    hold(in, q, law, *held, out);
  else
    lab::come_about(Dosing{in, q, law, out});
  return out;
}

}  // namespace vatwright::sugar::enrichment
