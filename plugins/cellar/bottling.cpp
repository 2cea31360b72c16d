#include "plugins/cellar/bottling.hpp"

#include "units/print.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace vatwright::cellar::bottling {
namespace {

// Of oxygen in a gas, as an ideal one at 20 °C and the standard atmosphere.
constexpr double room = 293.15, oxygen_molar_mass = 0.031998;
constexpr auto pure_oxygen = coherent<Density>(atmosphere * oxygen_molar_mass / (gas_constant * room));

// What the closure lets in, for a litre.
MassConcentration through_closure(const Inputs& in) {
  return in[closure] * std::max(0.0, 1 + in[closures_differ].value()) * in[after] / in[bottle];
}

MassConcentration total_oxygen(const Inputs& in) {
  const Mass in_gas = in[headspace] * in[in_headspace] * pure_oxygen;
  return in[dissolved] + in_gas / in[bottle] + through_closure(in);
}

Fraction sulfite_for_oxygen(const Inputs& in) {
  const bool usual = in[per_oxygen] == coherent<Fraction>(2.5);  // usual_per_oxygen
  return usual ? std::max<Fraction>(in[per_oxygen] + in[oxygen_to_sulfite], Fraction{}) : in[per_oxygen];
}

Chart course(const Inputs& in, MassConcentration used) {
  // What is packed goes in some months (from memory, common practice), the closure's share evenly.
  const Time packed = std::min<Time>(coherent<Time>(100.0 * 86400), in[after]);
  const MassConcentration by_closure = through_closure(in) * sulfite_for_oxygen(in);
  const auto at = [&](Time t) {
    const double first = std::min(1.0, (t / packed).value());
    return std::max(0.0,
                    (in[lot::free_so2] - (used - by_closure) * first - by_closure * (t / in[after]).value()).value());
  };
  Trace line{.name = "expected", .points = {}};
  constexpr int steps = 24;
  for (int i = 0; i <= steps; ++i) {
    const Time t = in[after] * (static_cast<double>(i) / steps);
    line.points.emplace_back(t.value(), at(t));
  }
  return {.name = "free SO2 in bottle",
          .x = {"time in bottle", "d", 0},
          .y = {"free SO2", "mg/L", 0},
          .traces = {std::move(line)},
          .band = std::nullopt,
          .band_name = ""};
}

}  // namespace

Outcome run(const Inputs& in) {
  const MassConcentration found = total_oxygen(in), used = found * sulfite_for_oxygen(in);
  const MassConcentration rest = std::max<MassConcentration>(in[lot::free_so2] - used, MassConcentration{});
  Outcome out;
  out.result(oxygen, found);
  out.result(used_up, used);
  out.result(left, rest);
  if (in.has(wanted)) out.result<MassConcentration>(at_filler, in[wanted] + used);
  if (in.has(gas))
    if (const auto bound = in[gas_limit])
      out.hold(gas_limit, *bound, in[gas], 2, "sparge with nitrogen before bottling, and measure again");
  if (in.has(wanted))
    out.checks.push_back({.name = "free SO2 at the end",
                          .holds = rest >= in[wanted],
                          .value = figure(rest, "mg/L", 1),
                          .limit = figure(in[wanted], "mg/L", 1),
                          .relation = "at least",
                          .source = "as wanted",
                          .remedy = fmt::format("bottle at {}, or with less oxygen: see what the total limit leaves",
                                                print(MassConcentration(in[wanted] + used), "mg/L", 1))});
  if (in.figures_only()) return out;
  out.charts.push_back(course(in, used));
  out.note(
      fmt::format("by {} of free sulfur dioxide for each mg of oxygen (a mean; 2.0 to 4.0 are in print): open a few "
                  "bottles after three months and measure",
                  print(in[per_oxygen], "1", 1)));
  if (in[dissolved] > 0.5 * milligram_per_litre)
    out.note(
        "more dissolved oxygen than the 0.5 mg/L that is aimed at: look at pump seals, hoses and the filler's start");
  out.note("a gas flushed line or head space belongs to closed, aired rooms only with an oxygen meter that warns");
  return out;
}

}  // namespace vatwright::cellar::bottling
