#include "plugins/sugar/dosage.hpp"

#include "plugins/lab/dose.hpp"
#include "plugins/sugar/aim.hpp"
#include "plugins/sugar/bounds.hpp"
#include "plugins/sugar/enrichment_law.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace vatwright::sugar::dosage {
namespace {

constexpr Volume doser_step = 0.1 * millilitre;

Volume to_doser(Volume exact) { return std::round(static_cast<double>(exact / doser_step)) * doser_step; }

std::string per_litre(MassConcentration sugar) { return print(sugar, "g/L", 1); }

struct Liqueur {
  Volume bottle;
  MassConcentration now, sugar;  // of the wine, of the liqueur
  Strength strong, ethanol;      // the same

  Fraction share(Volume added) const { return Fraction(added / bottle); }
  MassConcentration sugar_with(Volume added) const { return now + (sugar - now) * share(added).value(); }
  Strength strength_with(Volume added) const { return strong + (ethanol - strong) * share(added).value(); }
  Volume for_sugar(MassConcentration wanted) const { return bottle * ((wanted - now) / (sugar - now)); }
};

// What only this word fits, of the words that the rule sets have in order from the driest: above all that the drier
// ones reach.
MassConcentration middle_of(const Inputs& in) {
  const std::string_view word = in[term];
  std::string known;
  double low = 0;
  for (const auto& row : in.sweetness_terms()) {
    if (row.word == word || row.word.starts_with(std::string(word) + " (")) {
      if (!row.meaning.empty())
        throw InputError("'" + row.word + "' is for a wine with " + row.meaning,
                         "a wine so called gets no liqueur with sugar");
      const double least = std::max(low, row.least_sugar);
      return coherent<MassConcentration>(std::isfinite(row.most_sugar) ? (least + row.most_sugar) / 2 : least * 1.1);
    }
    low = std::max(low, std::isfinite(row.most_sugar) ? row.most_sugar : low);
    known += (known.empty() ? "" : ", ") + row.word;
  }
  throw InputError("no rule set of this recipe has the sweetness term '" + std::string(word) + "' for this wine",
                   known.empty() ? "name a rule set, such as 'rules: EU'" : "one of " + known);
}

MassConcentration wanted_sugar(const Inputs& in) {
  if (in.has(stated_liqueur)) return in[lot::sugar];  // whatever it comes to
  if (const auto sugar = in.get(target)) return *sugar;
  return middle_of(in);
}

Liqueur liqueur_of(const Inputs& in, MassConcentration sweet) {
  if (in.get(lot::wine_class) != "sparkling")
    throw InputError("expedition liqueur is for sparkling wine, which the lot is not said to be",
                     "say 'class: sparkling'");
  if (in.get(lot::stage) == stage_must)
    throw InputError("expedition liqueur goes into the finished wine, and this lot is a must", "say 'stage: wine'");
  if (in[liqueur_sugar] <= std::max(sweet, in[lot::sugar]))
    throw InputError("a liqueur of " + per_litre(in[liqueur_sugar]) + " cannot bring the wine to " + per_litre(sweet),
                     "take a sweeter liqueur, or a drier target");
  return {in[bottle], in[lot::sugar], in[liqueur_sugar], in[lot::ethanol], in[liqueur_ethanol]};
}

lab::Aim<MassConcentration> sugar_aim(const Liqueur& q, MassConcentration wanted_sweet) {
  const MassConcentration a_step = (q.sugar - q.now) * q.share(doser_step).value();
  return {target.name,
          "g/L",
          1,
          wanted_sweet,
          std::max<MassConcentration>(0.2 * gram_per_litre, lab::coarse * wanted_sweet),
          std::max<MassConcentration>(0.05 * gram_per_litre, 0.51 * a_step)};
}

// --- the law

// With what earlier liqueur brought, less what goes out with the wine that is taken out.
Strength gained_with(const Inputs& in, const Liqueur& q, Volume added) {
  const Strength before = in.get(lot::dosage_gained).value_or(Strength{});
  return before * (1.0 - q.share(added)) + (q.strength_with(added) - q.strong);
}
Fraction liqueur_with(const Inputs& in, const Liqueur& q, Volume added) {
  const Fraction before = in.get(lot::liqueur_added).value_or(Fraction{});
  return before * (1.0 - q.share(added)) + q.share(added);
}

// Of so much liqueur in a bottle.
Bounds<Volume> bounds_of(const Inputs& in, const Liqueur& q) {
  Bounds<Volume> law;
  law.add(gain_limit, in[gain_limit], [&](Volume added) { return gained_with(in, q, added); });
  law.add(volume_limit, in[volume_limit], [&](Volume added) { return liqueur_with(in, q, added); });
  return law;
}

void say_silent(const Inputs& in, Outcome& out) {
  facts::Silence silence;
  if (in[gain_limit]) silence.ask(in, lot::dosage_gained);
  if (in[volume_limit]) silence.ask(in, lot::liqueur_added);
  enrichment::say_silent(silence, out);
}

// --- the answer

void write_dosage(const Inputs& in, const Liqueur& q, Volume added, Outcome& out) {
  const Volume all = in[lot::volume] * q.share(added).value();
  const Volume given = added > Volume{} ? std::max<Volume>(added + in[doser_gives], Volume{}) : added;
  const MassConcentration sweet = q.sugar_with(given);
  const Strength strong = q.strength_with(given);
  out.result(a_bottle, added);
  out.result(in_all, all);
  out.result(sugar_after, sweet);
  out.result(ethanol_after, strong);
  if (!(added > Volume{})) return;
  out.change(lot::volume, in[lot::volume]);  // as much wine is taken out
  out.change(lot::sugar, sweet);
  out.change(lot::ethanol, strong);
  out.change(lot::dosage_gained, std::max<Strength>(gained_with(in, q, added), Strength{}));  // it may be the weaker
  out.change(lot::liqueur_added, liqueur_with(in, q, added));
  if (!lab::pour(in, {in[lot::volume] - all, in[lot::volume]}, strong, out)) out.forget(lot::ph);
  out.forget(lot::soluble_solids);
}

// The liqueur for the least and the most sugar of every term.
Table terms_table(const Inputs& in, const Liqueur& q) {
  Table table{.name = "liqueur a bottle by sweetness term",
              .columns = {{"rules"}, {"term"}, {"from", "mL", 1}, {"to", "mL", 1}, {"also asks for"}},
              .rows = {}};
  for (const auto& row : in.sweetness_terms()) {
    const auto sugar = [](double number) { return coherent<MassConcentration>(number); };
    if (sugar(row.most_sugar) < q.now || sugar(row.least_sugar) >= q.sugar) continue;
    const Volume least = q.for_sugar(std::max(q.now, sugar(row.least_sugar)));
    Cell most;
    if (sugar(row.most_sugar) < q.sugar) most = q.for_sugar(sugar(row.most_sugar)).value();
    table.rows.push_back({row.rules, row.word, least.value(), most, row.meaning});
  }
  return table;
}

void say_dosage(const Inputs& in, const Liqueur& q, Volume added, Outcome& out) {
  const auto acidity = in.get(lot::titratable_acidity);
  lab::note_sweetness(in, q.sugar_with(added), acidity, out);
  if (const auto table = terms_table(in, q); !table.rows.empty()) out.tables.push_back(table);
  if (!(added > Volume{})) return;
  say_silent(in, out);
  out.task(fmt::format("set the doser to {} for a bottle of {}, and take as much wine out of it first",
                       print(added, "mL", 1), print(q.bottle, "mL", 0)));
  out.note(
      "sugar of the wine, and of the liqueur, by analysis; a liqueur of sucrose still shows as sucrose for some days. "
      "Free sulfur dioxide is thinned, and what the liqueur brings of it is not counted: measure it in dosed bottles");
}

// What is particular to a dose of liqueur.
struct Dosing : lab::Job<lab::Aim<MassConcentration>> {
  static constexpr const auto& decided = a_bottle;
  static constexpr std::string_view model = "balance of sugar at a fixed fill", way_out = "take a weaker liqueur";
  const Liqueur& q;
  Bounds<Volume> law;

  Volume exact() const { return in.get(stated_liqueur).value_or(q.for_sugar(aim.wanted)); }
  Volume measured(Volume exact, lab::Rounding rounding) const {
    return lab::rounded<Volume>(exact, rounding, to_doser);
  }
  MassConcentration reached(Volume added) const { return q.sugar_with(added); }

  // What rounding alone would carry over a limit is rounded down.
  bool allowed(Volume exact) const { return keeps(measured(exact, lab::Rounding::down)); }
  bool keeps(Volume added) const { return !law.forbid(added); }
  void refuse(Volume exact) const {
    law.hold(measured(exact, lab::Rounding::down),
             "nothing was dosed: take a weaker or a sweeter liqueur, or less of it", out);
    out.checks.push_back(aim.met(q.now, "nothing was dosed, because the liqueur would pass a limit"));
  }
  void hold(Volume added) const {
    if (lab::any(added) || !aim.met_by(q.now)) law.hold(added, {}, out);
  }

  void settle(Volume added) const { write_dosage(in, q, added, out); }
  void order(Volume added) const {
    const Volume all = in[lot::volume] * q.share(added).value();
    out.additions.push_back({.substance = std::string(expedition_liqueur),
                             .strength = print(q.sugar, "g/L", 0) + " of sugar",
                             .volume = all,
                             .dose = figure(all / in[lot::volume], "mL/L", 2)});
  }

  void leave() const {
    note_enough("sweet enough already: no liqueur is added", q.now);
    say_dosage(in, q, {}, out);
  }
  void tell(Volume, Volume added) const { say_dosage(in, q, added, out); }
};

}  // namespace

Outcome run(const Inputs& in) {
  Outcome out;
  const MassConcentration wanted_now = wanted_sugar(in);
  const Liqueur q = liqueur_of(in, wanted_now);
  const auto amount = in.get(stated_liqueur);
  const auto aim =
      amount ? aim_of_stated<MassConcentration>("sugar with the stated liqueur", "g/L", 1, q.now, q.sugar_with(*amount))
             : sugar_aim(q, wanted_now);
  lab::come_about(Dosing{{in, out, aim, amount.has_value()}, q, bounds_of(in, q)});
  return out;
}

}  // namespace vatwright::sugar::dosage
