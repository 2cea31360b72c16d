#include "plugins/cold/wine.hpp"

#include "plugins/lab/analysis.hpp"
#include "plugins/lab/unmeasured.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

namespace vatwright::cold {

Ph endpoint_of(const Inputs& in) { return lot::ph_of_endpoint(in.get(lot::endpoint)); }

chemistry::Medium bench_medium(const Inputs& in) {
  return chemistry::Medium(lab::ethanol(in), chemistry::laboratory_temperature);
}

chemistry::Composition composition_of(const Inputs& in, const chemistry::Medium& bench, Outcome& out) {
  auto analysis = lab::analysis(in);
  analysis.vetted = in.figures_only();
  const auto found = lab::infer(in, analysis, bench);
  if (in.figures_only()) return found.composition;
  if (!in.has(lot::ethanol) && !analysis.must)
    out.note(
        fmt::format("ethanol was not given: {} is taken, as for a wine", print(chemistry::usual_strength, "% vol", 0)));
  lab::tell_unmeasured(analysis, found, bench, out);
  out.note(fmt::format("so the model has the pH and the titratable acidity to pH {} that were measured",
                       print_number(analysis.endpoint.value(), 1)));
  lab::note_scaling(found, "", out);
  return found.composition;
}

}  // namespace vatwright::cold
