#include "plugins/nutrient/dose.hpp"

#include "plugins/lab/allowance.hpp"
#include "plugins/lab/dose.hpp"
#include "plugins/nutrient/nitrogen.hpp"
#include "units/atomic_weights.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

namespace vatwright::nutrient::nitrogen {
namespace {

constexpr Fraction sulfate_share = molar_mass("SO4") / molar_mass("(NH4)2SO4");

Addition addition_of(std::string substance_id, Mass mass, const Inputs& in, std::string_view unit, int decimals,
                     std::string when) {
  return {.substance = std::move(substance_id),
          .mass = mass,
          .dose = figure(mass / in[lot::volume], unit, decimals),
          .when = std::move(when)};
}

using Law = lab::Allowance<MassConcentration>;

Law thiamine_law(const Inputs& in) {
  return {&thiamine_limit, in[thiamine_limit], lab::added_before(in, thiamine_limit.name)};
}

Mass thiamine_shown(const Inputs& in, const Law& law) {
  const Volume tank = in[lot::volume];
  return lab::nearest_else_down(
      [&](lab::Rounding rounding) { return lab::rounded<Mass>(in[thiamine] * tank, rounding, to_balance); },
      [&](Mass mass) { return !law.bound || mass <= law.room() * tank * (1 + lab::hair); });
}

// The rounded mass against what was asked for.
Check thiamine_closing(const Inputs& in, const Law& law) {
  const MassConcentration wanted = in[thiamine];
  return lab::aim_from_nothing(thiamine.name, thiamine.unit, 2, wanted, lab::left_by_balance)
      .closing(wanted, thiamine_shown(in, law) / in[lot::volume], "what the balance shows",
               "weigh more into a stock solution of known strength, and measure out a part of that");
}

std::string portion_name(std::size_t number, std::size_t of) { return fmt::format("{} of {}", number, of); }

}  // namespace

Fraction nitrogen_of(const Inputs& in) {
  const auto& facts = in[substance];
  if (facts.id != autolysate) {
    if (in.has(nitrogen_share))
      throw InputError("a nitrogen share was given, but that of " + facts.id + " follows from its formula",
                       "say 'substance: yeast autolysate', or leave the share out");
    return coherent<Fraction>(facts.active_share);
  }
  if (const auto share = in.get(nitrogen_share)) return *share;
  throw InputError("a yeast autolysate needs its nitrogen share",
                   "such as 'nitrogen share: 5 %': assimilable nitrogen, from the label");
}

void write_portions(const Inputs& in, Mass portion, const std::vector<Moment>& moments, Outcome& out) {
  const auto& id = in[substance].id;
  Table table{.name = "portions", .columns = {{"portion"}, {"when"}, {"weigh"}, {"sugar left", "g/L", 0}}, .rows = {}};
  const Shown shown = readable(portion);
  for (const auto& [when, left] : moments) {
    const auto name = portion_name(table.rows.size() + 1, moments.size());
    out.additions.push_back(addition_of(id, portion, in, "g/hL", 1,
                                        moments.size() == 1 ? when : fmt::format("portion {}, {}", name, when)));
    table.rows.push_back(
        {name, when, fmt::format("{:.4g} {}", shown.number, shown.unit), left ? Cell(left->value()) : Cell()});
  }
  out.tables.push_back(std::move(table));
  if (moments.size() > 1) out.note("each addition listed is one portion: do not add both at once");
  if (id == sulfate) {
    const double times = static_cast<double>(moments.size());
    const MassConcentration brought = portion * times * sulfate_share / in[lot::volume];
    out.note(fmt::format("brings {} of sulfate, which has a limit of its own", print(brought, "mg/L", 0)));
  }
  out.note("measure assimilable nitrogen again before any further dose, and follow the density daily");
}

std::optional<Mass> thiamine_mass(const Inputs& in) {
  if (!in.has(thiamine)) return std::nullopt;
  const Law law = thiamine_law(in);
  if (law.passed_by(in[thiamine]) || !thiamine_closing(in, law).holds) return std::nullopt;
  return thiamine_shown(in, law);
}

void add_thiamine(const Inputs& in, const Course& course, Outcome& out) {
  if (!in.has(thiamine)) return;
  const Law law = thiamine_law(in);
  if (!law.bound) lab::note_unlimited(thiamine_limit.name, out);
  if (law.passed_by(in[thiamine])) {
    const auto most = lab::down_to_step<MassConcentration>(law.room(), 0.01 * milligram_per_litre);
    law.hold(in[thiamine], 2,
             fmt::format("no thiamine was dosed: the limit allows {}{}", print(most, "mg/L", 2),
                         law.before > MassConcentration{} ? " more" : ""),
             out);
    return;
  }
  const auto mass = thiamine_mass(in);
  const MassConcentration given = thiamine_shown(in, law) / in[lot::volume];
  out.checks.push_back(thiamine_closing(in, law));
  if (!mass) return;
  out.additions.push_back(
      addition_of(std::string(thiamine_limit.name), *mass, in, "mg/L", 2, course.begun ? "at once" : "with the yeast"));
  law.hold(given, 2, {}, out);
}

void hold_thiamine(const Inputs& in, Outcome& out) {
  const Law law = thiamine_law(in);
  law.hold(thiamine_shown(in, law) / in[lot::volume], 2, {}, out);
}

}  // namespace vatwright::nutrient::nitrogen
