#include "plugins/sulfite/dose.hpp"

#include "plugins/sulfite/addition.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

namespace vatwright::sulfite::addition {

namespace {

void check_strength(const Inputs& in, bool is_solution) {
  if (is_solution && !in.has(strength))
    throw InputError("a sulfur dioxide solution needs its strength", "such as 'strength: 60 g/L', from the label");
  if (!is_solution && in.has(strength))
    throw InputError("strength was given, but " + in[substance].id + " has none",
                     "say 'substance: sulfur dioxide solution', or leave strength out");
}

void bring(const Inputs& in, const Key<MassConcentration>& key, MassConcentration brought, std::string_view why,
           Outcome& out) {
  if (!(brought > MassConcentration{})) return;
  if (!in.figures_only()) out.note(fmt::format("brings {} of {}{}", print(brought, "mg/L", 1), key.name, why));
  if (const auto present = in.get(key)) out.change(key, *present + brought);
}

}  // namespace

Dose measure_out(const Inputs& in, chemistry::SulfurDioxideMass wanted, Rounding rounding) {
  const auto& facts = in[substance];
  const bool is_solution = facts.id == solution;
  check_strength(in, is_solution);
  if (is_solution) {
    const Volume volume = lab::rounded<Volume>(wanted.value() / in[strength], rounding, to_measure);
    return {{}, volume, as<chemistry::SulfurDioxide, Mass>(volume * in[strength])};
  }
  if (!(facts.active_share > 0)) throw std::logic_error("the catalogue gives no active share for " + facts.id);
  const auto exact = wanted.recount<chemistry::Product>(1 / facts.active_share);
  const auto weighed = as<chemistry::Product>(rounded<Mass>(exact.value(), rounding, to_balance));
  return {weighed, {}, weighed.recount<chemistry::SulfurDioxide>(facts.active_share)};
}

void write_addition(const Inputs& in, const Dose& dose, Outcome& out) {
  const auto& id = in[substance].id;
  Addition addition{.substance = id};
  if (dose.mass) {
    addition.mass = dose.mass->value();
    addition.dose = figure(dose.mass->value() / in[lot::volume], "g/hL", 2);
  } else {
    addition.volume = dose.volume;
    addition.strength = print(in[strength], "g/L", 1) + " SO2";
    addition.dose = figure(*dose.volume / in[lot::volume], "mL/hL", 1);
  }
  out.additions.push_back(std::move(addition));
  if (id == gas) out.note("sulfur dioxide gas needs a metering device and trained staff");
}

void bring_cations(const Inputs& in, const Dose& dose, Outcome& out) {
  if (!dose.mass) return;
  const MassConcentration product = dose.mass->value() / in[lot::volume];
  const auto& facts = in[substance];
  bring(in, lot::potassium, product * facts.brought(lot::potassium.name), ", which counts for cold stability", out);
  bring(in, lot::sodium, product * facts.brought(lot::sodium.name), "", out);
}

}  // namespace vatwright::sulfite::addition
