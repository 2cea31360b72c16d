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

// Of a mass, in the lot or, where no law counts it and nobody knows yet how much must there will be, over the fruit
// alone (lab::come_about).
struct Weighing {
  const Inputs& in;
  const Question& q;
  Outcome& out;

  // Of what acts in it, in the lot.
  MassConcentration acting(Mass product) const { return product / *q.tank * q.acts_in_it; }
  MassConcentration counted(Mass product) const { return q.counted(product / *q.tank); }

  bool enough() const { return false; }
  void leave() {}

  Mass exact() const { return exact_mass(in, q); }
  bool allowed(Mass exact) const { return keeps(exact, exact); }
  void refuse(Mass exact) {
    weigh_nothing(out);
    plain_dose::refuse(q.law, counted(exact), out);
  }

  // What was weighed already stays as it was.
  Mass measured(Mass exact, lab::Rounding rounding) const {
    return in.decided(mass).value_or(lab::rounded<Mass>(exact, rounding, to_balance));
  }
  bool keeps(Mass, Mass product) const { return !q.tank || in.decided(mass) || !passes(q.law, counted(product)); }
  Check closing(Mass exact, Mass weighed) const {
    constexpr std::string_view way_out = "make up a solution of known strength";
    if (!q.tank)
      return lab::aim_from_nothing("mass", "g", 2, exact, lab::left_by_balance)
          .closing(exact, weighed, "dose times fruit, with the rounded mass", way_out);
    return lab::aim_from_nothing("dose", plain_dose::given.unit, plain_dose::given.decimals, acting(exact),
                                 lab::left_by_balance)
        .closing(acting(exact), acting(weighed), "dose times volume, with the rounded mass", way_out);
  }
  void withhold(Check closing) {
    out.checks.push_back(std::move(closing));
    weigh_nothing(out);
  }

  void give(Mass, Mass weighed, Check closing) {
    out.checks.push_back(std::move(closing));
    out.result(mass, weighed);
    if (q.tank) {
      out.result(plain_dose::given, acting(weighed));
      keep_account(in, q, counted(weighed), out);
      lab::move_facts(in, q.of, weighed / *q.tank, out);
      leave_unknown(in, q.of, {.mass = weighed}, out);
      hold(q.law, counted(weighed), out);
      out.additions.push_back(
          {.substance = q.of.id, .mass = weighed, .dose = figure(MassConcentration(weighed / *q.tank), "g/hL", 2)});
    } else {
      out.reagents.push_back(q.of.id);
    }
    if (in.has(per_fruit) && !in.figures_only()) strew(in, q, weighed, out);
  }
};

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

// Of a volume (lab::come_about); what is asked for is the share of the lot.
struct Pouring {
  const Inputs& in;
  const Question& q;
  Outcome& out;

  Fraction share(Volume product) const { return product / *q.tank; }

  bool enough() const { return false; }
  void leave() {}

  Fraction exact() const {
    check_strength(in, q);
    const Fraction whole = exact_share(in, q);
    if (lab::too_much_water(in, whole))
      throw InputError("the water of this dose, with that of earlier treatments, passes what the rules allow",
                       "take a stronger product, or less of it");
    return whole;
  }
  bool allowed(Fraction exact) const { return !passes(q.law, in_the_lot(in, exact)); }
  void refuse(Fraction exact) {
    pour_nothing(in, out);
    plain_dose::refuse(q.law, in_the_lot(in, exact), out);
  }

  Volume measured(Fraction exact, lab::Rounding rounding) const {
    return in.decided(volume).value_or(lab::rounded<Volume>(exact * *q.tank, rounding, to_measure));
  }
  bool keeps(Fraction, Volume product) const {
    return in.decided(volume) || !passes(q.law, in_the_lot(in, share(product)));
  }
  Check closing(Fraction exact, Volume product) const {
    return lab::aim_from_nothing("liquid dose", "mL/hL", 2, exact, lab::left_by_cylinder)
        .closing(exact, share(product), "dose times volume, with the rounded volume",
                 "dilute the product to a known volume first");
  }
  void withhold(Check closing) {
    out.checks.push_back(std::move(closing));
    pour_nothing(in, out);
  }

  void give(Fraction, Volume product, Check closing) {
    out.checks.push_back(std::move(closing));
    const Fraction poured = share(product);
    out.result(volume, product);
    if (in.has(strength)) {
      out.result(plain_dose::given, in_the_lot(in, poured));
      keep_account(in, q, in_the_lot(in, poured), out);
      lab::move_facts(in, q.of, in_the_lot(in, poured), out);
      hold(q.law, in_the_lot(in, poured), out);
    } else if (lot::is_counted(q.of.id) && !in.figures_only()) {
      out.note(fmt::format("the strength of the liquid was not given: put what it brings of {} under 'treated with'",
                           q.of.id));
    }
    leave_unknown(in, q.of, {.volume = product}, out);
    if (!out.poured) count_water(in, poured, out);
    Addition addition{.substance = q.of.id, .volume = product, .dose = figure(poured, "mL/hL", 2)};
    if (in.has(strength)) addition.strength = print(in[strength], "g/L", 1);
    out.additions.push_back(std::move(addition));
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
  if (in.has(liquid) || in.has(liquid_activity))
    lab::come_about(Pouring{in, q, out});
  else
    lab::come_about(Weighing{in, q, out});
  if (!in.figures_only()) out.note("try it at the bench first, with the same product and the same water");
  return out;
}

}  // namespace vatwright::cellar::plain_dose
