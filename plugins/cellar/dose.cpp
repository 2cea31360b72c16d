#include "plugins/cellar/dose.hpp"

#include "plugins/lab/decolouring.hpp"
#include "plugins/lab/dose.hpp"
#include "plugins/lab/dosed_limits.hpp"
#include "plugins/lab/moved_by.hpp"
#include "plugins/lab/treatment_water.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <type_traits>

namespace vatwright::cellar::plain_dose {
namespace {

// The question, read once.
struct Question {
  const SubstanceFacts& of;
  lab::Law law;
  std::optional<Volume> tank;
  Fraction acts_in_it;

  // What the law counts, and the lot's account keeps, of so much product in a volume of the lot.
  MassConcentration counted(MassConcentration product) const {
    return by_formula(of) ? product : MassConcentration(product * acts_in_it);
  }
};

void check_belongs(const Inputs& in) {
  if (in[substance].form == "gas" && !in.has(per_volume) && !in.has(per_fruit))
    throw InputError(in[substance].id + " is a gas, and goes by its mass",
                     "give 'dose', such as 5 g/hL, as the scale under the cylinder shows it; cellar.gas fills a head "
                     "space");
  const auto refuse_alone = [&](const Input& input, bool used, const char* needs) {
    if (in.has(input) && !used)
      throw InputError(fmt::format("'{}' is given, but {}", input.name, needs), "give both, or leave it out");
  };
  const bool units = in.has(by_units), is_liquid = in.has(liquid) || (units && in.has(liquid_activity));
  refuse_alone(activity, units, "no 'dose in units'");
  refuse_alone(liquid_activity, units, "no 'dose in units'");
  refuse_alone(fruit, in.has(per_fruit), "no 'dose on fruit'");
  refuse_alone(strength, is_liquid, "no dose of a liquid");
  if (units && in.has(activity) == in.has(liquid_activity))
    throw InputError("a dose in units needs the activity of the product: one figure, from its label",
                     "give 'activity', such as 3000 U/g, or 'liquid activity', such as 500 U/mL");
  if (units && in.has(acts))
    throw InputError("'share that acts' is given beside a dose in units", "the activity says what acts: leave it out");
}

Question read(const Inputs& in) {
  check_belongs(in);
  const auto& of = in[substance];
  Question q{of, law_of(in, of), in.get(lot::volume), in.get(acts).value_or(coherent<Fraction>(1))};
  if (!q.tank && !in.has(per_fruit))
    throw InputError("a dose by volume needs the volume of the lot", "give 'volume', such as 48 hL");
  if (!q.tank && !q.law.empty())
    throw InputError(fmt::format("the rules count {} by volume, and the volume is not known", of.id),
                     "give 'volume': of the must that these grapes are expected to give");
  return q;
}

void say_law(const Inputs& in, const Question& q, Outcome& out) {
  if (in.figures_only()) return;
  if (q.law.empty())
    lab::note_unlimited(q.of.id, out);
  else
    lab::note_not_stated(in, q.law, out);
}

constexpr std::string_view seed_takes_along =
    "crystals take potassium, tartaric acid and acidity along, how much is foretold by cold.tartrate: measure them "
    "again before anything rests on them";

// --- by mass

Mass exact_mass(const Inputs& in, const Question& q) {
  if (in.has(per_fruit)) {
    if (!in.has(fruit)) throw InputError("'dose on fruit' needs the mass of the grapes", "give 'fruit', such as 4.2 t");
    return in[per_fruit] * in[fruit] / q.acts_in_it;
  }
  if (in.has(by_units)) return in[by_units] * *q.tank / in[activity];
  return in[per_volume] * *q.tank / q.acts_in_it;
}

void weigh_nothing(Outcome& out) {
  out.result(mass, Mass{});
  out.result(given, MassConcentration{});
}

// Of copper whose share in the product no formula tells, but the label.
void raise_copper(const SubstanceFacts& of, MassConcentration counted, Outcome& out) {
  const auto counts = [&](const lab::DosedLimit& row) {
    return row.substance == of.id && row.limit == &lab::copper_added;
  };
  if (!lab::by_formula(of) && std::any_of(lab::dosed_limits.begin(), lab::dosed_limits.end(), counts))
    out.raise(lot::copper, counted);
}

// Of a mass, in the lot or, where no law counts it and nobody knows yet how much must there will be, over the fruit
// alone: what is reached is what acts in the lot, or that mass.
template <class Reached>
struct Weighing : lab::Job<lab::Aim<Reached>> {
  static constexpr const auto& decided = mass;
  static constexpr bool in_the_lot = std::is_same_v<Reached, MassConcentration>;
  static constexpr std::string_view model = in_the_lot ? "dose times volume, with the rounded mass"
                                                       : "dose times fruit, with the rounded mass",
                                    way_out = "make up a solution of known strength";
  using lab::Job<lab::Aim<Reached>>::in, lab::Job<lab::Aim<Reached>>::out;
  const Question& q;

  Mass exact() const { return exact_mass(in, q); }
  Reached reached(Mass product) const {
    if constexpr (in_the_lot)
      return product / *q.tank * q.acts_in_it;
    else
      return product;
  }

  bool allowed(Mass exact) const { return keeps(exact); }
  bool keeps(Mass product) const { return !in_the_lot || !lab::passed_by(q.law, counted(product)); }
  MassConcentration counted(Mass product) const { return q.counted(product / *q.tank); }
  void refuse(Mass exact) const { plain_dose::refuse(q.law, counted(exact), out); }
  void hold(Mass weighed) const {
    if (in_the_lot && lab::any(weighed)) lab::hold(q.law, counted(weighed), 2, "give less", out);
  }

  void settle(Mass weighed) const {
    out.result(mass, weighed);
    if constexpr (in_the_lot)
      out.result(given, reached(weighed));
    else if (!lab::any(weighed))
      out.result(given, MassConcentration{});
    if (!lab::any(weighed)) return;
    if (!in_the_lot) return out.reagents.push_back(q.of.id);
    lab::keep_account(q.of.id, counted(weighed), out);
    lab::move_facts(in, q.of, weighed / *q.tank, out);
    if (lab::carry_on_past_seed(q.of.id, out) && !in.figures_only()) out.note(std::string(seed_takes_along));
    raise_copper(q.of, counted(weighed), out);
    leave_unknown(in, q.of, {.mass = weighed}, out);
  }
  void order(Mass weighed) const {
    if (in_the_lot) out.additions.push_back(lab::Portion{.mass = weighed}.ordered(q.of.id, *q.tank));
    if (in.has(per_fruit) && !in.figures_only())
      out.task(fmt::format("strew or spray {} of {} over {} of grapes, evenly as the fruit comes in",
                           print(weighed, "g", 2), q.of.id, print(in[fruit], "kg", 0)));
  }
};

// --- by volume

MassConcentration in_the_lot(const Inputs& in, Fraction share) {
  return share * in.get(strength).value_or(MassConcentration{});
}

// Up to a thousandth of the volume its water thins nothing by as much as a laboratory would find (common practice, no
// source), and what was read stays a reading.
void pour_liquid(const Inputs& in, Fraction share, Outcome& out) {
  constexpr Fraction unseen = coherent<Fraction>(1e-3);
  if (share > unseen)
    lab::pour_water(in, share, out);
  else
    lab::count_water(in, share, out);
}

// A liquid that a law counts must say how strong it is.
Fraction exact_share(const Inputs& in, const Question& q) {
  if (!q.law.empty() && !in.has(strength))
    throw InputError(fmt::format("the rules count {} by its mass, and the dose is a volume", q.of.id),
                     "give 'strength': what acts in the liquid, such as 200 g/L, from its label");
  const Fraction share = in.has(by_units) ? Fraction(in[by_units] / in[liquid_activity]) : in[liquid] / q.acts_in_it;
  if (lab::too_much_water(in, share))
    throw InputError("the water of this dose, with that of earlier treatments, passes what the rules allow",
                     "take a stronger product, or less of it");
  return share;
}

// Of a volume; what is asked for is the share of the lot.
struct Pouring : lab::Job<lab::Aim<Fraction>> {
  static constexpr const auto& decided = volume;
  static constexpr std::string_view model = "dose times volume, with the rounded volume",
                                    way_out = "dilute the product to a known volume first";
  const Question& q;

  Volume exact() const { return aim.wanted * *q.tank; }
  Fraction reached(Volume product) const { return product / *q.tank; }

  bool allowed(Volume) const { return !lab::passed_by(q.law, in_the_lot(in, aim.wanted)); }
  bool keeps(Volume product) const { return !lab::passed_by(q.law, in_the_lot(in, reached(product))); }
  void refuse(Volume) const { plain_dose::refuse(q.law, in_the_lot(in, aim.wanted), out); }
  void hold(Volume product) const {
    if (lab::any(product)) lab::hold(q.law, in_the_lot(in, reached(product)), 2, "give less", out);
  }

  void settle(Volume product) const {
    const Fraction poured = reached(product);
    const MassConcentration brought = in_the_lot(in, poured);
    out.result(volume, product);
    if (in.has(strength)) out.result(given, brought);
    if (!lab::any(product)) return;
    lab::move_facts(in, q.of, brought, out);
    raise_copper(q.of, brought, out);
    if (in.has(strength)) {
      lab::keep_account(q.of.id, brought, out);
    } else if (lot::is_counted(q.of.id) && !in.figures_only()) {
      out.note(fmt::format("the strength of the liquid was not given: put what it brings of {} under 'treated with'",
                           q.of.id));
    }
    leave_unknown(in, q.of, {.volume = product}, out);
    if (!out.poured) pour_liquid(in, poured, out);
  }
  void order(Volume product) const {
    out.additions.push_back(lab::Portion{.volume = product}.ordered(
        q.of.id, *q.tank, 2, in.has(strength) ? print(in[strength], "g/L", 1) : ""));
  }
};

}  // namespace

Outcome run(const Inputs& in) {
  Outcome out;
  const Question q = read(in);
  say_law(in, q, out);
  const bool decided = in.decided(mass) || in.decided(volume);
  if (!decided && !lab::colour_stays(in, q.of.id, out)) {
    weigh_nothing(out);
    return out;
  }
  if (in.has(liquid) || in.has(liquid_activity)) {
    const auto share = exact_share(in, q);
    lab::come_about(
        Pouring{{in, out, lab::aim_from_nothing("liquid dose", "mL/hL", 2, share, lab::left_by_cylinder), true}, q});
  } else if (q.tank) {
    const MassConcentration acting = exact_mass(in, q) / *q.tank * q.acts_in_it;
    const auto aim = lab::aim_from_nothing("dose", given.unit, given.decimals, acting, lab::left_by_balance);
    lab::come_about(Weighing<MassConcentration>{{in, out, aim, true}, q});
  } else {
    const auto aim = lab::aim_from_nothing("mass", "g", 2, exact_mass(in, q), lab::left_by_balance);
    lab::come_about(Weighing<Mass>{{in, out, aim, true}, q});
  }
  lab::keep_copper(out);
  if (!in.figures_only()) out.note("try it at the bench first, with the same product and the same water");
  return out;
}

}  // namespace vatwright::cellar::plain_dose
