#include "plugins/cellar/dose.hpp"

#include "plugins/lab/dose.hpp"
#include "plugins/lab/dosed_limits.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

namespace vatwright::cellar::plain_dose {
namespace {

using Counted = lab::Allowance<MassConcentration>;

Volume lot_volume(const Inputs& in) {
  if (const auto known = in.get(lot::volume)) return *known;
  throw InputError("a dose by volume needs the volume of the lot", "give 'volume', such as 48 hL");
}

void say_law(const Inputs& in, const std::vector<Counted>& law, Outcome& out) {
  if (law.empty())
    out.note("no rule set of this recipe gives a limit for " + in[substance].id +
             ": see its text whether it may be used at all");
  else
    lab::note_none_added_before(in, out);
}

void keep_account(const Inputs& in, MassConcentration dosed, Outcome& out) {
  if (lot::is_counted(in[substance].id))
    out.change(lot::treated_with, in.with(lot::treated_with, in[substance].id, dosed));
}

// Liquids go by their label: no rule counts their volume.
void pour(const Inputs& in, Outcome& out) {
  const Volume exact = in[liquid] * lot_volume(in) / in[acts];
  const Volume measured = in.decided(volume) ? *in.decided(volume) : to_measure(exact);
  out.result(volume, measured);
  if (in.figures_only()) return;
  const Fraction whole = in[liquid] / in[acts];
  const auto aim =
      lab::Aim<Fraction>{"liquid dose", "mL/hL", 2, whole, lab::coarse * whole, lab::left_by_cylinder * whole};
  if (!lab::closes(aim, whole, Fraction(measured / lot_volume(in)), "dose times volume, with the rounded volume",
                   "dilute the product to a known volume first", out))
    return;
  out.additions.push_back({.substance = in[substance].id,
                           .volume = measured,
                           .dose = figure(Fraction(measured / lot_volume(in)), "mL/hL", 2)});
}

Mass exact_mass(const Inputs& in) {
  if (in.has(per_fruit)) {
    if (!in.has(fruit)) throw InputError("'dose on fruit' needs the mass of the grapes", "give 'fruit', such as 4.2 t");
    return in[per_fruit] * in[fruit] / in[acts];
  }
  return in[per_volume] * lot_volume(in) / in[acts];
}

void on_fruit(const Inputs& in, Outcome& out) {
  const Mass weighed = in.decided(mass) ? *in.decided(mass) : to_balance(exact_mass(in));
  out.result(mass, weighed);
  if (in.figures_only()) return;
  const auto aim = lab::aim_from_nothing("mass", "g", 2, exact_mass(in), lab::left_by_balance);
  if (!lab::closes(aim, exact_mass(in), weighed, "dose times fruit, with the rounded mass",
                   "make up a solution of known strength", out))
    return;
  out.reagents.push_back(in[substance].id);
  out.task(fmt::format("strew or spray {} of {} over {} of grapes, evenly as the fruit comes in",
                       print(weighed, "g", 2), in[substance].id, print(in[fruit], "kg", 0)));
  out.note("the law counts by volume: give what the must holds of it under 'treated with' once its volume is known");
}

void weigh(const Inputs& in, const std::vector<Counted>& law, Outcome& out) {
  const Volume tank = lot_volume(in);
  const MassConcentration wanted = in[per_volume];
  const auto passes = [&](MassConcentration dosed) {
    return std::any_of(law.begin(), law.end(), [&](const Counted& c) { return c.passed_by(dosed); });
  };
  if (passes(wanted)) {
    out.result(mass, Mass{});
    out.result(given, MassConcentration{});
    for (const auto& counted : law)
      counted.hold(
          wanted, 2,
          counted.forbids()
              ? std::string("nothing is weighed: it is not for this wine")
              : fmt::format(
                    "nothing is weighed. The limit allows {}{}",
                    print(lab::down_to_step<MassConcentration>(counted.room(), 0.1 * milligram_per_litre), "g/hL", 2),
                    counted.before > MassConcentration{} ? " more" : ""),
          out);
    return;
  }
  const Mass weighed =
      in.decided(mass)
          ? *in.decided(mass)
          : lab::nearest_else_down(
                [&](lab::Rounding rounding) { return lab::rounded<Mass>(exact_mass(in), rounding, to_balance); },
                [&](Mass m) { return !passes(m * in[acts] / tank); });
  const MassConcentration dosed = weighed * in[acts] / tank;
  const auto aim = lab::aim_from_nothing("dose", given.unit, given.decimals, wanted, lab::left_by_balance);
  if (!lab::closes(aim, wanted, dosed, "dose times volume, with the rounded mass",
                   "make up a solution of known strength", out)) {
    out.result(mass, Mass{});
    out.result(given, MassConcentration{});
    return;
  }
  out.result(mass, weighed);
  out.result(given, dosed);
  keep_account(in, dosed, out);
  for (const auto& counted : law) counted.hold(dosed, 2, "weigh less", out);
  out.additions.push_back(
      {.substance = in[substance].id, .mass = weighed, .dose = figure(MassConcentration(weighed / tank), "g/hL", 2)});
}

}  // namespace

Outcome run(const Inputs& in) {
  Outcome out;
  if (in.has(liquid)) {
    pour(in, out);
  } else if (in.has(per_fruit)) {
    on_fruit(in, out);
  } else {
    const auto law = lab::allowances_for(in, in[substance]);
    if (!in.figures_only()) say_law(in, law, out);
    weigh(in, law, out);
  }
  if (in.figures_only()) return out;
  out.note("try it at the bench first, with the same product and the same water");
  return out;
}

}  // namespace vatwright::cellar::plain_dose
