#include "plugins/sulfite/addition.hpp"

#include "plugins/chemistry/sulfite.hpp"
#include "plugins/lab/agents.hpp"
#include "plugins/lab/allowance.hpp"
#include "plugins/lab/dose.hpp"
#include "plugins/sulfite/chart.hpp"
#include "plugins/sulfite/dose.hpp"
#include "plugins/sulfite/state.hpp"
#include "plugins/sulfite/stated.hpp"
#include "units/parse.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace vatwright::sulfite::addition {
namespace {

// Sulfur dioxide as far as it was measured, and what this step added.
struct State {
  std::optional<MassConcentration> free, total;
  MassConcentration added{};
};

// What the target is about.
enum class Of : std::uint8_t { molecular, free, total, stated };

Of asked(const Inputs& in) {
  if (in.has(target_molecular)) return Of::molecular;
  if (in.has(target_free)) return Of::free;
  return in.has(target_total) ? Of::total : Of::stated;
}

std::string_view word(Of of) {
  constexpr std::array<std::string_view, 4> words{"molecular", "free", "total", "of it"};
  return words[static_cast<std::size_t>(of)];
}

const Input& target_of(const Inputs& in, Of of) {
  if (of == Of::molecular) return target_molecular;
  if (of == Of::free) return target_free;
  if (of == Of::total) return target_total;
  if (in.has(stated_liquid)) return stated_liquid;
  return in.has(stated) ? static_cast<const Input&>(stated) : stated_on_fruit;
}

// The question, read once.
struct Question {
  Of of;
  State now;
  Volume volume;
  std::optional<NamedPk1> pk1;  // where the pH is known
  Fraction molecular_share;     // molecular in free
  Fraction free_share;          // free in added

  bool shows_molecular() const { return pk1 && now.free; }
  MassConcentration molecular(const State& s) const { return s.free.value_or(MassConcentration{}) * molecular_share; }
  // The figure that the target is about.
  MassConcentration reached(const State& s) const {
    if (of == Of::molecular) return molecular(s);
    if (of == Of::stated) return s.added;
    return (of == Of::free ? s.free : s.total).value_or(MassConcentration{});
  }
  // What has to be added for it, before rounding.
  MassConcentration exact(MassConcentration wanted) const {
    const MassConcentration missing = wanted - reached(now);
    if (of == Of::total || of == Of::stated) return missing;
    return (of == Of::molecular ? chemistry::free_for(missing, molecular_share) : missing) / free_share;
  }
  State after(MassConcentration more) const {
    State then = now;
    then.added = now.added + more;
    if (now.free) then.free = *now.free + free_share * more;
    if (now.total) then.total = *now.total + more;
    return then;
  }
};

// What of an addition stays free in this run, by the model's own uncertainty.
Fraction in_this_wine(const Inputs& in, Fraction share) {
  constexpr Fraction least = coherent<Fraction>(0.05), most = coherent<Fraction>(1);
  return in.has(free_share) ? share : std::clamp<Fraction>(share + in[stays_free], least, most);
}

std::string wine_rule() {
  using namespace chemistry;
  return fmt::format(
      "half in wine with {} or less of free SO2, or {} or more of sugar; two thirds in wine with {} or more and {} or "
      "less; in between by a straight line (common practice, no source)",
      print(little_free_so2, "mg/L", 0), print(sweet_from, "g/L", 0), print(enough_free_so2, "mg/L", 0),
      print(dry_up_to, "g/L", 0));
}

Fraction choose_free_share(const Inputs& in, Outcome& out) {
  if (const auto held = in.decided(share_used)) return *held;
  const auto choose = [&](Fraction share, std::string_view why) {
    if (!in.figures_only())
      out.note(fmt::format("{} of the addition is taken to stay free: {}", print(share, "%", 1), why));
    return share;
  };
  if (const auto given = in.get(free_share)) return choose(*given, "as given");
  const auto sugar = in.get(lot::sugar);
  if (in.get(lot::stage) == "must") return choose(chemistry::lower_free_share, "must (common practice, no source)");
  if (!sugar) out.note("sugar was not given: the lot is taken for dry");
  const Fraction share = chemistry::usual_free_share(in[lot::free_so2], sugar.value_or(MassConcentration{}));
  return in.figures_only() ? share : choose(share, wine_rule());
}

// What the target, or a limit of the rule sets, asks for and the lot does not say: a dose is held to every limit.
void refuse_missing(const Inputs& in, Of of) {
  const bool of_total = in[total_limit].has_value();
  const auto free_bound = in[free_limit];
  const bool of_free = free_bound && is_ceiling(free_bound->row.sense);
  std::string missing;
  bool by_law = false;
  const auto ask = [&](const Input& key, bool for_target, bool for_law) {
    if (in.has(key) || !(for_target || for_law)) return;
    by_law = by_law || !for_target;
    missing += fmt::format("{}'{}' ({})", missing.empty() ? "" : ", ", key.name, key.help);
  };
  ask(lot::ph, of == Of::molecular, false);
  ask(lot::free_so2, of == Of::molecular || of == Of::free, of_free);
  ask(lot::total_so2, of == Of::total, of_total);
  if (missing.empty()) return;
  throw InputError(fmt::format("'{}'{} misses {}", target_of(in, of).name, by_law ? " under these rules" : "", missing),
                   "write it in the lot or in the step; fruit and must that were given no sulfite hold 0 mg/L");
}

lab::Aim<MassConcentration> aim_of(const Inputs& in, Of of, Outcome& out) {
  const double left = in[substance].id == solution ? lab::left_by_cylinder : lab::left_by_balance;
  const MassConcentration amount = stated_so2(in, out);
  if (of == Of::stated) return lab::aim_from_nothing(added_so2.name, added_so2.unit, 1, amount, left);
  const auto& target = of == Of::molecular ? target_molecular : of == Of::free ? target_free : target_total;
  return lab::aim_from_nothing(target.name, target.unit, of == Of::molecular ? 2 : 1, in[target], left);
}

Question read(const Inputs& in, Outcome& out) {
  const Of of = asked(in);
  refuse_missing(in, of);
  const Readings measured = read_so2(in);
  const auto pk = in.has(lot::ph) ? std::optional(chosen_pk1(in, out)) : std::nullopt;
  return {.of = of,
          .now = {.free = measured.free, .total = measured.total},
          .volume = in[lot::volume],
          .pk1 = pk,
          .molecular_share = pk ? chemistry::molecular_share(in[lot::ph], pk->value) : Fraction{},
          .free_share = measured.free ? in_this_wine(in, choose_free_share(in, out)) : Fraction{}};
}

void write_results(const Question& q, MassConcentration added, Outcome& out) {
  const State state = q.after(added);
  out.result(added_so2, added);
  if (state.free) out.result(free_so2, *state.free);
  if (state.total) out.result(total_so2, *state.total);
  if (q.shows_molecular()) out.result(molecular_so2, q.molecular(state));
  if (state.free) out.result(share_used, q.free_share);
}

// --- the law stands in the way

// Sodium that comes with one of sulfur dioxide.
double sodium_brought(const Inputs& in) {
  const auto& facts = in[substance];
  return facts.brought(lot::sodium.name) / facts.active_share;
}

// Sodium of the lot; none bounds it where it is not known, or not brought.
lab::Allowance<MassConcentration> sodium_law(const Inputs& in) {
  const auto sodium = in.get(lot::sodium);
  if (!sodium || !(sodium_brought(in) > 0)) return {};
  return {&sodium_limit, in[sodium_limit], *sodium, sodium_brought(in)};
}

// Figures of the lot that may not pass a limit, and how much of an addition comes to each.
lab::Law law_of(const Inputs& in, const Question& q) {
  lab::Law law;
  law.reserve(3);
  const auto put = [&](lab::Allowance<MassConcentration> held) {
    if (held.bound && is_ceiling(held.bound->row.sense)) law.push_back(std::move(held));
  };
  if (q.now.total) put({&total_limit, in[total_limit], *q.now.total});
  if (q.now.free) put({&free_limit, in[free_limit], *q.now.free, q.free_share.value()});
  put(sodium_law(in));
  return law;
}

// Of a limit that the addition would pass.
void hold_forbidden(const lab::Allowance<MassConcentration>& held, MassConcentration exact, const std::string& left,
                    Outcome& out) {
  if (held.forbids())
    held.hold(exact, 1,
              fmt::format("nothing was dosed. {} does not list {} for wine: say another 'substance'",
                          held.bound->row.rules, held.limit->name),
              out);
  else if (held.passed_by({}))
    held.hold({}, 1,
              fmt::format("nothing was dosed. The lot is past the limit already: {} of {}; blend it down with a lot "
                          "that has less",
                          print_number(parse_unit(held.limit->unit).number(held.before.value()), 1),
                          print(held.bound->value, held.limit->unit, 1)),
              out);
  else
    held.hold(exact, 1, left, out);
}

// --- the dose

void rule_of_thumb(const Inputs& in, const Dose& dose, chemistry::SulfurDioxideMass wanted, Outcome& out) {
  if (in[substance].id != potassium_metabisulfite || !dose.mass) return;
  const auto here = *dose.mass;
  const auto there = chemistry::half_weight_rule(wanted);
  out.opinions.push_back({.name = "potassium metabisulfite by the rule that half of its weight counts",
                          .here = figure(here.value(), "g", 2),
                          .there = figure(there.value(), "g", 2),
                          .matters = matters(here.value().value(), there.value().value()),
                          .source = "common practice, no source"});
}

// What is particular to a dose of sulfite.
struct Dosing : lab::Job<lab::Aim<MassConcentration>> {
  static constexpr const auto& decided = added_so2;
  static constexpr std::string_view model = "reckoned again with the amount to be weighed",
                                    way_out = "dose from a weaker sulfur dioxide solution";
  const Question& q;
  lab::Law law;

  MassConcentration exact() const { return q.exact(aim.wanted); }
  Dose measured(MassConcentration exact, Rounding rounding) const {
    return measure_out(in, as<chemistry::SulfurDioxide, Mass>(exact * q.volume), rounding);
  }
  MassConcentration added(const Dose& d) const { return d.so2.value() / q.volume; }
  MassConcentration reached(MassConcentration added) const { return q.reached(q.after(added)); }
  MassConcentration reached(const Dose& d) const { return reached(added(d)); }

  bool allowed(MassConcentration exact) const {
    return lab::may_take(in, purpose::sulfite, in[substance].id, out) && !lab::passed_by(law, exact);
  }
  bool keeps(const Dose& d) const { return !lab::passed_by(law, added(d)); }
  void refuse(MassConcentration exact) const {
    draw({{"this lot", now_free()}});
    const std::string left = what_the_law_leaves();
    for (const auto& held : law)
      if (held.passed_by(exact)) hold_forbidden(held, exact, left, out);
    out.checks.push_back(
        aim.met(reached(MassConcentration{}), "nothing was dosed, because the addition would pass a limit"));
  }
  std::string what_the_law_leaves() const {
    const auto most = lab::down_to_step<MassConcentration>(lab::room(law), 0.1 * milligram_per_litre);
    const char* way = q.of == Of::molecular ? "lower the target, or the pH"
                      : q.of == Of::stated  ? "add less"
                                            : "lower the target";
    if (most > MassConcentration{} && q.of == Of::stated)
      return fmt::format("nothing was dosed. The limits allow at most {} more SO2: {}", print(most, "mg/L", 1), way);
    const MassConcentration step = std::pow(10.0, -aim.decimals) * milligram_per_litre;
    if (most > MassConcentration{})
      return fmt::format("nothing was dosed. The limits allow at most {} more SO2, which gives {} {}: {}",
                         print(most, "mg/L", 1), print(lab::down_to_step(reached(most), step), "mg/L", aim.decimals),
                         word(q.of), way);
    if (lab::passed_by(law, {})) return "nothing was dosed. The lot is past a limit already";
    return fmt::format("nothing was dosed. The lot is at a limit as it stands: {}", way);
  }
  void hold(const Dose& d) const {
    const State then = q.after(added(d));
    check_limits(in, then.free, then.total, out);
    if (!any(d) && !in.figures_only()) return;
    sodium_law(in).hold(added(d), 1, "use the potassium salt, which brings no sodium", out);
    if (!in.figures_only() && !in.has(lot::sodium) && sodium_brought(in) > 0 && in[sodium_limit])
      out.note("sodium was not given: its limit was not checked");
  }

  void settle(const Dose& d) const {
    write_results(q, added(d), out);
    if (!any(d)) return;
    bring_cations(in, d, out);
    const State then = q.after(added(d));
    if (then.free) out.change(lot::free_so2, *then.free);
    if (then.total) out.change(lot::total_so2, *then.total);
  }
  void order(const Dose& d) const {
    write_addition(in, d, out);
    if (!in.figures_only()) out.note("mix well, and measure free and total SO2 again after 24 to 48 h");
  }

  void draw(const std::vector<Stage>& stages) const {
    if (!q.shows_molecular()) return;
    compare_molecular(in, stages.back().free_so2, *q.pk1, out);
    draw_molecular(in, *q.pk1, stages, out);
  }
  MassConcentration now_free() const { return q.now.free.value_or(MassConcentration{}); }

  void leave() const {
    draw({{"this lot", now_free()}});
    const MassConcentration found = q.reached(q.now);
    note_enough(
        q.of == Of::total
            ? fmt::format("enough already: {} of total SO2", print(found, "mg/L", 1))
            : fmt::format("enough already: {} of free SO2{}", print(now_free(), "mg/L", 1),
                          q.pk1 ? fmt::format(", {} of it molecular", print(q.molecular(q.now), "mg/L", 2)) : ""),
        found);
  }
  void withhold() const {
    draw({{"this lot", now_free()}});
    check_limits(in, q.now.free, q.now.total, out);
  }
  void tell(MassConcentration exact, const Dose& d) const {
    draw({{"before", now_free()}, {"after", q.after(added(d)).free.value_or(MassConcentration{})}});
    if (any(d)) rule_of_thumb(in, d, as<chemistry::SulfurDioxide, Mass>(exact * q.volume), out);
  }
};

}  // namespace

Outcome run(const Inputs& in) {
  Outcome out;
  const auto aim = aim_of(in, asked(in), out);
  const Question q = read(in, out);
  // What is in the tank by now is held against every limit as it stands, below.
  const lab::Law law = in.decided(added_so2) ? lab::Law{} : law_of(in, q);
  lab::come_about(Dosing{{in, out, aim}, q, law});
  return out;
}

}  // namespace vatwright::sulfite::addition
