#include "plugins/acid/addition.hpp"

#include "plugins/acid/dosing.hpp"
#include "plugins/chemistry/acid_treatment.hpp"
#include "plugins/chemistry/tartrate.hpp"
#include "plugins/chemistry/water.hpp"
#include "plugins/lab/acid_agents.hpp"
#include "plugins/lab/agents.hpp"
#include "plugins/lab/allowance.hpp"
#include "plugins/lab/in_the_tank.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <cmath>
#include <optional>
#include <utility>

namespace vatwright::acid::addition {
namespace {

using chemistry::Acid;

// More is added to no wine (common practice, no source).
constexpr MassConcentration most_added = 10.0 * gram_per_litre;
// "1 g/L of tartaric acid lowers the pH by about 0.1" (common practice, no source).
constexpr double ph_per_gram = 0.1;
// A difference from the rule of thumb that would change what is done (common practice, no source).
constexpr double other_ph = 0.15;  // the rule is that far off in wines that buffer little or much
constexpr Acidity other_acidity = 4.0 * milliequivalent_per_litre;

// Of a solution of lactic acid: the water that it brings is then less than a half percent of the wine, for 5 g/L.
constexpr MassFraction weakest = coherent<MassFraction>(0.5);

using lab::AcidAgent;

const AcidAgent& agent_of(const Inputs& in) {
  for (const auto& agent : lab::acid_agents)
    if (agent.substance == in[substance].id) return agent;
  throw std::logic_error("no acid for " + in[substance].id);
}

// Pure acid in what is weighed.
double active_share(const Inputs& in) {
  const auto& facts = in[substance];
  const bool solution = facts.id == lactic;
  if (solution && !in.has(strength))
    throw InputError("lactic acid is sold as a solution and needs its strength",
                     "such as 'strength: 80 % mass', from the label");
  if (!solution && in.has(strength))
    throw InputError("strength was given, but " + facts.id + " is a solid",
                     "leave strength out, or say 'substance: lactic acid'");
  if (solution && in[strength] < weakest)
    throw InputError(
        "a solution of " + print(in[strength], "% mass", 1) + " would thin the wine by more than is reckoned here",
        "take one of " + print(weakest, "% mass", 0) + " or more");
  return solution ? in[strength].value() : facts.active_share;
}

// Of the pure acid.
std::optional<MassConcentration> stated_amount(const Inputs& in, double share) {
  auto amount = in.get(stated);
  if (!amount && in.has(stated_as))
    throw InputError("'add as' is given, but no amount to add", "write 'add: 1 g/L', or leave it out");
  if (!amount || in.get(stated_as) != as_product) return amount;
  return MassConcentration(*amount * share);
}

// Its name without its water, as laws call it.
std::string_view pure(const AcidAgent& agent) { return agent.acid == Acid::citric ? citric : agent.substance; }

struct Question {
  Wine wine;
  const AcidAgent& agent;
  Course course;
  MassConcentration most{};  // the largest dose that is reckoned
  mutable std::optional<std::pair<MassConcentration, State>> last{};

  // Asked of one dose by its figures and by each of its limits.
  State after(MassConcentration dosed) const {
    if (!last || last->first != dosed) last = {dosed, state_of(wine, course(dosed))};
    return last->second;
  }
};

Course course_of(const Wine& wine, Acid acid) {
  return [wine = wine.composition, acid](MassConcentration added) {
    chemistry::Composition c = wine;
    c.add(acid, added);
    return c;
  };
}

Question read(const Inputs& in, Outcome& out) {
  Question q{read_wine(in, out), agent_of(in), {}};
  q.course = course_of(q.wine, q.agent.acid);
  return q;
}

// Up to `most_added`, as long as a titration keeps to ionic strengths for which activity coefficients
// are known.
MassConcentration most_reckoned(const Question& q) {
  constexpr int parts = 20;
  for (int part = parts; part > 0; --part) {
    const MassConcentration dosed = most_added * (static_cast<double>(part) / parts);
    try {
      q.after(dosed);
      return dosed;
    } catch (const InputError&) {  // too strong
    }
  }
  return {};
}

// The water of a solution, as a share of the wine: it counts with that of other treatments. So little thins nothing
// that is reckoned here.
Fraction water_of(double share, MassConcentration dosed) { return dosed * (1 / share - 1) / chemistry::water_at_20; }

// What the law counts: the acidity that the titration finds more.
Acidity rise(const Question& q, MassConcentration dosed) { return q.after(dosed).titratable - q.wine.titratable; }

void write_figures(const Inputs& in, const Question& q, MassConcentration dosed, const State& state, Outcome& out) {
  out.result(dose, dosed);
  write_state(q.wine, q.course(dosed), state, out);
  if (dosed == MassConcentration{}) return;
  change_state(state, out);
  shift(in, *q.agent.fact, dosed, out);
  out.change(lot::acid_added, in.get(lot::acid_added).value_or(Acidity{}) + (state.titratable - q.wine.titratable));
  if (q.agent.acid == Acid::citric) lab::keep_account(citric, dosed, out);
  if (q.agent.substance == lactic) lab::count_water(in, water_of(active_share(in), dosed), out);
}

// The content of the lot counts where it is stated, with all that was added in it; else what was added.
void add_citric_limits(const Inputs& in, Law& law, Outcome& out) {
  const auto content = in.get(lot::citric_acid);
  const MassConcentration before = content ? *content : law.counted(in, citric_limit, citric);
  law.add(in, citric_limit, [before](MassConcentration d) -> MassConcentration { return before + d; });
  if (!in.figures_only() && !content && in[citric_limit])
    out.note("citric acid of the lot was not given: its limit is held against what was added alone");
}

Law read_law(const Inputs& in, const Question& q, Outcome& out) {
  Law law;
  law.add(in, added_limit,
          [&q, before = law.counted(in, added_limit, lot::acid_added)](MassConcentration d) -> Acidity {
            return before + rise(q, d);
          });
  law.add_history(in, removed_first, lot::acid_removed);
  law.add_history(in, enriched_first, lot::strength_gained);
  law.add_fixed(
      in, fixed_most, lot::acid_added, [&q](MassConcentration d) { return q.after(d).titratable; }, out);
  if (q.agent.acid == Acid::citric) add_citric_limits(in, law, out);
  if (q.agent.substance == lactic)
    law.add(
        in, lab::water_limit,
        [share = active_share(in), before = law.counted(in, lab::water_limit, lot::water_added)](
            MassConcentration d) -> Fraction { return before + water_of(share, d); },
        true);
  law.add(
      in, ameliorated_ph, [&q](MassConcentration d) -> Ph { return q.after(d).ph; }, true);
  return law;
}

// `allowed`: by the limits, where they forbid the most that is reckoned.
[[noreturn]] void refuse_distance(const Question& q, const Target& target, const std::string& allowed) {
  const State there = q.after(q.most);
  std::string hint =
      fmt::format("the nearest that can be is {}, with {}", target.reached(there), print(q.most, "g/L", 1));
  if (q.most < most_added)
    hint += fmt::format(
        "; beyond it the solution holds more salt and acid than the model is good for. {} at pH {} is much already: "
        "measure both again",
        print(q.wine.titratable, titratable_after.unit, 1), print_number(q.wine.ph.value(), 2));
  if (!allowed.empty()) hint += "; " + allowed;
  throw InputError(fmt::format("{} cannot be {} with {}", target.wanted(), q.most < most_added ? "reckoned" : "reached",
                               chemistry::row(q.agent.acid).name),
                   hint);
}

// What happens when potassium takes some of the tartaric acid along.
void bitartrate_warning(const Inputs& in, const Question& q, MassConcentration dosed, Outcome& out) {
  const auto composition = q.course(dosed);
  if (!(composition[Acid::tartaric] > AmountConcentration{})) return;
  const auto at = chemistry::equilibrium(composition, q.wine.medium);
  const Ph pivot = chemistry::tartrate_pivot(at, q.wine.medium);
  out.note(fmt::format(
      "potassium bitartrate may fall out afterwards, most of all in the cold: the acidity then falls again, "
      "and the pH {} (predicted pH {}; it would stand still at pH {})",
      at.ph < pivot ? "falls further" : "rises", print_number(at.ph.value(), 2), print_number(pivot.value(), 2)));
  Table table{
      .name = "If potassium bitartrate falls out",
      .columns = {{"crystals", "g/L", 1}, {"predicted", "pH", 2}, {"titratable acidity", titratable_after.unit, 2}},
      .rows = {}};
  for (const double mass : {0.0, 0.5, 1.0, 2.0}) {
    const AmountConcentration crystals = mass * gram_per_litre / chemistry::bitartrate_molar_mass;
    if (crystals > composition[Acid::tartaric]) break;
    const auto after = chemistry::after_bitartrate(composition, crystals);
    table.rows.push_back(
        {mass, chemistry::equilibrium(after, q.wine.medium).ph.value(), titratable(q.wine, after).value()});
  }
  if (const auto settled = at_equilibrium(in, composition)) {
    const MassConcentration crystals = settled->deposit.removed * chemistry::bitartrate_molar_mass;
    table.rows.push_back({crystals.value(), chemistry::equilibrium(settled->deposit.left, q.wine.medium).ph.value(),
                          titratable(q.wine, settled->deposit.left).value()});
    out.note(fmt::format(
        "the last line of that table is at equilibrium, held at {}, as of a pure solution: {} of bitartrate. What is "
        "likely lies between none of it and that: a wine holds crystals back, and without seed they take weeks",
        print(settled->temperature, "°C", 0), print(crystals, "g/L", 2)));
  }
  out.tables.push_back(std::move(table));
}

void rules_of_thumb(const Question& q, MassConcentration dosed, const State& state, Outcome& out) {
  const Acidity there = q.wine.titratable + chemistry::equivalents(q.agent.acid, dosed);
  out.opinions.push_back({.name = "titratable acidity by the rule that the acid counts with its whole weight",
                          .here = figure(state.titratable, titratable_after.unit, 2),
                          .there = figure(there, titratable_after.unit, 2),
                          .matters = std::abs((there - state.titratable).value()) > other_acidity.value(),
                          .source = "common practice, no source"});
  if (q.agent.acid != Acid::tartaric) return;
  const Ph ph = q.wine.ph - ph_per_gram * (dosed / gram_per_litre) * ph_unit;
  out.opinions.push_back({.name = "pH by the rule that 1 g/L of tartaric acid lowers it by 0.1",
                          .here = figure(state.ph, "pH", 2),
                          .there = figure(ph, "pH", 2),
                          .matters = std::abs((ph - state.ph).value()) > other_ph,
                          .source = "common practice, no source"});
}

void write_notes(const Inputs& in, const Question& q, MassConcentration dosed, Outcome& out) {
  out.note(
      "acid and deacidification shut each other out on one must or wine (OIV Code; EU rules likewise, and there acid "
      "and enrichment too)");
  if (q.agent.acid == Acid::malic)
    out.note("lactic bacteria turn malic acid into lactic acid: half of this acidity is then lost again");
  if (q.agent.acid != Acid::lactic) bitartrate_warning(in, q, dosed, out);
  out.note("mix well, let it rest a day, and measure pH and titratable acidity again before any second addition");
}

// What is particular to a dose of acid.
struct Job : Dosing<Question> {
  static constexpr const auto& decided = dose;
  MassConcentration exact() const {
    q.most = most_reckoned(q);
    const auto found = amount ? amount : solve(q.wine, aim, q.course, q.most);
    if (!found) refuse_distance(q, aim, law.forbids(q.most) ? what_is_allowed() : "");
    if (q.agent.acid == Acid::citric) lab::check_total(in, citric, *found);
    return *found;
  }
  bool allowed(MassConcentration) const { return lab::may_take(in, purpose::acidify, pure(q.agent), out); }
  std::string what_is_allowed() const { return allowed_text(chemistry::row(q.agent.acid).name, q.most); }
  void refuse(MassConcentration exact) const { Dosing::refuse(exact, "addition", what_is_allowed()); }

  void settle(Mass weighed) const { write_figures(in, q, dosed(weighed), reached(weighed), out); }
  void order(Mass weighed) const {
    out.additions.push_back(lab::Portion{.mass = weighed}.ordered(
        in[substance].id, in[lot::volume], 2, in.has(strength) ? print(in[strength], "% mass", 1) : ""));
  }
  void leave() const { acid::note_enough(aim, q.after({}), "acid.reduction", out); }
  void tell(MassConcentration, Mass weighed) const {
    if (!lab::any(weighed)) return;
    const MassConcentration given = dosed(weighed);
    const auto treated = [acid = q.agent.acid](const Wine& wine) { return course_of(wine, acid); };
    if (!amount) tell_span(in, q.wine, aim, given, q.most, treated, out);
    rules_of_thumb(q, given, reached(weighed), out);
    lab::tell_ph_in_the_tank(in, q.course(given), out);
    write_notes(in, q, given, out);
  }
};

}  // namespace

Outcome run(const Inputs& in) {
  Outcome out;
  Question q = read(in, out);
  const double share = active_share(in);  // complains before anything is reckoned
  const auto amount = stated_amount(in, share);
  const Target target = amount ? Target(q.after({}), q.after(*amount)) : Target(in, Moves::up);
  const Law law = read_law(in, q, out);
  law.note_unstated(out);
  lab::come_about(Job{{{in, out, target, amount.has_value()}, q, law, amount, share}});
  return out;
}

}  // namespace vatwright::acid::addition
