#include "plugins/cold/wine.hpp"

#include "plugins/chemistry/lab_analysis.hpp"
#include "plugins/chemistry/usual_wine.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

namespace vatwright::cold {

Ph endpoint_of(const Inputs& in) { return lot::ph_of_endpoint(in.get(lot::endpoint)); }

chemistry::Medium bench_medium(const Inputs& in) {
  const bool must = in.get(lot::stage) == "must";
  return chemistry::Medium(in.get(lot::ethanol).value_or(must ? Strength{} : chemistry::usual_strength),
                           chemistry::laboratory_temperature);
}

chemistry::Composition composition_of(const Inputs& in, const chemistry::Medium& bench, Outcome& out) {
  const chemistry::LabAnalysis analysis{.ph = in[lot::ph],
                                        .titratable = in[lot::titratable_acidity],
                                        .endpoint = endpoint_of(in),
                                        .must = in.get(lot::stage) == "must",
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
  const auto found = chemistry::infer(analysis, bench);
  if (!in.has(lot::ethanol) && !analysis.must && !in.figures_only())
    out.note(fmt::format("ethanol was not given: {} is taken, as for a wine",
                         print(chemistry::usual_strength.value(), "% vol", 0)));
  if (!in.figures_only())
    out.note(fmt::format(
        "acid that was not measured: {} mmol/L, taken as {}. So the model has the pH and the "
        "titratable acidity to pH {} that were measured",
        print_number(found.unmeasured.value(), 1), chemistry::names_of(chemistry::unmeasured_split(analysis)),
        print_number(analysis.endpoint.value(), 1)));
  return found.composition;
}

}  // namespace vatwright::cold
