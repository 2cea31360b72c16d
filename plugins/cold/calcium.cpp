#include "plugins/cold/calcium.hpp"

#include "plugins/chemistry/tartrate.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <cmath>

namespace vatwright::cold::calcium {
namespace {

// Without a titratable acidity: tartaric acid and the cations, brought to the pH by ions that nobody
// named.
chemistry::Composition at_measured_ph(const Inputs& in, const chemistry::Medium& bench, Outcome& out) {
  if (in.has(lot::titratable_acidity)) return composition_of(in, bench, out);
  chemistry::Composition c;
  c.add(chemistry::Acid::tartaric, in[lot::tartaric_acid]);
  c.add(chemistry::Ion::calcium, in[lot::calcium]);
  c.add(chemistry::Ion::potassium, in.get(lot::potassium).value_or(MassConcentration{}));
  c.rest = chemistry::base_to(c, in[lot::ph], bench);
  if (!in.figures_only())
    out.note(
        "titratable acidity was not given: the other acids do not count in the ionic strength, and the ratio "
        "reads high");
  return c;
}

void judge(const Inputs& in, Outcome& out) {
  const bool red = in.get(lot::colour) == "red";
  const auto given = in.get(most_calcium);
  const MassConcentration most = given.value_or(red ? most_in_red : most_in_other);
  const bool holds = in[lot::calcium] <= most;
  out.checks.push_back(
      {.name = "calcium tartrate risk by calcium",
       .holds = holds,
       .value = figure(in[lot::calcium], "mg/L", 0),
       .limit = figure(most, "mg/L", 0),
       .relation = "at most",
       .source = given ? std::string("criterion as given")
                       : fmt::format(
                             "Australian Wine Research Institute, column: risk above {} in {}", print(most, "mg/L", 0),
                             red ? "red wine" : "white wine; for pink wine the same figure stands in the trade press"),
       .remedy = holds ? ""
                       : "follow calcium over weeks; seed with calcium tartrate (cold.treatment) and measure "
                         "calcium, tartaric acid and pH again before bottling"});
}

}  // namespace

Outcome run(const Inputs& in) {
  Outcome out;
  const auto bench = bench_medium(in);
  const auto composition = at_measured_ph(in, bench, out);
  const auto at = chemistry::equilibrium(composition, bench);
  const auto ratio =
      chemistry::calcium_tartrate_saturation(composition, at, bench) * std::exp(in[calcium_complexes].value());
  out.result<Fraction>(saturation_ratio, ratio);
  judge(in, out);
  if (in.figures_only()) return out;
  if (!in.has(lot::colour)) out.note("colour was not given: judged as white or pink wine");
  out.note(
      "the ratio is against water at 20 °C. Ethanol and cold make calcium tartrate less soluble, so that in wine it is "
      "higher: below 1 is no all-clear. Complexes with tartrate and citrate work either way: with the published ion "
      "pairs the ratio would be 0.6 to 1.6 times this one. So the verdict goes by calcium alone");
  out.note(fmt::format("with the published ion pairs: from {} to {}", print(0.6 * ratio, "1", 2),
                       print(1.6 * ratio, "1", 2)));
  out.note(
      "no cold test foretells calcium tartrate, and it can fall out months later: measure calcium again after weeks, "
      "and after every rise of pH");
  return out;
}

}  // namespace vatwright::cold::calcium
