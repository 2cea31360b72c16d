#include "plugins/nutrient/nitrogen.hpp"

#include "plugins/chemistry/rounding.hpp"
#include "plugins/nutrient/dose.hpp"
#include "plugins/nutrient/measured.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace vatwright::nutrient::nitrogen {
namespace {

// Rounding that moves the nitrogen by more than this is too coarse to dose by.
constexpr double coarse = 0.05;

struct Question {
  MassConcentration found, wanted;
  Fraction share;  // nitrogen in the substance
  MassConcentration dosed_before;

  MassConcentration after(MassConcentration added) const { return found + added * share; }
};

Question read(const Inputs& in, Outcome& out) {
  if (in.get(lot::stage) == "wine" && in.get(lot::wine_class) != "sparkling")
    throw InputError("nutrients go into must, before or in fermentation, and this lot is a still wine",
                     "for a second fermentation say 'class: sparkling'");
  const bool salt = in[substance].id != autolysate;
  return {.found = measured_nitrogen(in, out),
          .wanted = wanted_nitrogen(in, out),
          .share = nitrogen_of(in),
          .dosed_before = salt ? in[so_far] : MassConcentration{}};
}

// --- the law

struct LawOf {
  const Limit<MassConcentration>* limit;
  Bound<MassConcentration> bound;
};

std::vector<LawOf> laws(const Inputs& in) {
  std::vector<LawOf> found_laws;
  const auto& id = in[substance].id;
  for (const auto* limit : {&phosphate_limit, &sulfate_limit, &salts_limit}) {
    const bool applies = limit->name == id || (limit == &salts_limit && id != autolysate);
    if (!applies) continue;
    if (const auto bound = in[*limit]) found_laws.push_back({limit, *bound});
  }
  return found_laws;
}

// The most that may still be added; infinite where no rule says.
MassConcentration room(const std::vector<LawOf>& all, const Question& q) {
  auto most = coherent<MassConcentration>(HUGE_VAL);
  for (const auto& law : all) most = std::min<MassConcentration>(most, law.bound.value - q.dosed_before);
  return std::max(most, MassConcentration{});
}

void hold_laws(const std::vector<LawOf>& all, MassConcentration total, const std::string& remedy, Outcome& out) {
  for (const auto& law : all) out.hold(*law.limit, law.bound, total, 2, remedy);
}

// --- the answer

void write_results(const Inputs& in, const Question& q, MassConcentration added, Outcome& out) {
  out.result(found, q.found);
  out.result(needed, q.wanted);
  out.result(dose, added);
  out.result(after, q.after(added));
  if (in.get(lot::assimilable_nitrogen) != q.after(added)) out.change(lot::assimilable_nitrogen, q.after(added));
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

void refuse(const Inputs& in, const Question& q, const std::vector<LawOf>& all, MassConcentration exact, Outcome& out) {
  const auto most = chemistry::down_to_step<MassConcentration>(room(all, q), 0.01 * gram_per_litre);
  const std::string remedy = fmt::format(
      "nothing was dosed. The limits allow {} more, which gives {}: lower the target or choose a strain with less "
      "need, or make up the rest with a yeast autolysate",
      print(most.value(), "g/L", 2), print(q.after(most).value(), needed.unit, 0));
  write_results(in, q, MassConcentration{}, out);
  hold_laws(all, q.dosed_before + exact, remedy, out);
  check_need(q, q.found, "at least", false, "nothing was dosed, because the addition would pass a limit", out);
}

void add(const Inputs& in, const Question& q, const std::vector<LawOf>& all, MassConcentration exact, Outcome& out) {
  const double count = portion_count(in);
  const MassConcentration most = room(all, q);
  const Mass portion = weighed(exact * in[lot::volume] / count,
                               std::isfinite(most.value()) ? MostMass(most * in[lot::volume] / count) : MostMass());
  const MassConcentration added = portion * count / in[lot::volume];
  write_results(in, q, added, out);
  if (portion > Mass{}) write_portions(in, portion, out);
  const bool fine = std::abs(((q.after(added) - q.wanted) / q.wanted).value()) <= coarse;
  check_need(q, q.after(added), "equals", fine,
             "the lot is too small for the balance: dissolve more and dose a part of it", out);
  hold_laws(all, q.dosed_before + added, {}, out);
}

void enough(const Inputs& in, const Question& q, const std::vector<LawOf>& all, Outcome& out) {
  write_results(in, q, MassConcentration{}, out);
  check_need(q, q.found, "at least", true, {}, out);
  hold_laws(all, q.dosed_before, "more was added before than the limit allows", out);
  out.note("enough already: nothing is added; a surplus feeds spoilage microbes");
}

}  // namespace

Outcome run(const Inputs& in) {
  Outcome out;
  const Question q = read(in, out);
  if (const auto held = in.decided(dose)) {
    write_results(in, q, *held, out);
    return out;
  }
  const auto all = laws(in);
  if (all.empty()) out.note("no rule set of this recipe gives a limit for " + in[substance].id);
  const MassConcentration missing = q.wanted - q.found;
  const MassConcentration exact = missing / q.share;
  if (missing <= slack * q.wanted)
    enough(in, q, all, out);
  else if (exact > room(all, q) * (1 + slack))
    refuse(in, q, all, exact, out);
  else
    add(in, q, all, exact, out);
  add_thiamine(in, out);
  return out;
}

}  // namespace vatwright::nutrient::nitrogen
