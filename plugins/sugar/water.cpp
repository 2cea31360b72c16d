#include "plugins/sugar/water.hpp"

#include "plugins/chemistry/alcoholometry.hpp"
#include "plugins/chemistry/sweetening.hpp"
#include "plugins/chemistry/water.hpp"
#include "plugins/lab/allowance.hpp"
#include "plugins/lab/dose.hpp"
#include "plugins/sugar/bounds.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <type_traits>

namespace vatwright::sugar::water {
namespace {

using chemistry::SweetMust;

constexpr auto of_water = chemistry::water_at_20;

struct Question {
  SweetMust now;
  MassFraction grown;  // soluble solids before any water
  Fraction before;     // amelioration so far, of the volume
  Acidity acid, volatile_part;

  SweetMust after(Volume poured) const {
    return lab::any(poured) ? chemistry::sweetened(now, chemistry::water_alone(), poured * of_water) : now;
  }
  Fraction thinner(const SweetMust& then) const { return now.volume / then.volume; }
  Fraction poured_in(const SweetMust& then) const { return 1.0 - thinner(then); }
  Fraction ameliorated(const SweetMust& then) const { return before * thinner(then) + poured_in(then); }
  Acidity acidity(const SweetMust& then) const { return acid * thinner(then); }
};

Question question_of(const Inputs& in) {
  if (in.get(lot::stage) == stage_wine)
    throw InputError("no water goes into a wine but with a treatment", "of a must say 'stage: must'");
  if (in.has(target_acidity) && !in.has(lot::titratable_acidity))
    throw InputError("the titratable acidity of the must is not known", "give it, or a 'target soluble solids'");
  const MassFraction dissolved = in[lot::soluble_solids];
  return {{in[lot::volume], MassConcentration{}, in.get(lot::ethanol).value_or(Strength{}), dissolved},
          in.get(lot::must_solids).value_or(dissolved),
          in.get(lot::amelioration).value_or(Fraction{}),
          in.get(lot::titratable_acidity).value_or(Acidity{}),
          in.get(lot::volatile_acidity).value_or(Acidity{})};
}

bool stretches(const Inputs& in) { return in.has(target_acidity); }

// The rows go by what the grapes had.
NewLot as_grown(const Inputs& in, const Question& q) {
  NewLot lot;
  lot.set(lot::must_solids, q.grown);
  lot.set(lot::amelioration, q.before);
  for (const Choice* word : {&lot::stage, &lot::colour, &lot::zone, &lot::wine_class})
    if (const auto said = in.get(*word); !said.empty()) lot.set(*word, said);
  return lot;
}

Bounds<SweetMust> bounds_of(const Inputs& in, const Question& q) {
  Bounds<SweetMust> law;
  const auto add = [&, grown = as_grown(in, q)](const auto& limit, auto figure_of) {
    law.add(limit, in.bound(limit, &grown.analysis), figure_of);
  };
  add(any_limit, [&q](const SweetMust& then) { return q.poured_in(then); });
  if (stretches(in)) {
    add(share_limit, [&q](const SweetMust& then) { return q.ameliorated(then); });
    add(acid_limit,
        [&q](const SweetMust& then) -> Acidity { return q.acidity(then) - q.volatile_part * q.thinner(then); });
    return law;
  }
  add(solids_limit, [](const SweetMust& then) { return then.dissolved; });
  add(fall_limit, [&q](const SweetMust& then) -> MassFraction { return q.grown - then.dissolved; });
  return law;
}

void write_figures(const Inputs& in, const Question& q, Volume poured, const SweetMust& then, Outcome& out) {
  out.result(water, poured);
  out.result(volume_after, then.volume);
  out.result(solids_after, then.dissolved);
  if (in.has(lot::titratable_acidity)) out.result(acidity_after, q.acidity(then));
  if (stretches(in)) out.result(share, q.ameliorated(then));
}

void say_law(const Inputs& in, const Bounds<SweetMust>& law, Outcome& out) {
  if (law.empty())
    out.note(
        "no rule set of this recipe gives a limit for water in a must: most laws allow none, check that of the "
        "place");
  if (!stretches(in)) return;
  lab::note_taken_as_none(in, lot::amelioration, "all ameliorating water counts together", out);
  if (!in.has(lot::volatile_acidity))
    out.note("volatile acidity was not given: the whole titratable acidity is counted as fixed");
}

Volume exact_water(const Inputs& in, const Question& q) {
  Mass exact{};
  if (!stretches(in))
    exact = q.now.volume * chemistry::sucrose_density(q.now.dissolved, chemistry::strength_temperature) *
            (q.now.dissolved / in[target_solids] - 1.0);
  else if (in[target_acidity] < q.acid)
    exact = chemistry::sweetener_for_gain(q.now, chemistry::water_alone(), q.acid / in[target_acidity] - 1.0);
  return std::max<Mass>(exact, Mass{}) / of_water;
}

// What is particular to a dose of water that brings a must down to an acidity, or to soluble solids.
template <class Quantity>
struct Dosing : lab::Job<lab::Aim<Quantity>> {
  static constexpr const auto& decided = water;
  static constexpr std::string_view model = "balance of masses on the must with the rounded amount",
                                    way_out = "do it in a larger lot";
  using lab::Job<lab::Aim<Quantity>>::in, lab::Job<lab::Aim<Quantity>>::out;
  const Question& q;
  Bounds<SweetMust> law;

  Volume exact() const { return exact_water(in, q); }
  Quantity reached(Volume poured) const {
    if constexpr (std::is_same_v<Quantity, Acidity>)
      return q.acidity(q.after(poured));
    else
      return q.after(poured).dissolved;
  }

  bool allowed(Volume exact) const { return keeps(exact); }
  bool keeps(Volume poured) const { return !law.forbid(q.after(poured)); }
  void refuse(Volume exact) const {
    const Volume most = lab::most_allowed_of(*this, exact);
    std::string remedy = "nothing was dosed: no water goes into this must";
    if (lab::any(most))
      remedy = fmt::format("nothing was dosed. The limits allow {} of water, which gives {}", print(most, "L", 2),
                           stretches(in) ? print(q.acidity(q.after(most)), acidity_after.unit, 2)
                                         : print(q.after(most).dissolved, "°Brix", 2));
    law.hold(q.after(exact), remedy, out);
    say_law(in, law, out);
  }
  void hold(Volume poured) const {
    if (lab::any(poured)) law.hold(q.after(poured), {}, out);
  }

  void settle(Volume poured) const {
    const SweetMust then = q.after(poured);
    write_figures(in, q, poured, then, out);
    if (!lab::any(poured)) return;
    out.change(lot::volume, then.volume);
    out.change(lot::soluble_solids, then.dissolved);
    out.change(lot::must_solids, q.grown);
    if (stretches(in)) out.change(lot::amelioration, q.ameliorated(then));
    lab::pour(in, {q.now.volume, then.volume, poured * of_water}, then.ethanol, out);
  }
  void order(Volume poured) const {
    out.additions.push_back(
        {.substance = std::string(drinking_water), .volume = poured, .dose = figure(poured / q.now.volume, "L/hL", 2)});
  }

  void leave() const { out.note("the must is there already: no water is added"); }
  void tell(Volume, Volume) const {
    say_law(in, law, out);
    out.note(
        "water takes aroma, colour and strength along with the acid: try it in a glass first, and enter it in the "
        "register");
  }
};

lab::Aim<Acidity> acidity_aim(const Inputs& in, const Question& q) {
  constexpr Acidity hidden = 0.07 * milliequivalent_per_litre;
  const Acidity left = lab::left_by_cylinder * q.before * q.acid;
  return {target_acidity.name,
          target_acidity.unit,
          2,
          in[target_acidity],
          10.0 * hidden,
          std::max<Acidity>(hidden, left),
          true};
}

lab::Aim<MassFraction> solids_aim(const Inputs& in, const Question& q) {
  constexpr MassFraction hidden = 0.005 * percent_mass;
  const MassFraction left = lab::left_by_cylinder * (q.grown - in[target_solids]);
  return {target_solids.name,
          target_solids.unit,
          2,
          in[target_solids],
          10.0 * hidden,
          std::max<MassFraction>(hidden, left),
          true};
}

}  // namespace

Outcome run(const Inputs& in) {
  Outcome out;
  const Question q = question_of(in);
  out.reagents.emplace_back(lab::gas_of_fermentation);
  const auto law = bounds_of(in, q);
  if (stretches(in))
    lab::come_about(Dosing<Acidity>{{in, out, acidity_aim(in, q)}, q, law});
  else
    lab::come_about(Dosing<MassFraction>{{in, out, solids_aim(in, q)}, q, law});
  return out;
}

}  // namespace vatwright::sugar::water
