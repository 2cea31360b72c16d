#include "plugins/lab/thinned_ph.hpp"

#include "plugins/chemistry/alcoholometry.hpp"
#include "plugins/lab/analysis.hpp"

namespace vatwright::lab {
namespace {

chemistry::Composition in_more(chemistry::Composition dissolved, double thinner) {
  for (auto& acid : dissolved.acids) acid *= thinner;
  for (auto& ion : dissolved.ions) ion *= thinner;
  dissolved.rest *= thinner;
  return dissolved;
}

}  // namespace

std::optional<Ph> thinned_ph(const Inputs& in, const Poured& poured, Strength then) {
  const Strength now = ethanol(in);
  if (!in.has(lot::ph) || !in.has(lot::titratable_acidity)) return std::nullopt;
  if (now > chemistry::most_acid_strength || then > chemistry::most_acid_strength) return std::nullopt;
  try {
    auto measured = analysis(in);
    measured.vetted = in.figures_only();
    const auto found = infer(in, measured, chemistry::Medium(now, chemistry::strength_temperature));
    const chemistry::Medium medium(then, chemistry::strength_temperature);
    return chemistry::equilibrium(in_more(found.composition, poured.thinner().value()), medium, in[lot::ph]).ph;
  } catch (const InputError&) {
    return std::nullopt;
  }
}

bool pour(const Inputs& in, const Poured& poured, Strength then, Outcome& out) {
  out.poured = poured;
  const auto ph = thinned_ph(in, poured, then);
  if (ph) out.change(lot::ph, *ph);
  return ph.has_value();
}

}  // namespace vatwright::lab
