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

struct Question {
  Course course;
  MassConcentration found;
  lab::Aim<MassConcentration> aim;
  Fraction share;  // nitrogen in the substance

  MassConcentration exact() const { return (aim.wanted - found) / share; }
  MassConcentration after(MassConcentration added) const { return found + added * share; }
};

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

Question read(const Inputs& in, Outcome& out) {
  if (in.get(lot::stage) == "wine" && in.get(lot::wine_class) != "sparkling")
    throw InputError("nutrients go into must, before or in fermentation, and this lot is a still wine",
                     "for a second fermentation say 'class: sparkling'");
  const Course course = course_of(in);
  const MassConcentration measured = nitrogen_of_today(in, out);
  const MassConcentration wanted = wanted_nitrogen(in, course, out) * (1 + in[need_of_yeast].value());
  return {.course = course,
          .found = measured,
          .aim = lab::aim_from_nothing("nitrogen for the fermentation", needed.unit, needed.decimals, wanted,
                                       lab::left_by_balance),
          .share = nitrogen_of(in)};
}

// --- the law

using Law = lab::Allowance<MassConcentration>;

std::vector<Law> laws_of(const Inputs& in) {
  const auto& id = in[substance].id;
  const auto added = [&](std::string_view what) { return lab::added_before(in, what); };
  std::vector<Law> laws;
  const auto count = [&](const Limit<MassConcentration>& limit, MassConcentration before) {
    if (const auto bound = in[limit]) laws.push_back({&limit, bound, before});
  };
  for (const auto* own : {&phosphate_limit, &sulfate_limit, &autolysate_limit})
    if (own->name == id) count(*own, added(id));
  if (id != autolysate) count(salts_limit, added(phosphate) + added(sulfate));
  return laws;
}

// The most that may still be added; infinite where no rule says.
MassConcentration room(const std::vector<Law>& laws) {
  auto most = coherent<MassConcentration>(HUGE_VAL);
  for (const auto& law : laws) most = std::min(most, law.room());
  return most;
}

void hold_laws(const std::vector<Law>& laws, MassConcentration added, const std::string& remedy, Outcome& out) {
  for (const auto& law : laws) law.hold(added, 2, remedy, out);
}

void say_what_the_law_counts(const Inputs& in, const std::vector<Law>& laws, Outcome& out) {
  if (laws.empty())
    out.note(unlimited(in[substance].id));
  else
    lab::note_none_added_before(in, out);
}

// --- the answer

void write_results(const Inputs& in, const Question& q, MassConcentration added, Outcome& out) {
  out.result(found, q.found);
  out.result(needed, q.aim.wanted);
  out.result(dose, added);
  out.result(after, q.after(added));
  if (in.get(lot::assimilable_nitrogen) != q.after(added)) out.change(lot::assimilable_nitrogen, q.after(added));
}

// What was added, for the steps that come.
void record(const Inputs& in, const std::vector<std::pair<std::string, MassConcentration>>& added, Outcome& out) {
  if (added.empty()) return;
  Amounts all = in.has(lot::treated_with) ? in[lot::treated_with] : Amounts();
  for (const auto& [id, amount] : added) add_to(all, id, amount.value());
  out.change(lot::treated_with, std::move(all));
}

void record_additions(const Inputs& in, Outcome& out) {
  std::vector<std::pair<std::string, MassConcentration>> added;
  for (const auto& addition : out.additions) added.emplace_back(addition.substance, *addition.mass / in[lot::volume]);
  record(in, added, out);
}

std::string refusal(const Inputs& in, const Question& q, const std::vector<Law>& laws) {
  if (std::any_of(laws.begin(), laws.end(), [](const Law& law) { return law.forbids(); }))
    return fmt::format("nothing was dosed: {} is not for this lot; take another nutrient", in[substance].id);
  const auto most = lab::down_to_step<MassConcentration>(room(laws), 0.01 * gram_per_litre);
  return fmt::format(
      "nothing was dosed. The limits allow {} more, which gives {}: lower the target or choose a strain with less "
      "need, or make up the rest with a yeast autolysate",
      print(most, "g/L", 2), print(q.after(most), needed.unit, 0));
}

// What is particular to a dose of nutrient (lab::come_about): what is weighed is one portion of several.
struct Dosing {
  const Inputs& in;
  const Question& q;
  const std::vector<Law>& laws;
  std::vector<Moment> times;
  Outcome& out;

  double count() const { return static_cast<double>(times.size()); }
  MassConcentration added(Mass portion) const { return portion * count() / in[lot::volume]; }

  bool enough() const { return q.aim.met_by(q.found); }
  void leave() {
    write_results(in, q, MassConcentration{}, out);
    out.checks.push_back(q.aim.met(q.found));
    hold_laws(laws, MassConcentration{}, "more was added before than the limit allows", out);
    out.note("enough already: no nitrogen is added; a surplus feeds spoilage microbes");
    if (q.aim.nearly(q.found)) out.note(std::string(lab::no_more_than_rounding_leaves));
    add_thiamine(in, q.course, out);
  }

  MassConcentration exact() const { return q.exact(); }
  bool allowed(MassConcentration exact) {
    return lab::may_take(in, purpose::nourish, in[substance].id, out) && !(exact > room(laws) * (1 + lab::hair));
  }
  void refuse(MassConcentration exact) {
    const std::string remedy = refusal(in, q, laws);
    write_results(in, q, MassConcentration{}, out);
    hold_laws(laws, exact, remedy, out);
    out.checks.push_back(q.aim.met(q.found, "nothing was dosed, because the addition would pass a limit"));
  }

  Mass measured(MassConcentration exact, lab::Rounding rounding) const {
    return lab::rounded<Mass>(exact * in[lot::volume] / count(), rounding, to_balance);
  }
  bool keeps(MassConcentration, Mass portion) const {
    const MassConcentration most = room(laws);
    return !std::isfinite(most.value()) || portion <= most * in[lot::volume] / count() * (1 + lab::hair);
  }
  Check closing(MassConcentration exact, Mass portion) const {
    return q.aim.closing(q.after(exact), q.after(added(portion)), "nitrogen found and added",
                         "dissolve more and dose a part of it");
  }
  void withhold(Check closing) {
    out.checks.push_back(std::move(closing));
    write_results(in, q, MassConcentration{}, out);
  }

  void give(MassConcentration, Mass portion, Check closing) {
    out.checks.push_back(std::move(closing));
    write_results(in, q, added(portion), out);
    add_thiamine(in, q.course, out);
    if (portion > Mass{}) {
      write_portions(in, portion, times, out);
      say_course(in, q.course, out);
    } else {
      out.note(std::string(lab::less_than_is_weighed));
    }
    hold_laws(laws, added(portion), {}, out);
  }
};

// The doses are in the tank already.
Outcome with_held(const Inputs& in, const Question& q, MassConcentration held) {
  Outcome out;
  write_results(in, q, held, out);
  std::vector<std::pair<std::string, MassConcentration>> added;
  if (held > MassConcentration{}) added.emplace_back(in[substance].id, held);
  // A refusal doses no thiamine either.
  const bool dosed = held > MassConcentration{} || q.aim.met_by(q.found);
  const auto mass = thiamine_mass(in);
  if (mass && dosed) added.emplace_back(thiamine_limit.name, *mass / in[lot::volume]);
  record(in, added, out);
  hold_laws(laws_of(in), held, {}, out);
  if (mass && dosed) hold_thiamine(in, out);
  if (!(held > MassConcentration{})) out.checks.push_back(q.aim.met(q.found));
  return out;
}

}  // namespace

Outcome run(const Inputs& in) {
  Outcome out;
  const Question q = read(in, out);
  if (const auto held = in.decided(dose)) return with_held(in, q, *held);
  out.reagents.emplace_back(lab::gas_of_fermentation);
  const bool fed = q.aim.met_by(q.found);
  // Where nothing goes in, nothing goes in too late.
  if (!fed || in.has(thiamine)) check_time(q.course);
  const auto laws = laws_of(in);
  say_what_the_law_counts(in, laws, out);
  lab::check_total(in, in[substance].id, q.exact());
  lab::come_about(Dosing{in, q, laws, fed ? std::vector<Moment>() : moments(in, q.course), out});
  record_additions(in, out);
  return out;
}

}  // namespace vatwright::nutrient::nitrogen
