#include "plugins/acid/reduction.hpp"

#include "plugins/acid/dosing.hpp"
#include "plugins/acid/plan.hpp"
#include "plugins/acid/reduction_words.hpp"
#include "plugins/chemistry/bracketed.hpp"
#include "plugins/lab/agents.hpp"
#include "plugins/lab/rounding.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace vatwright::acid::reduction {
namespace {

using chemistry::Acid;
using chemistry::Ion;

const chemistry::Carbonate& carbonate_of(const std::string& id) {
  for (const auto& row : chemistry::carbonates)
    if (row.substance == id) return row;
  throw std::logic_error("no reaction for " + id);
}

Question read(const Inputs& in, Outcome& out) {
  const Wine wine = read_wine(in, out);
  Question q{wine, {wine.composition, &carbonate_of(in[substance].id), in[falling_out]}};
  if (in.has(acidity_left) && !q.double_salt())
    throw InputError("acidity left was given, but " + in[substance].id + " goes into the whole lot",
                     "say 'substance: double-salt treatment', or leave it out");
  return q;
}

// How far the treated part of a double salt comes down, which sets its size, in a lot that needs it.
void size_part(const Inputs& in, Question& q) {
  if (!q.double_salt()) return;
  const auto left = in.get(acidity_left);
  q.plan.in_part = left ? base_leaving(q.wine, *q.plan.carbonate, q.plan.falling_out, *left)
                        : base_to_floor(q.wine, *q.plan.carbonate, q.plan.falling_out);
}

// The same of a part that was treated by now.
void hold_part(const Inputs& in, Question& q, MassConcentration dosed) {
  const auto volume = in.decided(treated_volume);
  if (q.double_salt() && volume && *volume > Volume{})
    q.plan.in_part = q.plan.carbonate->base(dosed) * in[lot::volume] / *volume;
}

void write_figures(const Inputs& in, const Question& q, MassConcentration dosed, const State& state, Outcome& out) {
  out.result(dose, dosed);
  const auto after = q.plan.after(dosed);
  write_state(q.wine, after, state, out);
  const bool treated = dosed > MassConcentration{};
  if (q.double_salt())
    out.result<Volume>(treated_volume, treated ? Volume(in[lot::volume] * q.plan.part(dosed)) : Volume{});
  if (!treated) return;
  change_state(state, out);
  const auto mass = [](const auto& row, AmountConcentration amount) -> MassConcentration {
    return amount * row.molar_mass;
  };
  const auto moved = [&](const Key<MassConcentration>& key, auto what) {
    shift(in, key, mass(chemistry::row(what), after[what] - q.wine.composition[what]), out);
  };
  moved(lot::tartaric_acid, Acid::tartaric);
  moved(lot::malic_acid, Acid::malic);
  moved(lot::potassium, Ion::potassium);
  moved(lot::calcium, Ion::calcium);
  const Acidity removed = q.wine.titratable - state.titratable;
  out.change(lot::acid_removed, in.get(lot::acid_removed).value_or(Acidity{}) + std::max(removed, Acidity{}));
}

Law read_law(const Inputs& in, const Question& q, Outcome& out) {
  Law law;
  const auto left = [&q](MassConcentration d) -> Acidity { return titratable(q.wine, q.plan.after(d)); };
  const Acidity before = law.counted(in, removed_limit, lot::acid_removed);
  law.add(in, removed_limit,
          [&q, left, before](MassConcentration d) -> Acidity { return before + q.wine.titratable - left(d); });
  if (!in.figures_only() && before > Acidity{} && in[removed_limit])
    out.note(
        fmt::format("{} taken away earlier is counted against the limit on removed acidity, as must or as wine: the "
                    "lot does not keep the two apart, and the stricter reading is taken",
                    print(before, removed_limit.unit, 2)));
  law.add_history(in, added_first, lot::acid_added);
  law.add(in, total_limit, left);
  law.add_fixed(in, fixed_least, lot::acid_removed, left, out);
  law.add_of_treated(in, tartaric_limit, lot::acid_removed, [&q](MassConcentration d) -> MassConcentration {
    return q.plan.after(d)[Acid::tartaric] * chemistry::row(Acid::tartaric).molar_mass;
  });
  if (!in.figures_only() && !in.has(lot::tartaric_acid) && in[tartaric_limit])
    out.note("tartaric acid of the lot was not given: what is left of it is inferred");
  return law;
}

// As much calcium carbonate as finds tartaric acid for its crystals: what is brought beyond it stays in
// the lot, hundreds of mg/L, and no wine comes back from that. Potassium that stays does little harm.
std::optional<MassConcentration> crystals_last(const Question& q) {
  if (q.plan.carbonate->crystals != chemistry::Crystals::calcium_tartrate || q.plan.falling_out == none_falls)
    return std::nullopt;
  constexpr double nearly_all = 0.99;  // room for a rounded dose
  const AmountConcentration calcium = nearly_all * q.wine.composition[Acid::tartaric] / q.plan.falling_out;
  return q.plan.carbonate->dose(chemistry::equivalents(2.0 * calcium));
}

// All that can be taken: up to the highest pH that a lot may have. A double salt comes there before the
// whole lot is treated.
MassConcentration acid_lasts(const Question& q) {
  constexpr double margin = 0.01;  // room for a rounded dose
  const Ph highest = (lot::ph.valid->high - margin) * ph_unit;
  const auto missing = [&](double dosed) {
    return chemistry::base_to(q.plan.after(coherent<MassConcentration>(dosed)), highest, q.wine.medium).value();
  };
  const MassConcentration all = q.plan.most(q.wine.titratable);
  if (missing(all.value()) > 0) return all;  // a tartrate whose crystals stay away buffers on
  return coherent<MassConcentration>(chemistry::kernel::bracketed_root(missing, 0, all.value()));
}

MassConcentration reach(const Question& q) {
  const auto most = acid_lasts(q);
  return std::min(most, crystals_last(q).value_or(most));
}

[[noreturn]] void refuse_distance(const Question& q, const Target& target, MassConcentration most) {
  const State there = q.after(most);
  throw InputError(fmt::format("{} cannot be reached: {}", target.wanted(),
                               most < acid_lasts(q)
                                   ? "there is too little tartaric acid for the crystals, and the calcium beyond it "
                                     "would stay in the lot"
                                   : "more acid would have to go than there is to take"),
                   fmt::format("the nearest that can be is {}", target.reached(there)));
}

// --- the dose

void check_calcium(const Inputs& in, const Question& q, MassConcentration dosed) {
  const auto known = in.get(lot::calcium);
  if (!known) return;
  const auto& ion = chemistry::row(Ion::calcium);
  const MassConcentration after =
      *known + (q.plan.after(dosed)[Ion::calcium] - q.wine.composition[Ion::calcium]) * ion.molar_mass;
  if (after > lot::calcium.valid->high * milligram_per_litre)
    throw InputError("this would leave " + print(after, "mg/L", 0) + " of calcium in the lot",
                     "ask for less, or choose potassium bicarbonate");
}

// A part that can be measured out: the base in it follows from the rounded volume. Rounded down, so
// that the pH in it only rises.
void round_part(const Inputs& in, Question& q, MassConcentration dosed) {
  if (!q.double_salt() || !(dosed > MassConcentration{})) return;
  const Volume part = lab::rounded<Volume>(in[lot::volume] * q.plan.part(dosed), lab::Rounding::down, to_measure);
  q.plan.in_part = q.plan.carbonate->base(dosed) * in[lot::volume] / part;
}

// What is particular to a dose of carbonate.
struct Job : Dosing<Question> {
  static constexpr const auto& decided = dose;
  MassConcentration exact() const {
    if (amount) return *amount;
    size_part(in, q);
    const MassConcentration most = reach(q);
    const auto found = solve(
        q.wine, aim, [&](MassConcentration d) { return q.plan.after(d); }, most);
    if (!found) refuse_distance(q, aim, most);
    return *found;
  }
  bool allowed(MassConcentration) const {
    const std::string_view agent = q.double_salt() ? calcium_carbonate : std::string_view(in[substance].id);
    return lab::may_take(in, purpose::deacidify, agent, out);
  }
  void refuse(MassConcentration exact) const {
    Dosing::refuse(exact, "treatment", allowed_text(in[substance].id, q.plan.most(q.wine.titratable)));
  }
  void fit(Mass weighed) const {
    round_part(in, q, dosed(weighed));
    check_calcium(in, q, dosed(weighed));
    refuse_calcium_left(q, dosed(weighed));
  }
  void hold(Mass weighed) const {
    Dosing::hold(weighed);
    if (lab::any(weighed)) check_crystals(q, dosed(weighed), out);
  }

  void settle(Mass weighed) const { write_figures(in, q, dosed(weighed), reached(weighed), out); }
  void order(Mass weighed) const {
    out.additions.push_back(lab::Portion{.mass = weighed}.ordered(in[substance].id, in[lot::volume]));
    if (!q.double_salt()) return;
    out.additions.back().part = in[lot::volume] * q.plan.part(dosed(weighed));
    out.task("draw off the part that is named below, and pump it slowly onto the slurry of the carbonate");
  }
  void leave() const { acid::note_enough(aim, q.after({}), "acid.addition", out); }
  void tell(MassConcentration, Mass weighed) const {
    if (!lab::any(weighed)) return;
    const auto course_of = [plan = q.plan](const Wine& wine) -> Course {
      Plan other = plan;
      other.wine = wine.composition;
      return [other](MassConcentration more) { return other.after(more); };
    };
    if (!amount) tell_span(in, q.wine, aim, dosed(weighed), reach(q), course_of, out);
    say_course(in, q, dosed(weighed), reached(weighed), out);
  }
};

// An amount that was decided on elsewhere, as far as there is acid for it.
void check_reach(const Inputs& in, Question& q, MassConcentration amount) {
  size_part(in, q);
  const MassConcentration most = reach(q);
  if (amount > most)
    throw InputError(fmt::format("{} of {} finds no acid to take: there is use for {} in this lot",
                                 print(amount, "g/L", 2), in[substance].id, print(most, "g/L", 2)),
                     "state less, or measure pH and titratable acidity again");
}

}  // namespace

Outcome run(const Inputs& in) {
  Outcome out;
  Question q = read(in, out);
  const auto held = in.decided(dose);
  const auto amount = in.get(stated);
  const Law law = read_law(in, q, out);
  law.note_unstated(out);
  if (held)
    hold_part(in, q, *held);
  else if (amount)
    check_reach(in, q, *amount);
  const Target target = amount ? Target(q.after({}), q.after(*amount)) : Target(in, Moves::down);
  lab::come_about(Job{{{in, out, target, amount.has_value()}, q, law, amount}});
  return out;
}

}  // namespace vatwright::acid::reduction
