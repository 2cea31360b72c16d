#include "plugins/cellar/cooling.hpp"

#include "plugins/chemistry/fermentation.hpp"
#include "units/print.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace vatwright::cellar::cooling {
namespace {

constexpr auto heat_capacity = coherent<HeatCapacity>(3850);
constexpr auto heat_of_melting = coherent<HeatPerMass>(333.6e3);
// Taken where the lot does not say.
constexpr Density of_wine = 992.0 * kilogram_per_cubic_metre, of_must = 1080.0 * kilogram_per_cubic_metre;

// Times the heat of the lot itself.
double with_gain(const Inputs& in) { return std::max(1.0, 1 + in[gained].value() + in[heat_from_around].value()); }

Density density(const Inputs& in, Outcome& out) {
  if (const auto known = in.get(lot::density)) return *known;
  const Density taken = in.has(lot::ethanol) ? of_wine : of_must;
  out.note(fmt::format("density was not given: {} is taken", print(taken, "kg/m³", 0)));
  return taken;
}

void cool(const Inputs& in, Mass mass, Outcome& out) {
  if (!in.has(lot::temperature))
    throw InputError("'cool to' needs the temperature that the lot has", "give 'temperature', such as 24 °C");
  const TemperatureInterval fall = in[lot::temperature] - in[target];
  const Energy exact = mass * heat_capacity * (1 + in[heat_capacity_of_lot].value()) * fall * with_gain(in);
  const Energy out_of_it = fall > TemperatureInterval{} ? exact : Energy{};
  out.result(heat, out_of_it);
  out.result<Power>(power, out_of_it / in[within]);
  out.result<Mass>(ice, out_of_it / heat_of_melting);
  if (fall > TemperatureInterval{}) out.change(lot::temperature, in[target]);
  if (in.figures_only()) return;
  if (!(fall > TemperatureInterval{})) {
    out.checks.push_back({.name = "temperature",
                          .holds = true,
                          .value = figure(in[lot::temperature], "°C", 1),
                          .limit = figure(in[target], "°C", 1),
                          .relation = "at most",
                          .source = std::string(as_asked_for),
                          .remedy = ""});
    out.note("the lot is as cold as that already: nothing is cooled");
    return;
  }
  out.task(fmt::format("cool from {} to {}: {} within {}", print(in[lot::temperature], "°C", 1),
                       print(in[target], "°C", 1), print(out_of_it, "kWh", 1), print(in[within], "h", 1)));
  if (in[target] < celsius(0)) out.note("below 0 °C pipes and valves of water freeze, and the wine does at some -6 °C");
}

void hold(const Inputs& in, Outcome& out) {
  const Power made =
      in[lot::volume] * in[rate] * chemistry::fermentation_heat * (1 + in[lab::sugar_to_heat].value()) * with_gain(in);
  out.result(fermenting, made);
  out.reagents.emplace_back(lab::gas_of_fermentation);
  if (in.figures_only()) return;
  out.note(fmt::format("a cooler of less than {} lets the temperature climb while so much sugar goes in a day",
                       print(made, "kW", 2)));
  out.note(
      "fermentation makes carbon dioxide, which kills in low places: extract it at floor level before anyone enters");
}

}  // namespace

Outcome run(const Inputs& in) {
  if (!in.has(target) && !in.has(rate))
    throw InputError("neither 'cool to' nor 'sugar fermented' is given",
                     "say what is wanted, such as 'cool to: 14 °C'");
  Outcome out;
  if (in.has(target)) cool(in, in[lot::volume] * density(in, out), out);
  if (in.has(rate)) hold(in, out);
  if (in.figures_only()) return out;
  out.note(
      fmt::format("with {} of gain through walls and pipes, and a heat capacity of 3.85 kJ/kg/K (common practice, no "
                  "source)",
                  print(in[gained], "%", 0)));
  return out;
}

}  // namespace vatwright::cellar::cooling
