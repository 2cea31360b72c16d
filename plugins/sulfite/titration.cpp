#include "plugins/sulfite/titration.hpp"

#include "plugins/chemistry/sulfite_titration.hpp"
#include "plugins/chemistry/titration.hpp"
#include "plugins/lab/reagent.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

namespace vatwright::sulfite::titration {
namespace {

// A figure that no lot can have is a slip in the titration, whatever it is to be used for.
void check_plausible(const Inputs& in, MassConcentration found) {
  const auto& key = in.get(measures) == lot::free_so2.name ? lot::free_so2 : lot::total_so2;
  if (found > key.valid->high * milligram_per_litre)
    throw InputError("the titration gives " + print(found, "mg/L", 1) + " of " +
                         (in.has(measures) ? std::string(key.name) : "SO2") + ", more than a wine has",
                     "look at the titrant concentration (mol/L; iodine as I2) and the sample volume");
}

void check_against_other(MassConcentration free_so2, MassConcentration total_so2, Outcome& out) {
  out.checks.push_back({.name = "free SO2 within total SO2",
                        .holds = free_so2 <= total_so2,
                        .value = figure(free_so2, "mg/L", 1),
                        .limit = figure(total_so2, "mg/L", 1),
                        .relation = "at most",
                        .source = "free is a part of total",
                        .remedy = free_so2 <= total_so2 ? "" : "measure both again on one sample"});
}

void update_lot(const Inputs& in, MassConcentration found, Outcome& out) {
  if (in.get(measures) == lot::free_so2.name) {
    out.change(lot::free_so2, found);
    if (const auto total = in.get(lot::total_so2)) check_against_other(found, *total, out);
  } else if (in.get(measures) == lot::total_so2.name) {
    out.change(lot::total_so2, found);
    if (const auto free = in.get(lot::free_so2)) check_against_other(*free, found, out);
  }
}

MassConcentration found_by(const Inputs& in, Volume used, bool by_iodine) {
  const Volume net = chemistry::net_titrant(used, in[blank]);
  const AmountConcentration strength = in[titrant_concentration] * in[lab::factor];
  const auto found = by_iodine ? chemistry::so2_by_iodine(net, strength, in[sample])
                               : chemistry::so2_by_aeration_oxidation(net, strength, in[sample]);
  check_plausible(in, found);
  return found;
}

// Of one titration nobody asks how well it repeats, unless they say so.
MassConcentration limit_of(const Inputs& in, const std::vector<double>& each) {
  if (const auto said = in.get(repeatability)) return *said;
  constexpr auto few = 1.0 * milligram_per_litre, many = 6.0 * milligram_per_litre, from = 50.0 * milligram_per_litre;
  if (each.size() < 2) return {};
  return coherent<MassConcentration>(each.front()) < from ? few : many;
}

}  // namespace

Outcome run(const Inputs& in) {
  const bool by_iodine = in[method] == iodine;
  Outcome out;
  std::vector<double> each;
  for (const Volume& used : lab::titrants_of(in, titrant)) each.push_back(found_by(in, used, by_iodine).value());
  const auto reported = lab::report(each, limit_of(in, each).value(), so2.dimension, {so2.unit, so2.decimals}, in, out);
  const auto value = lab::value_of<MassConcentration>(reported);
  if (value) {
    out.result(so2, *value, reported.standard, reported.name);
    update_lot(in, *value, out);
  }
  if (by_iodine) {
    out.reagents = {lab::reagent_of("iodine solution", in[titrant_concentration]), "sulfuric acid"};
    // The total is titrated after alkali has freed what was bound.
    if (in.get(measures) != lot::free_so2.name) out.reagents.emplace_back("sodium hydroxide solution");
    const double molarity = in[titrant_concentration] / mole_per_litre;
    out.note(fmt::format("the titrant was taken as {:.6g} mol/L of I2, which is {:.6g} N", molarity,
                         chemistry::electrons_of_iodine * molarity));
    out.note(
        "iodine finds too much in red wine and wherever there is ascorbic acid, because other substances take up "
        "iodine too; a blank with the sulfur dioxide bound by acetaldehyde shows how much");
  } else {
    out.reagents = {lab::reagent_of("sodium hydroxide solution", in[titrant_concentration]),
                    "hydrogen peroxide solution", "phosphoric acid"};
    out.note(
        "run cold for free, boiling for total sulfur dioxide; the acidified sample frees bound sulfur dioxide in "
        "red wine, so that free reads high there");
  }
  out.note("waste goes as local rules say");
  return out;
}

}  // namespace vatwright::sulfite::titration
