#include "plugins/nutrient/dose.hpp"

#include "plugins/chemistry/rounding.hpp"
#include "plugins/nutrient/nitrogen.hpp"
#include "units/atomic_weights.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace vatwright::nutrient::nitrogen {
namespace {

constexpr Fraction sulfate_share = molar_mass("SO4") / molar_mass("(NH4)2SO4");

Addition addition_of(std::string substance_id, Mass mass, const Inputs& in, std::string_view unit, int decimals) {
  return {.substance = std::move(substance_id), .mass = mass, .dose = figure(mass / in[lot::volume], unit, decimals)};
}

Table portion_table(const Inputs& in, Mass portion) {
  Table table{
      .name = "portions", .columns = {{"portion"}, {"when"}, {"weigh", "g", 1}, {"sugar left", "g/L", 0}}, .rows = {}};
  table.rows.push_back(
      {"first", "fermentation has begun: the density has fallen by about 10 kg/m³", portion.value(), {}});
  if (portion_count(in) == 1) return table;
  Cell left;
  if (const auto sugar = in.get(lot::sugar)) left = sugar->value() * 2 / 3;
  table.rows.push_back(
      {"second", "a third of the sugar is gone; never after the middle of the fermentation", portion.value(), left});
  return table;
}

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

int portion_count(const Inputs& in) { return in[portions] == one_portion ? 1 : 2; }

Mass weighed(Mass exact, MostMass most) {
  const Mass nearest = to_balance(exact);
  if (!most || nearest <= *most * (1 + slack)) return nearest;
  return chemistry::rounded<Mass>(std::min(exact, *most), chemistry::Rounding::down, to_balance);
}

void write_portions(const Inputs& in, Mass portion, Outcome& out) {
  const auto& id = in[substance].id;
  for (int i = 0; i < portion_count(in); ++i) out.additions.push_back(addition_of(id, portion, in, "g/hL", 1));
  out.tables.push_back(portion_table(in, portion));
  if (portion_count(in) > 1) out.note("each addition listed is one portion: do not add both at once");
  if (id == sulfate) {
    const double times = portion_count(in);
    const MassConcentration brought = portion * times * sulfate_share / in[lot::volume];
    out.note(fmt::format("brings {} of sulfate, which has a limit of its own", print(brought.value(), "mg/L", 0)));
  }
  out.note("measure assimilable nitrogen again before any further dose, and follow the density daily");
}

void add_thiamine(const Inputs& in, Outcome& out) {
  const auto wanted = in.get(thiamine);
  if (!wanted) return;
  const std::string id(thiamine_limit.name);
  const auto bound = in[thiamine_limit];
  if (bound && !bound->met_by(*wanted)) {
    out.hold(thiamine_limit, *bound, *wanted, 2,
             "no thiamine was dosed: the limit allows " + print(bound->value.value(), "mg/L", 2));
    return;
  }
  const Mass mass = weighed(*wanted * in[lot::volume], bound ? MostMass(bound->value * in[lot::volume]) : MostMass());
  if (!(mass > Mass{})) {
    out.note("the thiamine is too little for the balance: dose it from a stock solution of known strength");
    return;
  }
  out.additions.push_back(addition_of(id, mass, in, "mg/L", 2));
  if (bound) out.hold(thiamine_limit, *bound, mass / in[lot::volume], 2, "");
}

}  // namespace vatwright::nutrient::nitrogen
