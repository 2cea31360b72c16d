#include "plugins/sugar/sweetening.hpp"

#include "host/facts/account.hpp"
#include "plugins/chemistry/alcoholometry.hpp"
#include "plugins/chemistry/extract.hpp"
#include "plugins/chemistry/sweetening.hpp"
#include "plugins/lab/agents.hpp"
#include "plugins/lab/dose.hpp"
#include "plugins/sugar/aim.hpp"
#include "plugins/sugar/bounds.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace vatwright::sugar::sweetening {
namespace {

using chemistry::SweetMust;

struct Question {
  SweetMust now;
  chemistry::Sweetener sweetener;
  chemistry::YieldFactor factor;
  MassConcentration extract;
  Strength before;  // gained by earlier sweetening, at the volume of today
  lab::Aim<MassConcentration> aim;
  bool concentrated;

  SweetMust after(Mass added) const { return chemistry::sweetened(now, sweetener, added); }
  Strength total(const SweetMust& wine) const { return chemistry::total_strength(wine, factor); }
  Strength gained_in(const SweetMust& then) const { return before + total(then) - total(now); }
  // A litre's sugar and extract, in a litre's mass.
  MassFraction solids_of(const SweetMust& then) const {
    const MassConcentration dissolved = then.sugar + extract * (now.volume / then.volume);
    return coherent<MassFraction>((dissolved / chemistry::wine_density(then.ethanol, dissolved)).value());
  }
};

chemistry::Sweetener what_is_stirred_in(const Inputs& in, bool concentrated) {
  if (concentrated && !in.has(strength))
    throw InputError("rectified concentrated must needs its strength", "such as 'strength: 65 °Brix', from its paper");
  if (!concentrated && in.has(strength))
    throw InputError("strength was given, but sucrose has none",
                     "say 'substance: rectified concentrated must', or leave strength out");
  return concentrated ? chemistry::concentrated_must(in[strength]) : chemistry::sucrose_sweetener();
}

void refuse_what_is_no_still_wine(const Inputs& in) {
  if (in.get(lot::wine_class) == "sparkling")
    throw InputError("a sparkling wine gets its sweetness with the expedition liqueur", "take sugar.dosage");
  if (in.get(lot::stage) == stage_must)
    throw InputError("the lot is a must, and what is sweetened here is a wine",
                     "sugar.enrichment reckons sugar for a must; of a wine say 'stage: wine'");
}

Question question_of(const Inputs& in) {
  refuse_what_is_no_still_wine(in);
  const bool concentrated = in[substance].id == concentrate;
  const auto sugar = in[lot::sugar];
  const SweetMust now{in[lot::volume], sugar, in[lot::ethanol], chemistry::must_dissolved(sugar, MassFraction{})};
  const chemistry::YieldFactor factor = yield_of(in);
  const Strength before = in.get(lot::sweetening_gained).value_or(Strength{});
  constexpr MassConcentration close = 0.3 * gram_per_litre, hidden = 0.05 * gram_per_litre;
  const double left = concentrated ? lab::left_by_cylinder : lab::left_by_balance;
  const MassConcentration of_rounding = left * before * factor;
  Question q{now,         what_is_stirred_in(in, concentrated),
             factor,      std::max<MassConcentration>(in[extract] + in[usual_extract], lab::least_sugar_free_extract),
             before,      {},
             concentrated};
  if (in.has(stated))
    q.aim = aim_of_stated<MassConcentration>("sugar with the stated amount", target.unit, 1, sugar,
                                             q.after(in[stated] * now.volume).sugar);
  else
    q.aim = {target.name, target.unit, 1, in[target], close, std::max<MassConcentration>(hidden, of_rounding)};
  return q;
}

Bounds<SweetMust> bounds_of(const Inputs& in, const Question& q) {
  Bounds<SweetMust> law;
  law.add(gain_limit, in[gain_limit], 2, [&q](const SweetMust& then) { return q.gained_in(then); });
  law.add(solids_limit, in[solids_limit], 2, [&q](const SweetMust& then) { return q.solids_of(then); });
  law.add(ethanol_limit, in[ethanol_limit], 2, [](const SweetMust& then) { return then.ethanol; });
  law.add(total_limit, in[total_limit], 2, [&q](const SweetMust& then) { return q.total(then); });
  return law;
}

Density concentrate_of(const Inputs& in) {
  return chemistry::sucrose_density(in[strength], chemistry::strength_temperature);
}

Mass measured_out(const Inputs& in, const Question& q, Mass exact, lab::Rounding rounding) {
  if (!q.concentrated) return lab::rounded<Mass>(exact, rounding, to_balance);
  const Density density = concentrate_of(in);
  return lab::rounded<Volume>(exact / density, rounding, to_measure) * density;
}

void write_figures(const Question& q, Mass added, const SweetMust& then, Outcome& out) {
  out.result(mass, added);
  out.result(volume_after, then.volume);
  out.result(sugar_after, then.sugar);
  out.result(ethanol_after, then.ethanol);
  out.result(gained, q.gained_in(then));
  out.result(solids, q.solids_of(then));
}

void change_wine(const Inputs& in, const Question& q, Mass added, const SweetMust& then, Outcome& out) {
  out.change(lot::volume, then.volume);
  out.change(lot::sugar, then.sugar);
  out.change(lot::ethanol, then.ethanol);
  out.change(lot::sweetening_gained, q.gained_in(then));
  out.forget(lot::soluble_solids);  // a refractometer does not read sugar beside alcohol
  out.poured = Poured{q.now.volume, then.volume, added};
  if (const auto ph = lab::thinned_ph(in, *out.poured, then.ethanol)) out.change(lot::ph, *ph);
}

void order(const Inputs& in, const Question& q, Mass added, Outcome& out) {
  Addition addition{.substance = std::string(q.concentrated ? of_concentrate : of_sucrose)};
  if (q.concentrated) {
    addition.volume = added / concentrate_of(in);
    addition.strength = print(in[strength], "°Brix", 1);
    addition.dose = figure(*addition.volume / q.now.volume, "L/hL", 2);
  } else {
    addition.mass = added;
    addition.dose = figure(added / q.now.volume, "g/L", 2);
  }
  out.additions.push_back(std::move(addition));
}

void say_law(const Inputs& in, const Bounds<SweetMust>& law, Outcome& out) {
  if (in.figures_only()) return;
  if (law.empty()) out.note("no rule set of this recipe gives a limit for sweetening: check the law of the place");
  if (const auto silent = facts::silent_on(in, lot::sweetening_gained); in[gain_limit] && !silent.empty())
    out.note("all sweetening counts together; " + facts::states_nothing(silent) +
             " under 'sweetening gained', which is taken as none");
}

void say(const Inputs& in, const SweetMust& then, Outcome& out) {
  out.note(
      fmt::format("a wine with {} of sugar and live yeast ferments again, in the tank or in the bottle: filter it "
                  "sterile, or hold the yeast back with what the law allows, and keep its free sulfur dioxide up",
                  print(then.sugar, "g/L", 1)));
  out.note("the register has a line for it in most places: amount, what it was, day and lot");
  if (!in.has(lot::zone) && in[total_limit])
    out.note("the zone of the grapes was not stated: the strictest ceiling of the total strength was taken");
}

void write_dose(const Inputs& in, const Question& q, Mass added, Outcome& out) {
  const SweetMust then = q.after(added);
  write_figures(q, added, then, out);
  if (!(added > Mass{})) return;
  order(in, q, added, out);
  change_wine(in, q, added, then, out);
  out.task(fmt::format("leave room in the vessel: the volume grows by {}", print(then.volume - q.now.volume, "L", 1)));
}

// What is particular to a dose of sugar for a wine (lab::come_about).
struct Dosing {
  const Inputs& in;
  const Question& q;
  const Bounds<SweetMust>& law;
  Outcome& out;

  bool enough() const { return !in.has(stated) && q.aim.met_by(q.now.sugar); }
  void leave() {
    write_figures(q, Mass{}, q.now, out);
    out.checks.push_back(q.aim.met(q.now.sugar));
    out.note(fmt::format("sweet enough already: {} of sugar", print(q.now.sugar, "g/L", 1)));
    if (q.aim.nearly(q.now.sugar)) out.note(std::string(lab::no_more_than_rounding_leaves));
  }

  Mass exact() const {
    if (const auto amount = in.get(stated)) return *amount * q.now.volume;
    return chemistry::sweetener_for_sugar(q.now, q.sweetener, q.aim.wanted);
  }
  bool allowed(Mass exact) {
    return lab::may_take(in, purpose::sweeten, in[substance].id, out) && !law.forbid(q.after(exact));
  }
  void refuse(Mass exact) {
    const Mass most = measured(law.room(exact, [&](Mass m) { return q.after(m); }), lab::Rounding::down);
    write_figures(q, Mass{}, q.now, out);
    std::string remedy = "nothing was dosed. The limits leave no room for it in this lot";
    if (most > Mass{})
      remedy = fmt::format("nothing was dosed. The limits allow {} kg, which gives {} of sugar: {}",
                           print_number(most / kilogram, 2), print(q.after(most).sugar, "g/L", 1),
                           in.has(stated) ? "state less" : "lower the target");
    law.hold(q.after(exact), remedy, out);
    say_law(in, law, out);
  }

  Mass measured(Mass exact, lab::Rounding rounding) const { return measured_out(in, q, exact, rounding); }
  bool keeps(Mass, Mass added) const { return !law.forbid(q.after(added)); }
  Check closing(Mass exact, Mass added) const {
    return q.aim.closing(q.after(exact).sugar, q.after(added).sugar,
                         "balance of masses on the wine with the rounded amount", "sweeten a larger lot");
  }
  void withhold(Check closing) {
    out.checks.push_back(std::move(closing));
    write_figures(q, Mass{}, q.now, out);
  }

  void give(Mass, Mass added, Check closing) {
    out.checks.push_back(std::move(closing));
    write_dose(in, q, added, out);
    law.hold(q.after(added), "the wine is at a limit as it stands", out);
    say_law(in, law, out);
    if (!in.figures_only()) say(in, q.after(added), out);
  }
};

}  // namespace

Outcome run(const Inputs& in) {
  Outcome out;
  const Question q = question_of(in);
  const auto law = bounds_of(in, q);
  if (const auto held = in.decided(mass)) {
    write_dose(in, q, *held, out);
    if (*held > Mass{})
      law.hold(q.after(*held), {}, out);
    else
      out.checks.push_back(q.aim.met(q.now.sugar));
  } else {
    lab::come_about(Dosing{in, q, law, out});
  }
  return out;
}

}  // namespace vatwright::sugar::sweetening
