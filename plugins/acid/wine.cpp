#include "plugins/acid/wine.hpp"

#include "plugins/lab/analysis.hpp"
#include "plugins/lab/unmeasured.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace vatwright::acid {
namespace {

void write_notes(const Inputs& in, const chemistry::LabAnalysis& analysis, const chemistry::Inferred& found,
                 const chemistry::Medium& medium, Outcome& out) {
  const Strength ethanol = lab::ethanol(in);
  lab::tell_unmeasured(analysis, found, medium, out);
  lab::note_scaling(found, "", out);
  if (!in.has(lot::ethanol)) out.note(fmt::format("ethanol was not given: taken as {}", print(ethanol, "% vol", 0)));
  const auto& moved = medium.ethanol_set();
  out.note(fmt::format("model: {} ({}){}", model_source.title, model_source.standing,
                       ethanol > Strength{}
                           ? fmt::format("; the constants moved by ethanol after {}: {}", moved.name, moved.standing)
                           : ""));
  out.note(fmt::format("titratable acidity is meant to pH {} throughout", in[endpoint]));
  if (in[endpoint] == to_8)
    out.note(
        "above pH 7 phenols and amino acids titrate too, which the model leaves out: trust changes more than totals");
}

}  // namespace

Wine read_wine(const Inputs& in, Outcome& out) {
  const chemistry::Medium medium(lab::ethanol(in), chemistry::laboratory_temperature);
  auto analysis = lab::analysis(in);
  analysis.vetted = in.figures_only();
  const auto found = lab::infer(in, analysis, medium);
  if (!in.figures_only()) write_notes(in, analysis, found, medium, out);
  return {medium, analysis.endpoint, analysis.ph, analysis.titratable, found.composition};
}

std::optional<Wine> at_end(const Inputs& in, const Wine& wine, double leaning) {
  try {
    Wine out = wine;
    out.composition = chemistry::infer(lab::analysis(in), wine.medium, leaning).composition;
    return out;
  } catch (const InputError&) {
    return std::nullopt;
  }
}

Acidity titratable(const Wine& wine, const chemistry::Composition& after) {
  return chemistry::titratable_acidity(after, wine.endpoint, wine.medium);
}

State state_of(const Wine& wine, const chemistry::Composition& after) {
  return {chemistry::equilibrium(after, wine.medium).ph, titratable(wine, after)};
}

void write_state(const Wine& wine, const chemistry::Composition& after, const State& state, Outcome& out) {
  out.result(ph_after, state.ph);
  out.result(titratable_after, state.titratable);
  out.result(capacity_after, chemistry::buffer_capacity(after, state.ph, wine.medium));
}

void change_state(const State& state, Outcome& out) {
  const auto& ph = *lot::ph.valid;
  if (state.ph.value() < ph.low || state.ph.value() > ph.high || state.titratable < Acidity{})
    throw InputError(fmt::format("this would bring the lot to pH {} and {}, which no wine has",
                                 print_number(state.ph.value(), 2), print(state.titratable, titratable_after.unit, 2)),
                     "ask for less, and look at the measurements again");
  out.change(lot::ph, state.ph);
  out.change(lot::titratable_acidity, state.titratable);
}

void shift(const Inputs& in, const Key<MassConcentration>& key, MassConcentration by, Outcome& out) {
  if (by == MassConcentration{}) return;
  const auto present = in.get(key);
  if (!present) return;
  const auto after = std::max(*present + by, MassConcentration{});
  out.change(key, after);
}

}  // namespace vatwright::acid
