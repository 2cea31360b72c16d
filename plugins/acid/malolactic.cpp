#include "plugins/acid/malolactic.hpp"

#include "plugins/acid/wine.hpp"
#include "plugins/chemistry/acid_treatment.hpp"
#include "plugins/chemistry/constants.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <cmath>

namespace vatwright::acid::malolactic {
namespace {

using chemistry::Acid;

// Litres in a mole of gas at 20 °C and one atmosphere: R T / p.
constexpr double litres_per_mole =
    1000 * chemistry::kernel::gas_constant * celsius(20).value() / chemistry::kernel::atmosphere;
// A difference from the rule of thumb that would change what is done, 0.1 g/L as tartaric acid (common
// practice, no source).
constexpr Acidity other_acidity = 1.5 * milliequivalent_per_litre;

MassConcentration mass_of(const chemistry::Composition& c, Acid acid) {
  return c[acid] * chemistry::row(acid).molar_mass;
}

void write_sheet(const Inputs& in, const Wine& wine, const State& state, AmountConcentration formed, Outcome& out) {
  out.reagents.emplace_back(lab::gas_of_fermentation);
  if (const auto volume = in.get(lot::volume))
    out.note(fmt::format("the lot gives off about {:.0f} L of carbon dioxide: ventilate, low places first",
                         (formed * *volume).value() * litres_per_mole));
  out.note(
      "lactic bacteria use up citric acid and sugar too, and make a little acetic acid: the volatile acidity rises");
  out.note(
      "not in a lot that holds sorbic acid: lactic bacteria turn it into a smell of geranium leaves that stays; and "
      "sulfur dioxide holds them back");
  out.note(
      "part of the tartrate may fall out as the pH moves; measure pH, acidity, malic, lactic "
      "and volatile acid and free SO2 again before you dose on them; turbidity and conductivity are unknown");
  const Acidity there = wine.titratable - chemistry::equivalents(formed);
  out.opinions.push_back({.name = "titratable acidity by the rule that half of the malic acidity goes",
                          .here = figure(state.titratable, titratable_after.unit, 2),
                          .there = figure(there, titratable_after.unit, 2),
                          .matters = std::abs((there - state.titratable).value()) > other_acidity.value(),
                          .source = "derived"});
}

}  // namespace

Outcome run(const Inputs& in) {
  Outcome out;
  const Wine wine = read_wine(in, out);
  const auto after = chemistry::after_malolactic(wine.composition, in[converted]);
  const AmountConcentration formed = wine.composition[Acid::malic] - after[Acid::malic];
  const State state = state_of(wine, after);
  write_state(wine, after, state, out);
  out.result(malic_after, mass_of(after, Acid::malic));
  out.result(lactic_after, mass_of(after, Acid::lactic));
  out.result<MassConcentration>(carbon_dioxide, formed * chemistry::row(Acid::carbonic).molar_mass);
  if (formed > AmountConcentration{}) {
    change_state(state, out);
    out.change(lot::malic_acid, mass_of(after, Acid::malic));
    out.change(lot::lactic_acid, mass_of(after, Acid::lactic));
    for (const Input* key : moved_besides) out.carry_over(*key);
    out.forget(lot::turbidity);
    out.forget(lot::conductivity);
  }
  if (const auto least = in[total_limit])
    out.hold(total_limit, *least, state.titratable, 2,
             "leave part of the malic acid ('converted'), or plan for acid afterwards");
  if (!in.figures_only()) write_sheet(in, wine, state, formed, out);
  return out;
}

}  // namespace vatwright::acid::malolactic
