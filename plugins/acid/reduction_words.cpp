#include "plugins/acid/reduction_words.hpp"

#include "plugins/acid/reduction.hpp"
#include "plugins/acid/treatment.hpp"
#include "plugins/lab/in_the_tank.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace vatwright::acid::reduction {
namespace {

using chemistry::Acid;
using chemistry::Ion;

// A difference from the rule of thumb that would change what is done (common practice, no source).
constexpr double other_share = 0.5;

// Grams of the substance a litre for 1 g/L of titratable acidity as tartaric acid, as handbooks have
// it (from memory; for bicarbonate 0.67 to 1.0). By catalogue id.
struct Thumb {
  std::string_view substance;
  double grams;
};
constexpr Thumb thumbs[] = {
    {"calcium carbonate", 0.67}, {"potassium bicarbonate", 0.9}, {potassium_carbonate, 0.62}, {double_salt, 0.67}};

void crystals_table(const Inputs& in, const Question& q, MassConcentration dosed, Outcome& out) {
  Table table{.name = "Before and after the crystals",
              .columns = {{"state"}, {"predicted", "pH", 2}, {"titratable acidity", titratable_after.unit, 2}},
              .rows = {}};
  const auto state = [&](std::string name, const chemistry::Composition& c) {
    table.rows.push_back(
        {std::move(name), chemistry::equilibrium(c, q.wine.medium).ph.value(), titratable(q.wine, c).value()});
  };
  const auto row = [&](const char* name, Fraction falling) { state(name, q.plan.after(dosed, falling)); };
  row("gas gone, no crystals yet", none_falls);
  if (q.plan.falling_out > none_falls && q.plan.falling_out < all_fall) row("as predicted", q.plan.falling_out);
  row("all that was brought has fallen out", all_fall);
  if (q.plan.carbonate->crystals == chemistry::Crystals::bitartrate)
    if (const auto settled = at_equilibrium(in, q.plan.after(dosed, none_falls))) {
      state(fmt::format("at equilibrium, held at {}", print(settled->temperature, "°C", 0)), settled->deposit.left);
      out.note(
          fmt::format("at equilibrium, held at {}, {} of bitartrate would be out, as of a pure solution; what is "
                      "likely lies between "
                      "none of it and that: a wine holds crystals back, and without seed they take weeks",
                      print(settled->temperature, "°C", 0),
                      print(settled->deposit.removed * chemistry::bitartrate_molar_mass, "g/L", 2)));
    }
  out.tables.push_back(std::move(table));
}

// Cations with their crystals, as far as acids lasted.
void cation_note(const Question& q, MassConcentration dosed, Outcome& out) {
  const auto& ion = chemistry::row(q.plan.carbonate->cation);
  const auto brought =
      chemistry::charges(q.plan.carbonate->base(dosed)) / static_cast<double>(ion.charge) * ion.molar_mass;
  const MassConcentration stays = (q.plan.after(dosed)[ion.ion] - q.wine.composition[ion.ion]) * ion.molar_mass;
  out.note(fmt::format("brings {} of {}; {} of it is predicted to stay dissolved", print(brought, "mg/L", 0), ion.name,
                       print(std::max(stays, MassConcentration{}), "mg/L", 0)));
}

// Crystals need one tartaric acid for each cation; in a double salt malic acid, as far as there is of it,
// stands in for one half.
MassConcentration tartaric_needed(const Question& q, MassConcentration dosed) {
  const Acidity base = q.double_salt() ? *q.plan.in_part : q.plan.carbonate->base(dosed);
  const AmountConcentration cations = chemistry::charges(base) * q.plan.falling_out /
                                      static_cast<double>(chemistry::row(q.plan.carbonate->cation).charge);
  const AmountConcentration malic = q.double_salt()
                                        ? std::min<AmountConcentration>(cations / 2.0, q.wine.composition[Acid::malic])
                                        : AmountConcentration{};
  return (cations - malic) * chemistry::row(Acid::tartaric).molar_mass;
}

// With what a tartrate brings of it.
MassConcentration tartaric_present(const Question& q, MassConcentration dosed) {
  const auto& carbonate = *q.plan.carbonate;
  const AmountConcentration brought = dosed / carbonate.molar_mass * carbonate.tartaric;
  return (q.wine.composition[Acid::tartaric] + brought) * chemistry::row(Acid::tartaric).molar_mass;
}

// What may stay of calcium in the lot, about as much as a wine has of its own (common practice, no source).
constexpr MassConcentration little_calcium = 50.0 * milligram_per_litre;

// Where another way serves better: Mattick, Plane and Weirs, Am. J. Enol. Vitic. 31(4) (1980), abstract.
void other_ways(const Inputs& in, const Question& q, Outcome& out) {
  constexpr Acidity sour = 2.0 * 10.0 * gram_per_litre / chemistry::row(Acid::tartaric).molar_mass * equivalent / mole;
  constexpr Ph low = 3.0 * ph_unit;
  constexpr MassConcentration much_malic = 4.0 * gram_per_litre;
  if (q.plan.carbonate->cation == Ion::potassium && q.wine.titratable > sour && q.wine.ph >= low)
    out.note(
        "above 10 g/L of acidity potassium bicarbonate works only below pH 3.0 (Mattick, Plane and Weirs 1980): look "
        "at the double-salt treatment");
  if (const auto malic = in.get(lot::malic_acid); q.double_salt() && malic && *malic > much_malic)
    out.note(
        "with malic acid well over 4 g/L the malolactic conversion is to be preferred (Mattick, Plane and Weirs 1980)");
}

void course_notes(const Question& q, Outcome& out) {
  if (q.plan.carbonate->cation == Ion::potassium)
    out.note(
        "the figures are for when the potassium brought in has fallen out as bitartrate, in the share 'falling out'; "
        "without cold it takes weeks, and until then the acidity stands higher (see the table). The rule of thumb "
        "counts on less of it; the larger the share, the smaller the dose, and what is short can be added later");
  else if (q.double_salt())
    out.note("calcium that is left falls out as tartrate slowly, for weeks: measure calcium before bottling");
  else
    out.note(
        "calcium tartrate falls out slowly, for weeks, and not quite all of it: measure calcium before bottling; the "
        "acidity stays while it falls, and the pH comes down again (see the table)");
  out.note("acid and deacidification shut each other out on one must or wine (OIV Code; EU rules likewise)");
  if (q.plan.carbonate->tartaric > 0) return;
  out.note(q.double_salt() ? "carbon dioxide comes off: leave headspace, ventilate, pump slowly"
                           : "carbon dioxide comes off: leave headspace, ventilate, dose in portions");
}

void treated_part_notes(const Question& q, MassConcentration dosed, Outcome& out) {
  const auto part = q.plan.treated_part();
  out.note(
      fmt::format("the treated part comes down to {} (pH {}); filter it off the crystals at once, then blend it back",
                  print(titratable(q.wine, part), titratable_after.unit, 2),
                  print_number(chemistry::equilibrium(part, q.wine.medium).ph.value(), 2)));
  const auto after = q.plan.after(dosed);
  const auto gone = [&](Acid acid) -> MassConcentration {
    return (q.wine.composition[acid] - after[acid]) * chemistry::row(acid).molar_mass;
  };
  out.note(fmt::format(
      "predicted to fall out: {} of tartaric and {} of malic acid, as an ideal double salt; in practice less "
      "malic acid falls out (Mattick, Plane and Weirs 1980)",
      print(gone(Acid::tartaric), "g/L", 2), print(gone(Acid::malic), "g/L", 2)));
}

void rule_of_thumb(const Inputs& in, const Question& q, MassConcentration dosed, const State& state, Outcome& out) {
  if (q.plan.carbonate->tartaric > 0) return;  // no rule is in use
  const auto& thumb = *std::find_if(std::begin(thumbs), std::end(thumbs),
                                    [&](const Thumb& row) { return row.substance == in[substance].id; });
  const Acidity fall = q.wine.titratable - state.titratable;
  constexpr auto tartaric_per_equivalent = chemistry::row(Acid::tartaric).molar_mass.value() / 2;
  const auto there = coherent<MassConcentration>(thumb.grams * fall.value() * tartaric_per_equivalent);
  out.opinions.push_back({.name = fmt::format("dose by the rule of {:.2f} g for each gram of acidity", thumb.grams),
                          .here = figure(dosed, "g/L", 2),
                          .there = figure(there, "g/L", 2),
                          .matters = std::abs((there - dosed).value()) > other_share * dosed.value(),
                          .source = "from memory"});
}

}  // namespace

// A part that lacks tartaric acid keeps calcium, hundreds of mg/L, and brings it into the whole lot.
void refuse_calcium_left(const Question& q, MassConcentration dosed) {
  if (!q.double_salt() || !(dosed > MassConcentration{})) return;
  const auto needed = tartaric_needed(q, dosed), present = tartaric_present(q, dosed);
  const MassConcentration calcium = (needed - present) / chemistry::row(Acid::tartaric).molar_mass *
                                    chemistry::row(Ion::calcium).molar_mass * q.plan.part(dosed);
  if (calcium < little_calcium) return;
  throw InputError(fmt::format("the crystals of the treated part need {} of tartaric acid, and the lot has {}: the "
                               "calcium beyond it would stay in the lot",
                               print(needed, "g/L", 2), print(present, "g/L", 2)),
                   "ask for less, or take potassium bicarbonate");
}

void check_crystals(const Question& q, MassConcentration dosed, Outcome& out) {
  const auto needed = tartaric_needed(q, dosed), present = tartaric_present(q, dosed);
  const bool holds = needed < present;
  out.checks.push_back({.name = q.double_salt() ? "tartaric acid for the crystals, in the treated part"
                                                : "tartaric acid for the crystals",
                        .holds = holds,
                        .value = figure(needed, "g/L", 2),
                        .limit = figure(present, "g/L", 2),
                        .relation = "at most",
                        .source = "stoichiometry of the crystals",
                        .remedy = holds ? "" : "ask for less: the potassium or calcium beyond it stays in the lot"});
}

void say_course(const Inputs& in, const Question& q, MassConcentration dosed, const State& state, Outcome& out) {
  if (q.double_salt()) treated_part_notes(q, dosed, out);
  cation_note(q, dosed, out);
  lab::tell_ph_in_the_tank(in, q.plan.after(dosed), out);
  other_ways(in, q, out);
  course_notes(q, out);
  if (!q.double_salt()) crystals_table(in, q, dosed, out);
  rule_of_thumb(in, q, dosed, state, out);
}

}  // namespace vatwright::acid::reduction
