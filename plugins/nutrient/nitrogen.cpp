#include "plugins/nutrient/nitrogen.hpp"

#include "plugins/lab/agents.hpp"
#include "plugins/lab/allowance.hpp"
#include "plugins/lab/dose.hpp"
#include "plugins/nutrient/dose.hpp"
#include "plugins/nutrient/measured.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace vatwright::nutrient::nitrogen {
namespace {

// Where the lot has what these readings make with the nutrient that its books hold, that went in after they were
// taken: they say nothing of the lot any more.
MassConcentration nitrogen_of_today(const Inputs& in, Outcome& out) {
  const MassConcentration measured = measured_nitrogen(in, out);
  const auto known = in.get(lot::assimilable_nitrogen);
  const MassConcentration brought = lab::added_before(in, in[substance].id) * nitrogen_of(in);
  if (!known || !(brought > MassConcentration{})) return measured;
  if (std::abs((*known - measured - brought).value()) > lab::left_by_balance * brought.value()) return measured;
  out.note(fmt::format("the reading was taken before {} of {} went in: with that the lot has {}, and that counts",
                       print(lab::added_before(in, in[substance].id), "g/hL", 1), in[substance].id,
                       print(*known, needed.unit, 0)));
  return *known;
}

void refuse_still_wine(const Inputs& in) {
  if (in.get(lot::stage) == "wine" && in.get(lot::wine_class) != "sparkling")
    throw InputError("nutrients go into must, before or in fermentation, and this lot is a still wine",
                     "for a second fermentation say 'class: sparkling'");
}

// --- the law

void say_what_the_law_counts(const Inputs& in, const lab::Law& laws, Outcome& out) {
  if (laws.empty())
    lab::note_unlimited(in[substance].id, out);
  else
    lab::note_none_added_before(in, out);
}

// --- the answer

// What is weighed is one portion of several.
struct Portions {
  Mass each{};
  MassConcentration added{};  // by all of them
};
bool any(const Portions& portions) { return portions.added > MassConcentration{}; }

// What is particular to a dose of nutrient.
struct Dosing : lab::Job<lab::Aim<MassConcentration>> {
  static constexpr const auto& decided = dose;
  static constexpr std::string_view model = "nitrogen found and added", way_out = "dissolve more and dose a part of it";
  Course course;
  MassConcentration today;
  Fraction share;  // nitrogen in the substance
  lab::Law laws;
  std::vector<Moment> times{};

  MassConcentration exact() const { return (aim.wanted - today) / share; }
  Portions measured(MassConcentration exact, lab::Rounding rounding) const {
    const auto count = static_cast<double>(std::max<std::size_t>(times.size(), 1));
    const Mass each = lab::rounded<Mass>(exact * in[lot::volume] / count, rounding, to_balance);
    return {each, each * count / in[lot::volume]};
  }
  MassConcentration reached(MassConcentration added) const { return today + added * share; }
  MassConcentration reached(const Portions& portions) const { return reached(portions.added); }

  bool allowed(MassConcentration exact) const {
    return lab::may_take(in, purpose::nourish, in[substance].id, out) && within_room(exact);
  }
  bool keeps(const Portions& portions) const { return within_room(portions.added); }
  bool within_room(MassConcentration added) const { return !(added > lab::room(laws) * (1 + lab::hair)); }
  void refuse(MassConcentration exact) const {
    lab::hold(laws, exact, 2, refusal(), out);
    out.checks.push_back(aim.met(today, "nothing was dosed, because the addition would pass a limit"));
  }
  std::string refusal() const {
    if (lab::forbids(laws))
      return fmt::format("nothing was dosed: {} is not for this lot; take another nutrient", in[substance].id);
    const auto most = lab::down_to_step<MassConcentration>(lab::room(laws), 0.01 * gram_per_litre);
    return fmt::format(
        "nothing was dosed. The limits allow {} more, which gives {}: lower the target or choose a strain with less "
        "need, or make up the rest with a yeast autolysate",
        print(most, "g/L", 2), print(reached(most), needed.unit, 0));
  }
  void hold(const Portions& portions) const {
    lab::hold(laws, portions.added, 2, any(portions) ? "" : "more was added before than the limit allows", out);
  }

  void settle(const Portions& portions) const {
    out.result(found, today);
    out.result(needed, aim.wanted);
    out.result(dose, portions.added);
    const MassConcentration then = reached(portions);
    out.result(after, then);
    if (in.get(lot::assimilable_nitrogen) != then) out.change(lot::assimilable_nitrogen, then);
  }
  void order(const Portions& portions) const { write_portions(in, portions.each, times, out); }
  void beside() const { add_thiamine(in, course, out); }

  void leave() const { note_enough("enough already: no nitrogen is added; a surplus feeds spoilage microbes", today); }
  void tell(MassConcentration, const Portions& portions) const {
    if (any(portions)) say_course(in, course, out);
  }

  // When each portion goes in, and whether any may. Where nothing goes in, nothing goes in too late.
  void look_ahead() {
    const bool fed = aim.met_by(today);
    if (!fed || in.has(thiamine)) check_time(course);
    say_what_the_law_counts(in, laws, out);
    lab::check_total(in, in[substance].id, exact());
    if (!fed) times = moments(in, course);
  }
  // What was added, for the steps that come.
  void record() const {
    for (const auto& addition : out.additions)
      lab::keep_account(addition.substance, *addition.mass / in[lot::volume], out);
    const auto held = in.decided(dose);
    if (!held) return;
    if (lab::any(*held)) lab::keep_account(in[substance].id, *held, out);
    // A refusal doses no thiamine either.
    const auto mass = lab::any(*held) || aim.met_by(today) ? thiamine_mass(in) : std::nullopt;
    if (!mass) return;
    lab::keep_account(thiamine_limit.name, *mass / in[lot::volume], out);
    hold_thiamine(in, out);
  }
};

}  // namespace

Outcome run(const Inputs& in) {
  Outcome out;
  refuse_still_wine(in);
  const Course course = course_of(in);
  const MassConcentration today = nitrogen_of_today(in, out);
  const MassConcentration wanted = wanted_nitrogen(in, course, out) * (1 + in[need_of_yeast].value());
  const auto aim = lab::aim_from_nothing("nitrogen for the fermentation", needed.unit, needed.decimals, wanted,
                                         lab::left_by_balance);
  Dosing job{{in, out, aim}, course, today, nitrogen_of(in), lab::allowances_for(in, in[substance])};
  out.reagents.emplace_back(lab::gas_of_fermentation);
  if (!in.decided(dose)) job.look_ahead();
  lab::come_about(job);
  job.record();
  return out;
}

}  // namespace vatwright::nutrient::nitrogen
