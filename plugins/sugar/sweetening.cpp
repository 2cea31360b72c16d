#include "plugins/sugar/sweetening.hpp"

#include "plugins/chemistry/extract.hpp"
#include "plugins/chemistry/sweetening.hpp"
#include "plugins/lab/agents.hpp"
#include "plugins/lab/allowance.hpp"
#include "plugins/lab/dose.hpp"
#include "plugins/sugar/aim.hpp"
#include "plugins/sugar/bounds.hpp"
#include "plugins/sugar/sweetener.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace vatwright::sugar::sweetening {
namespace {

using chemistry::SweetMust;

struct Question : Stirring {
  MassConcentration extract;
  Strength before;  // gained by earlier sweetening, at the volume of today

  Strength gained_in(const SweetMust& then) const { return before + gain(then); }
  // A litre's sugar and extract, in a litre's mass.
  MassFraction solids_of(const SweetMust& then) const {
    const MassConcentration dissolved = then.sugar + extract * (now.volume / then.volume);
    return coherent<MassFraction>((dissolved / chemistry::wine_density(then.ethanol, dissolved)).value());
  }
};

void refuse_what_is_no_still_wine(const Inputs& in) {
  if (in.get(lot::wine_class) == "sparkling")
    throw InputError("a sparkling wine gets its sweetness with the expedition liqueur", "take sugar.dosage");
  if (in.get(lot::stage) == stage_must)
    throw InputError("the lot is a must, and what is sweetened here is a wine",
                     "sugar.enrichment reckons sugar for a must; of a wine say 'stage: wine'");
}

Question question_of(const Inputs& in) {
  refuse_what_is_no_still_wine(in);
  const auto& id = in[substance].id;
  const SweetMust now{in[lot::volume], in[lot::sugar], in[lot::ethanol],
                      chemistry::must_dissolved(in[lot::sugar], MassFraction{})};
  return {{now, stirred_in(id, id == concentrate, in.get(strength)), yield_of(in)},
          std::max<MassConcentration>(in[extract] + in[usual_extract], lab::least_sugar_free_extract),
          in.get(lot::sweetening_gained).value_or(Strength{})};
}

lab::Aim<MassConcentration> aim_of(const Inputs& in, const Question& q) {
  if (in.has(stated))
    return aim_of_stated<MassConcentration>("sugar with the stated amount", target.unit, 1, q.now.sugar,
                                            q.after(in[stated] * q.now.volume).sugar);
  constexpr MassConcentration close = 0.3 * gram_per_litre, hidden = 0.05 * gram_per_litre;
  const MassConcentration of_rounding = q.sweetener.left_by_rounding() * q.before * q.factor;
  return {target.name, target.unit, 1, in[target], close, std::max<MassConcentration>(hidden, of_rounding)};
}

Bounds<SweetMust> bounds_of(const Inputs& in, const Question& q) {
  Bounds<SweetMust> law;
  law.add(gain_limit, in[gain_limit], [&q](const SweetMust& then) { return q.gained_in(then); });
  law.add(solids_limit, in[solids_limit], [&q](const SweetMust& then) { return q.solids_of(then); });
  law.add(ethanol_limit, in[ethanol_limit], [](const SweetMust& then) { return then.ethanol; });
  law.add(total_limit, in[total_limit], [&q](const SweetMust& then) { return q.total(then); });
  return law;
}

void write_figures(const Question& q, Mass added, const SweetMust& then, Outcome& out) {
  out.result(mass, added);
  out.result(volume_after, then.volume);
  out.result(sugar_after, then.sugar);
  out.result(ethanol_after, then.ethanol);
  out.result(gained, q.gained_in(then));
  out.result(solids, q.solids_of(then));
}

void say_law(const Inputs& in, const Bounds<SweetMust>& law, Outcome& out) {
  if (law.empty()) out.note("no rule set of this recipe gives a limit for sweetening: check the law of the place");
  if (in[gain_limit]) lab::note_taken_as_none(in, lot::sweetening_gained, "all sweetening counts together", out);
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

// What is particular to a dose of sugar for a wine.
struct Dosing : lab::Job<lab::Aim<MassConcentration>> {
  static constexpr const auto& decided = mass;
  static constexpr std::string_view model = "balance of masses on the wine with the rounded amount",
                                    way_out = "sweeten a larger lot";
  const Question& q;
  Bounds<SweetMust> law;

  Mass exact() const {
    if (const auto amount = in.get(sugar::stated)) return *amount * q.now.volume;
    return chemistry::sweetener_for_sugar(q.now, q.sweetener.what, aim.wanted);
  }
  Mass measured(Mass exact, lab::Rounding rounding) const { return q.sweetener.measured(exact, rounding); }
  MassConcentration reached(Mass added) const { return q.after(added).sugar; }

  bool allowed(Mass exact) const { return lab::may_take(in, purpose::sweeten, in[substance].id, out) && keeps(exact); }
  bool keeps(Mass added) const { return !law.forbid(q.after(added)); }
  void refuse(Mass exact) const {
    const Mass most = lab::most_allowed_of(*this, exact);
    std::string remedy = "nothing was dosed. The limits leave no room for it in this lot";
    if (lab::any(most))
      remedy = fmt::format("nothing was dosed. The limits allow {} kg, which gives {} of sugar: {}",
                           print_number(most / kilogram, 2), print(reached(most), "g/L", 1),
                           stated ? "state less" : "lower the target");
    law.hold(q.after(exact), remedy, out);
    say_law(in, law, out);
  }
  void hold(Mass added) const {
    if (lab::any(added)) law.hold(q.after(added), {}, out);
  }

  void settle(Mass added) const {
    const SweetMust then = q.after(added);
    write_figures(q, added, then, out);
    if (!lab::any(added)) return;
    out.change(lot::volume, then.volume);
    out.change(lot::sugar, then.sugar);
    out.change(lot::ethanol, then.ethanol);
    out.change(lot::sweetening_gained, q.gained_in(then));
    out.forget(lot::soluble_solids);  // a refractometer does not read sugar beside alcohol
    lab::pour(in, {q.now.volume, then.volume, added}, then.ethanol, out);
  }
  void order(Mass added) const {
    q.sweetener.order(q.sweetener.strength ? of_concentrate : of_sucrose, added, q.now.volume, out);
    ask_for_room(q.after(added).volume - q.now.volume, out);
  }

  void leave() const {
    note_enough(fmt::format("sweet enough already: {} of sugar", print(q.now.sugar, "g/L", 1)), q.now.sugar);
  }
  void tell(Mass, Mass added) const {
    say_law(in, law, out);
    say(in, q.after(added), out);
  }
};

}  // namespace

Outcome run(const Inputs& in) {
  Outcome out;
  const Question q = question_of(in);
  lab::come_about(Dosing{{in, out, aim_of(in, q), in.has(stated)}, q, bounds_of(in, q)});
  return out;
}

}  // namespace vatwright::sugar::sweetening
