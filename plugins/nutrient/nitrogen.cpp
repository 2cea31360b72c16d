#include "plugins/nutrient/nitrogen.hpp"

#include "plugins/chemistry/rounding.hpp"
#include "plugins/lab/allowance.hpp"
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
  MassConcentration found, wanted;
  Fraction share;  // nitrogen in the substance

  MassConcentration after(MassConcentration added) const { return found + added * share; }
};

Question read(const Inputs& in, Outcome& out) {
  if (in.get(lot::stage) == "wine" && in.get(lot::wine_class) != "sparkling")
    throw InputError("nutrients go into must, before or in fermentation, and this lot is a still wine",
                     "for a second fermentation say 'class: sparkling'");
  const Course course = course_of(in);
  const MassConcentration measured = measured_nitrogen(in, out);
  return {.course = course, .found = measured, .wanted = wanted_nitrogen(in, course, out), .share = nitrogen_of(in)};
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
  out.result(needed, q.wanted);
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

void check_need(const Question& q, MassConcentration reached, std::string_view relation, bool holds, std::string remedy,
                Outcome& out) {
  out.checks.push_back({.name = "nitrogen for the fermentation",
                        .holds = holds,
                        .value = figure(reached, needed.unit, needed.decimals),
                        .limit = figure(q.wanted, needed.unit, needed.decimals),
                        .relation = relation,
                        .source = "need by sugar and strain, or the target",
                        .remedy = holds ? std::string() : std::move(remedy)});
}

std::string refusal(const Inputs& in, const Question& q, const std::vector<Law>& laws) {
  if (std::any_of(laws.begin(), laws.end(), [](const Law& law) { return law.forbids(); }))
    return fmt::format("nothing was dosed: {} is not for this lot; take another nutrient", in[substance].id);
  const auto most = chemistry::down_to_step<MassConcentration>(room(laws), 0.01 * gram_per_litre);
  return fmt::format(
      "nothing was dosed. The limits allow {} more, which gives {}: lower the target or choose a strain with less "
      "need, or make up the rest with a yeast autolysate",
      print(most.value(), "g/L", 2), print(q.after(most).value(), needed.unit, 0));
}

void refuse(const Inputs& in, const Question& q, const std::vector<Law>& laws, MassConcentration exact, Outcome& out) {
  const std::string remedy = refusal(in, q, laws);
  write_results(in, q, MassConcentration{}, out);
  hold_laws(laws, exact, remedy, out);
  check_need(q, q.found, "at least", false, "nothing was dosed, because the addition would pass a limit", out);
}

void add(const Inputs& in, const Question& q, const std::vector<Law>& laws, MassConcentration exact, Outcome& out) {
  const auto times = moments(in, q.course);
  const double count = static_cast<double>(times.size());
  const MassConcentration most = room(laws);
  const Mass portion = weighed(exact * in[lot::volume] / count,
                               std::isfinite(most.value()) ? MostMass(most * in[lot::volume] / count) : MostMass());
  const MassConcentration added = portion * count / in[lot::volume];
  const bool fine = chemistry::near_enough(q.after(added), q.wanted);
  check_need(q, q.after(added), "equals", fine,
             "nothing was dosed: the lot is too small for the balance. Dissolve more and dose a part of it", out);
  write_results(in, q, fine ? added : MassConcentration{}, out);
  if (!fine) return;
  add_thiamine(in, q.course, out);
  if (portion > Mass{}) {
    write_portions(in, portion, times, out);
    say_course(in, q.course, out);
  }
  hold_laws(laws, added, {}, out);
}

void enough(const Inputs& in, const Question& q, const std::vector<Law>& laws, Outcome& out) {
  write_results(in, q, MassConcentration{}, out);
  check_need(q, q.found, "at least", true, {}, out);
  hold_laws(laws, MassConcentration{}, "more was added before than the limit allows", out);
  out.note("enough already: no nitrogen is added; a surplus feeds spoilage microbes");
  add_thiamine(in, q.course, out);
}

// The doses are in the tank already.
Outcome with_held(const Inputs& in, const Question& q, MassConcentration held) {
  Outcome out;
  write_results(in, q, held, out);
  std::vector<std::pair<std::string, MassConcentration>> added;
  if (held > MassConcentration{}) added.emplace_back(in[substance].id, held);
  // A refusal doses no thiamine either.
  const bool dosed = held > MassConcentration{} || q.wanted <= q.found;
  if (const auto mass = thiamine_mass(in); mass && dosed)
    added.emplace_back(thiamine_limit.name, *mass / in[lot::volume]);
  record(in, added, out);
  return out;
}

}  // namespace

Outcome run(const Inputs& in) {
  Outcome out;
  const Question q = read(in, out);
  if (const auto held = in.decided(dose)) return with_held(in, q, *held);
  const MassConcentration missing = q.wanted - q.found;
  const bool fed = missing <= slack * q.wanted;
  // Where nothing goes in, nothing goes in too late.
  if (!fed || in.has(thiamine)) check_time(q.course);
  const auto laws = laws_of(in);
  say_what_the_law_counts(in, laws, out);
  const MassConcentration exact = missing / q.share;
  lab::check_total(in, in[substance].id, exact);
  if (fed)
    enough(in, q, laws, out);
  else if (exact > room(laws) * (1 + slack))
    refuse(in, q, laws, exact, out);
  else
    add(in, q, laws, exact, out);
  record_additions(in, out);
  return out;
}

}  // namespace vatwright::nutrient::nitrogen
