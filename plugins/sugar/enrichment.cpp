#include "plugins/sugar/enrichment.hpp"

#include "plugins/chemistry/alcoholometry.hpp"
#include "plugins/chemistry/sucrose.hpp"
#include "plugins/chemistry/sweetening.hpp"
#include "plugins/lab/agents.hpp"
#include "plugins/sugar/aim.hpp"
#include "plugins/sugar/enrichment_law.hpp"
#include "plugins/sugar/sweetener.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <cmath>
#include <optional>

namespace vatwright::sugar::enrichment {
namespace {

using chemistry::SweetMust;

// Handbooks' yields, and whether they count sugar as it is weighed, lie that far apart (common practice, no source).
constexpr double usual_off_of_yield = 0.10;

struct Question : Stirring {
  Enriched before;
  std::optional<tirage::Bottles> bottles;  // that a cuvée goes into

  bool concentrated() const { return sweetener.strength.has_value(); }
  Enriched counted(const SweetMust& then) const {
    return {before.gained + gain(then), before.by_tirage + gain(then),
            (1.0 + before.volume) * (then.volume / now.volume) - 1.0, total(then), then.dissolved};
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

// What it is on the sack, whatever it is used for.
std::string_view product(const Question& q) { return q.concentrated() ? concentrate : sucrose; }

Question read(const Inputs& in) {
  tirage::require(in);
  const auto& id = in[substance].id;
  const bool concentrated = id == concentrate || id == tirage::of_concentrate;
  Question q{{must_of(in), stirred_in(id, concentrated, in.get(strength)), yield_of(in)}, so_far(in), {}};
  if (tirage::is_meant(in)) q.bottles.emplace(in, q.factor);
  return q;
}

lab::Aim<Strength> aim_of(const Inputs& in, const Question& q) {
  if (in.has(stated))
    return aim_of_stated<Strength>("potential alcohol with the stated amount", target.unit, 2, q.total(q.now),
                                   q.total(q.after(in[stated] * q.now.volume)));
  return strength_aim(target, in[target],
                      q.sweetener.left_by_rounding() * (q.bottles ? q.before.by_tirage : q.before.gained));
}

void write_results(const Question& q, Mass added, const SweetMust& then, Outcome& out) {
  out.result(mass, added);
  out.result(dose, added / q.now.volume);
  out.result(volume_after, then.volume);
  out.result(volume_gained, then.volume - q.now.volume);
  out.result(sugar_after, then.sugar);
  out.result(potential, q.total(then));
  if (q.bottles) q.bottles->write(then, out);
}

void change_lot(const Inputs& in, const Question& q, Mass added, const SweetMust& then, Outcome& out) {
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
  const Enriched counted = q.counted(then);
  if (q.bottles)
    out.change(lot::tirage_gained, counted.by_tirage);
  else
    out.change(lot::strength_gained, counted.gained);
  if (q.concentrated() && !q.bottles) out.change(lot::volume_gained, counted.volume);
  lab::pour(in, {q.now.volume, then.volume, added}, then.ethanol, out);
}

void compare(const Question& q, Strength wanted, Mass added, Outcome& out) {
  if (q.concentrated()) return;
  // Yield counted on the sugar as it is weighed; neither its inversion nor the volume gained.
  const Strength gained = wanted - q.total(q.now);
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
  out.note(yield_words(in) + (q.concentrated()
                                  ? ""
                                  : fmt::format("; 1 kg of sucrose counts as {} kg of glucose and fructose, which "
                                                "it becomes",
                                                print_number(q.sweetener.what.hexose.value(), 3))));
  if (!q.concentrated() && !q.bottles)
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

// What is particular to a dose of sugar.
struct Dosing : lab::Job<lab::Aim<Strength>> {
  static constexpr const auto& decided = mass;
  static constexpr std::string_view model = "balance of masses on the must with the rounded amount",
                                    way_out = "sweeten a larger lot";
  const Question& q;
  Bounds<Enriched> law;

  Mass exact() const {
    if (const auto amount = in.get(sugar::stated)) return *amount * q.now.volume;
    return chemistry::sweetener_for_strength(q.now, q.sweetener.what, aim.wanted, q.factor);
  }
  Mass measured(Mass exact, lab::Rounding rounding) const { return q.sweetener.measured(exact, rounding); }
  Strength reached(Mass added) const { return q.total(q.after(added)); }

  // Tirage liqueur is no enrichment.
  bool allowed(Mass exact) const {
    return (q.bottles || lab::may_take(in, purpose::enrich, product(q), out)) && keeps(exact);
  }
  bool keeps(Mass added) const {
    const SweetMust then = q.after(added);
    return !law.forbid(q.counted(then)) && (!q.bottles || q.bottles->stand(then));
  }
  void refuse(Mass exact) const {
    const SweetMust would_be = q.after(exact);
    const std::string remedy = what_is_allowed(exact);
    law.hold(q.counted(would_be), remedy, out);
    if (q.bottles) q.bottles->hold(would_be, remedy + std::string(tirage::stronger_bottles), out);
    say_law(in, law, q.concentrated(), out);
    if (q.bottles) q.bottles->say(in, q.now, would_be, out);
  }
  std::string what_is_allowed(Mass exact) const {
    const Mass most = lab::most_allowed_of(*this, exact);
    std::string remedy = fmt::format("nothing was dosed. The limits leave no room for {} in this lot", product(q));
    if (lab::any(most))
      remedy = fmt::format("nothing was dosed. The limits allow {} kg of {}, which gives {}{}: {}",
                           print_number(most / kilogram, 2), product(q),
                           print(lab::down_to_step<Strength>(reached(most), 0.01 * percent_vol), "% vol", 2),
                           q.bottles ? " and " + print(q.after(most).sugar, "g/L", 1) + " of sugar in all" : "",
                           stated ? "state less" : "lower the target");
    if (!in.has(lot::zone) && !q.bottles) remedy += "; say in which zone the grapes grew";
    if (!in.has(lot::stage)) remedy += "; say whether it is must or wine, by its 'stage'";
    return remedy;
  }
  // The limits are of what was enriched: an untouched must may be as strong as it grew.
  void hold(Mass added) const {
    if (lab::any(added)) return;  // before the closing check
    if (q.bottles) q.bottles->hold(q.now, std::string(tirage::too_sweet), out);
    if (q.before.any()) law.hold(q.counted(q.now), "more was added before than the limit allows", out);
  }

  void settle(Mass added) const {
    const SweetMust then = q.after(added);
    write_results(q, added, then, out);
    if (!lab::any(added)) return;
    change_lot(in, q, added, then, out);
    law.hold(q.counted(then), {}, out);
    if (q.bottles) q.bottles->hold(then, std::string(tirage::too_sweet), out);
  }
  void order(Mass added) const {
    const SweetMust then = q.after(added);
    q.sweetener.order(!q.bottles         ? product(q)
                      : q.concentrated() ? tirage::of_concentrate
                                         : tirage::of_sucrose,
                      added, q.now.volume, out);
    ask_for_room(then.volume - q.now.volume, out);
    if (q.bottles) q.bottles->ask_for(then, out);
  }

  void leave() const {
    note_enough(fmt::format("strong enough already: {}, {}", print(q.total(q.now), "% vol", 2), yield_words(in)),
                q.total(q.now));
    say_sugar(in, q, out);
    if (q.bottles) q.bottles->say(in, q.now, q.now, out);
    if (q.before.any()) say_law(in, law, q.concentrated(), out);
  }
  void tell(Mass, Mass added) const {
    const SweetMust then = q.after(added);
    if (lab::any(added)) compare(q, aim.wanted, added, out);
    if (q.bottles) q.bottles->tabulate(then, out);
    say(in, q, then, out);
    say_law(in, law, q.concentrated(), out);
  }
};

}  // namespace

Outcome run(const Inputs& in) {
  Outcome out;
  const Question q = read(in);
  if (!q.bottles) out.reagents.emplace_back(lab::gas_of_fermentation);
  lab::come_about(Dosing{{in, out, aim_of(in, q), in.has(stated)}, q, bounds_of(in, q.concentrated())});
  return out;
}

}  // namespace vatwright::sugar::enrichment
