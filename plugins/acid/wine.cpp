#include "plugins/acid/wine.hpp"

#include "plugins/chemistry/usual_wine.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace vatwright::acid {
namespace {

// A wine when it says so, or when it has ethanol to speak of.
bool is_must(const Inputs& in) {
  if (in.has(lot::stage)) return in[lot::stage] == "must";
  return in.has(lot::ethanol) && in[lot::ethanol] < 1.0 * percent_vol;
}

chemistry::LabAnalysis read_analysis(const Inputs& in, bool must) {
  return {.ph = in[lot::ph],
          .titratable = in[lot::titratable_acidity],
          .endpoint = ph_of_endpoint(in[endpoint]),
          .must = must,
          .tartaric = in.get(lot::tartaric_acid),
          .malic = in.get(lot::malic_acid),
          .lactic = in.get(lot::lactic_acid),
          .citric = in.get(lot::citric_acid),
          .succinic = in.get(lot::succinic_acid),
          .potassium = in.get(lot::potassium),
          .calcium = in.get(lot::calcium),
          .sodium = in.get(lot::sodium),
          .free_so2 = in.get(lot::free_so2),
          .volatile_acidity = in.get(lot::volatile_acidity)};
}

void write_notes(const Inputs& in, const chemistry::LabAnalysis& analysis, const chemistry::Inferred& found,
                 Strength ethanol, Outcome& out) {
  if (found.unmeasured > AmountConcentration{})
    out.note(fmt::format("{} of acid that was not measured is taken to be {} (an assumption; measure it to be surer)",
                         print(found.unmeasured.value(), "mmol/L", 1),
                         chemistry::names_of(chemistry::unmeasured_split(analysis))));
  if (!in.has(lot::ethanol))
    out.note(fmt::format("ethanol was not given: taken as {}", print(ethanol.value(), "% vol", 0)));
  out.note(fmt::format("titratable acidity is meant to pH {} throughout", in[endpoint]));
  if (in[endpoint] == to_8)
    out.note(
        "above pH 7 phenols and amino acids titrate too, which the model leaves out: trust changes more than totals");
}

}  // namespace

Wine read_wine(const Inputs& in, Outcome& out) {
  const bool must = is_must(in);
  const Strength ethanol = in.get(lot::ethanol).value_or(must ? Strength{} : chemistry::usual_strength);
  const chemistry::Medium medium(ethanol, chemistry::laboratory_temperature);
  const auto analysis = read_analysis(in, must);
  const auto found = chemistry::infer(analysis, medium);
  if (!in.figures_only()) write_notes(in, analysis, found, ethanol, out);
  return {medium, analysis.endpoint, analysis.ph, analysis.titratable, found.composition};
}

Acidity titratable(const Wine& wine, const chemistry::Composition& after) {
  return chemistry::titratable_acidity(after, wine.endpoint, wine.medium);
}

State state_of(const Wine& wine, const chemistry::Composition& after) {
  const Ph ph = chemistry::equilibrium(after, wine.medium).ph;
  return {ph, titratable(wine, after), chemistry::buffer_capacity(after, ph, wine.medium)};
}

void write_state(const State& state, Outcome& out) {
  out.result(ph_after, state.ph);
  out.result(titratable_after, state.titratable);
  out.result(capacity_after, state.capacity);
}

void change_state(const State& state, Outcome& out) {
  const auto& ph = *lot::ph.valid;
  if (state.ph.value() < ph.low || state.ph.value() > ph.high || state.titratable < Acidity{})
    throw InputError(
        fmt::format("this would bring the lot to pH {} and {}, which no wine has", print_number(state.ph.value(), 2),
                    print(state.titratable.value(), titratable_after.unit, 2)),
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
