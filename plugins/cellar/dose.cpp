#include "plugins/cellar/dose.hpp"

#include "plugins/lab/decolouring.hpp"
#include "plugins/lab/dose.hpp"
#include "plugins/lab/dosed_limits.hpp"
#include "plugins/lab/moved_by.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace vatwright::cellar::plain_dose {
namespace {

// The question, read once.
struct Question {
  const SubstanceFacts& of;
  std::vector<Counted> law;
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
    out.note("no rule set of this recipe gives a limit for " + q.of.id +
             ": see its text whether it may be used at all");
  else
    lab::note_none_added_before(in, out);
}

void keep_account(const Inputs& in, const Question& q, MassConcentration dosed, Outcome& out) {
  if (lot::is_counted(q.of.id)) out.change(lot::treated_with, in.with(lot::treated_with, q.of.id, dosed));
}

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

// Over the grapes, before there is a tank to stir.
void strew(const Inputs& in, const Question& q, Mass weighed, Outcome& out) {
  out.task(fmt::format("strew or spray {} of {} over {} of grapes, evenly as the fruit comes in",
                       print(weighed, "g", 2), q.of.id, print(in[fruit], "kg", 0)));
}

// Where no law counts it and nobody knows yet how much must there will be.
void weigh_for_fruit(const Inputs& in, const Question& q, Outcome& out) {
  const Mass exact = exact_mass(in, q), weighed = in.decided(mass).value_or(to_balance(exact));
  out.result(mass, weighed);
  if (in.figures_only()) return;
  const auto aim = lab::aim_from_nothing("mass", "g", 2, exact, lab::left_by_balance);
  if (!lab::closes(aim, exact, weighed, "dose times fruit, with the rounded mass",
                   "make up a solution of known strength", out))
    return;
  out.reagents.push_back(q.of.id);
  strew(in, q, weighed, out);
}

void weigh(const Inputs& in, const Question& q, Outcome& out) {
  const Mass exact = exact_mass(in, q);
  const auto in_the_lot = [&](Mass product) { return q.counted(product / *q.tank); };
  if (passes(q.law, in_the_lot(exact))) {
    weigh_nothing(out);
    refuse(q.law, in_the_lot(exact), out);
    return;
  }
  const Mass weighed = in.decided(mass).value_or(
      lab::nearest_else_down([&](lab::Rounding rounding) { return lab::rounded<Mass>(exact, rounding, to_balance); },
                             [&](Mass m) { return !passes(q.law, in_the_lot(m)); }));
  const MassConcentration wanted = exact / *q.tank * q.acts_in_it, dosed = weighed / *q.tank * q.acts_in_it;
  const auto aim = lab::aim_from_nothing("dose", given.unit, given.decimals, wanted, lab::left_by_balance);
  if (!lab::closes(aim, wanted, dosed, "dose times volume, with the rounded mass",
                   "make up a solution of known strength", out)) {
    weigh_nothing(out);
    return;
  }
  out.result(mass, weighed);
  out.result(given, dosed);
  keep_account(in, q, in_the_lot(weighed), out);
  lab::move_facts(in, q.of, weighed / *q.tank, out);
  hold(q.law, in_the_lot(weighed), out);
  out.additions.push_back(
      {.substance = q.of.id, .mass = weighed, .dose = figure(MassConcentration(weighed / *q.tank), "g/hL", 2)});
  if (in.has(per_fruit) && !in.figures_only()) strew(in, q, weighed, out);
}

// --- by volume

Fraction exact_share(const Inputs& in, const Question& q) {
  if (in.has(by_units)) return in[by_units] / in[liquid_activity];
  return in[liquid] / q.acts_in_it;
}

// A liquid that a law counts must say how strong it is.
void check_strength(const Inputs& in, const Question& q) {
  if (!q.law.empty() && !in.has(strength))
    throw InputError(fmt::format("the rules count {} by its mass, and the dose is a volume", q.of.id),
                     "give 'strength': what acts in the liquid, such as 200 g/L, from its label");
}

MassConcentration in_the_lot(const Inputs& in, Fraction share) {
  return share * in.get(strength).value_or(MassConcentration{});
}

void pour_nothing(const Inputs& in, Outcome& out) {
  out.result(volume, Volume{});
  if (in.has(strength)) out.result(given, MassConcentration{});
}

// The water of the liquid counts with that of other treatments; so little thins nothing that is measured.
void count_water(const Inputs& in, Fraction share, Outcome& out) {
  const Fraction so_far = in.get(lot::water_added).value_or(Fraction{}) + share;
  out.change(lot::water_added, std::min<Fraction>(so_far, coherent<Fraction>(1)));
}

void pour(const Inputs& in, const Question& q, Outcome& out) {
  check_strength(in, q);
  const Fraction whole = exact_share(in, q);
  if (lab::too_much_water(in, whole))
    throw InputError("the water of this dose, with that of earlier treatments, passes what the rules allow",
                     "take a stronger product, or less of it");
  if (passes(q.law, in_the_lot(in, whole))) {
    pour_nothing(in, out);
    refuse(q.law, in_the_lot(in, whole), out);
    return;
  }
  const Volume exact = whole * *q.tank;
  const Volume measured = in.decided(volume).value_or(
      lab::nearest_else_down([&](lab::Rounding rounding) { return lab::rounded<Volume>(exact, rounding, to_measure); },
                             [&](Volume v) { return !passes(q.law, in_the_lot(in, v / *q.tank)); }));
  const Fraction share = measured / *q.tank;
  const auto aim = lab::aim_from_nothing("liquid dose", "mL/hL", 2, whole, lab::left_by_cylinder);
  if (!lab::closes(aim, whole, share, "dose times volume, with the rounded volume",
                   "dilute the product to a known volume first", out)) {
    pour_nothing(in, out);
    return;
  }
  out.result(volume, measured);
  if (in.has(strength)) {
    out.result(given, in_the_lot(in, share));
    keep_account(in, q, in_the_lot(in, share), out);
    lab::move_facts(in, q.of, in_the_lot(in, share), out);
    hold(q.law, in_the_lot(in, share), out);
  } else if (lot::is_counted(q.of.id) && !in.figures_only()) {
    out.note(fmt::format("the strength of the liquid was not given: put what it brings of {} under 'treated with'",
                         q.of.id));
  }
  count_water(in, share, out);
  Addition addition{.substance = q.of.id, .volume = measured, .dose = figure(share, "mL/hL", 2)};
  if (in.has(strength)) addition.strength = print(in[strength], "g/L", 1);
  out.additions.push_back(std::move(addition));
}

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
  if (in.has(liquid) || in.has(liquid_activity))
    pour(in, q, out);
  else if (in.has(per_fruit) && !q.tank)
    weigh_for_fruit(in, q, out);
  else
    weigh(in, q, out);
  if (!in.figures_only()) out.note("try it at the bench first, with the same product and the same water");
  return out;
}

}  // namespace vatwright::cellar::plain_dose
