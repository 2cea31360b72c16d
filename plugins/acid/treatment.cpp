#include "plugins/acid/treatment.hpp"

#include "plugins/chemistry/bracketed.hpp"
#include "plugins/lab/analysis.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <vector>

namespace vatwright::acid {
namespace {

// What a pH meter and a burette show (common practice, no source).
constexpr Ph close_ph = 0.01 * ph_unit;
constexpr Acidity close_titratable = 0.67 * milliequivalent_per_litre;  // 0.05 g/L as tartaric acid
// Half of the last figure that a sheet shows.
constexpr Ph unseen_ph = 0.005 * ph_unit;
constexpr Acidity unseen_titratable = 0.067 * milliequivalent_per_litre;  // 0.005 g/L as tartaric acid

Ph figure_of(const State& state, const lab::Aim<Ph>&) { return state.ph; }
Acidity figure_of(const State& state, const lab::Aim<Acidity>&) { return state.titratable; }
std::string text(Ph ph) { return "pH " + print_number(ph.value(), 2); }
std::string text(Acidity acidity) { return print(acidity, target_titratable.unit, 2); }

}  // namespace

Target::Target(const Inputs& in, Moves acidity) {
  const bool up = acidity == Moves::up;
  if (in.has(target_ph)) {
    aim_ = lab::Aim<Ph>{target_ph.name, target_ph.unit, 2, in[target_ph], close_ph, unseen_ph, up};
    return;
  }
  const Acidity done = in.get(up ? lot::acid_added : lot::acid_removed).value_or(Acidity{});
  aim_ = lab::Aim<Acidity>{target_titratable.name,
                           target_titratable.unit,
                           2,
                           in[target_titratable],
                           close_titratable,
                           std::max<Acidity>(unseen_titratable, lab::left_by_balance * done),
                           !up};
}

Target::Target(const State& now, const State& meant) {
  const Acidity moved = meant.titratable - now.titratable;
  const Acidity close = lab::coarse * (moved < Acidity{} ? -moved : moved);
  aim_ = lab::Aim<Acidity>{"titratable acidity with the stated amount",
                           target_titratable.unit,
                           2,
                           meant.titratable,
                           close,
                           {},
                           moved < Acidity{}};
}

Acidity Target::excess(const Wine& wine, const chemistry::Composition& after) const {
  if (const auto* ph = std::get_if<lab::Aim<Ph>>(&aim_)) return chemistry::base_to(after, ph->wanted, wine.medium);
  return titratable(wine, after) - std::get<lab::Aim<Acidity>>(aim_).wanted;
}

bool Target::falls() const {
  return std::visit([](const auto& aim) { return aim.falls; }, aim_);
}

bool Target::met_by(const State& state) const {
  return std::visit([&](const auto& aim) { return aim.met_by(figure_of(state, aim)); }, aim_);
}

bool Target::nearly_met_by(const State& state) const {
  return std::visit([&](const auto& aim) { return aim.nearly(figure_of(state, aim)); }, aim_);
}

Check Target::met(const State& now, std::string remedy) const {
  return std::visit([&](const auto& aim) { return aim.met(figure_of(now, aim), std::move(remedy)); }, aim_);
}

Check Target::closing(const State& exact, const State& dosed, std::string model, std::string_view way_out) const {
  const auto close = [&](const auto& aim) {
    return aim.closing(figure_of(exact, aim), figure_of(dosed, aim), std::move(model), way_out);
  };
  return std::visit(close, aim_);
}

std::string Target::wanted() const {
  return std::visit([](const auto& aim) { return text(aim.wanted); }, aim_);
}

std::string Target::reached(const State& state) const {
  return std::visit([&](const auto& aim) { return text(figure_of(state, aim)); }, aim_);
}

std::optional<MassConcentration> solve(const Wine& wine, const Target& target, const Course& course,
                                       MassConcentration most) {
  const auto excess = [&](double dose) {
    return target.excess(wine, course(coherent<MassConcentration>(dose))).value();
  };
  const double at_none = excess(0), at_most = excess(most.value());
  if ((at_none > 0) == (at_most > 0)) return std::nullopt;
  return coherent<MassConcentration>(
      chemistry::kernel::nearly_straight_root(excess, 0, most.value(), {most.value(), at_most}, {0, at_none}));
}

void tell_span(const Inputs& in, const Wine& wine, const Target& target, MassConcentration dose, MassConcentration most,
               const std::function<Course(const Wine&)>& course_of, Outcome& out) {
  constexpr double same = 0.01;  // of the dose
  Table table{.name = "Dose by what the acids are that nobody measured",
              .columns = {{"taken to be"}, {"dose", "g/L", 2}},
              .rows = {{std::string("as usual, as on this sheet"), dose.value()}}};
  const auto analysis = lab::analysis(in);
  // A lot at that end may hold more than the activities are known for.
  const auto dose_of = [&](const Wine& other) -> std::optional<MassConcentration> {
    try {
      return solve(other, target, course_of(other), most);
    } catch (const InputError&) {
      return std::nullopt;
    }
  };
  std::vector<double> doses;
  for (const double leaning : {1.0, -1.0}) {
    const auto other = at_end(in, wine, leaning);
    if (!other) continue;
    const auto there = dose_of(*other);
    if (!there) continue;
    doses.push_back(there->value());
    table.rows.push_back(
        {chemistry::words_of(analysis, chemistry::end_of_unmeasured(analysis, leaning)), there->value()});
  }
  if (doses.size() != 2 || std::abs(doses[0] - doses[1]) < same * dose.value()) return;
  std::sort(doses.begin(), doses.end());
  const auto text = [](double number) { return print(coherent<MassConcentration>(number), "g/L", 2); };
  out.note(fmt::format(
      "by what the acids are that nobody measured, the right dose lies from {} to {}; where readings carry "
      "a ±, that of the dose counts it as far as the dose moves evenly: where it is much narrower than this, believe "
      "the ± by draws",
      text(doses[0]), text(doses[1])));
  out.tables.push_back(std::move(table));
}

std::optional<AtEquilibrium> at_equilibrium(const Inputs& in, const chemistry::Composition& dissolved) {
  if (!in.has(lot::temperature) || !in.has(lot::potassium) || !in.has(lot::tartaric_acid)) return std::nullopt;
  const Temperature tank = in[lot::temperature];
  if (tank < chemistry::least_saturation_temperature || tank > chemistry::most_saturation_temperature)
    return std::nullopt;
  return AtEquilibrium{tank, chemistry::Bitartrate(lab::ethanol(in)).deposit(dissolved, tank)};
}

void note_enough(const Target& target, const State& now, std::string_view other_way, Outcome& out) {
  const auto has = target.reached(now), wanted = target.wanted();
  const auto already = fmt::format("{} enough already: the lot has {}", target.falls() ? "low" : "high", has);
  if (has == wanted)
    out.note(already + ", as asked for");
  else if (target.nearly_met_by(now))
    out.note(fmt::format("{}; {}", already, lab::no_more_than_rounding_leaves));
  else
    out.note(fmt::format("{}, and the target is {}; what brings it {} to that is {}", already, wanted,
                         target.falls() ? "up" : "down", other_way));
}

}  // namespace vatwright::acid
